#pragma once

#include "app/books/books_panel.h"
#include "app/parts/data_table.h"

class QLabel;
class QStackedWidget;

namespace secondpull::app {

class MoneyBars;
class WhyFigure;
class WordRow;

/// Profit and hours of a year by month. Object names: monthsTable, monthsProfit, monthsHours (bars, one at a
/// time: monthsWhich), monthsTotalProfit, monthsTotalHours, monthsTotalPay, monthsProblem.
class MonthsPanel : public BooksPanel {
  Q_OBJECT
 public:
  MonthsPanel(Session& session, QWidget* parent);
  void refresh() override;
  void start() override { table_->setFocus(); }
  Report report() const override;

 private:
  QStackedWidget* whole_;
  QLabel* problem_;
  WhyFigure *profit_, *hours_, *pay_;
  RowModel<MonthFigures>* model_;
  DataTable* table_;
  WordRow* which_;
  QStackedWidget* charts_;
  MoneyBars *profit_bars_, *hours_bars_;
};

}  // namespace secondpull::app
