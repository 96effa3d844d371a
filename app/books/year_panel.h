#pragma once

#include "app/books/books_panel.h"
#include "app/books/year_rows.h"

class QLabel;
class QStackedWidget;
class QTableView;

namespace secondpull::app {

class TwoSides;
class WhyPanel;
class YearTable;

/// The year laid out as the parts of the tax form, with the identity of the books, the tax estimate and what
/// was received by way of payment; each line can be asked why. Object names: yearTable, yearProblem,
/// yearClosed, yearSides, and those of WhyPanel.
class YearPanel : public BooksPanel {
  Q_OBJECT
 public:
  YearPanel(Session& session, QWidget* parent);
  void refresh() override;
  void start() override;
  Report report() const override;

 protected:
  /// Sentences in the table wrap by its width.
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void ask();
  QStackedWidget* whole_;
  QLabel *heading_, *closed_, *problem_;
  YearTable* rows_;
  QTableView* table_;
  WhyPanel* why_;
  TwoSides* sides_;
  std::vector<YearSection> sections_;
};

}  // namespace secondpull::app
