#pragma once

#include "app/books/books_panel.h"
#include "app/parts/data_table.h"
#include "core/books/year_papers.h"

class QStackedWidget;

namespace secondpull::app {

class MoneyBars;
class WhyFigure;

/// Money that lies in machines and parts today, and for how long. Object names: tiedUpTable, tiedUpBars,
/// tiedUpTotal, tiedUpMachines, tiedUpParts.
class TiedUpPanel : public BooksPanel {
  Q_OBJECT
 public:
  TiedUpPanel(Session& session, QWidget* parent);
  void refresh() override;
  void start() override { table_->setFocus(); }
  Report report() const override;
  bool isAboutAYear() const override { return false; }

 private:
  QStackedWidget* whole_;
  WhyFigure *total_, *machines_, *parts_;
  RowModel<TiedUp>* model_;
  DataTable* table_;
  MoneyBars* bars_;
};

}  // namespace secondpull::app
