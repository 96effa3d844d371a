#pragma once

#include <optional>
#include <set>
#include <vector>

#include "app/books/books_panel.h"
#include "app/books/earning_rows.h"

class QGridLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;

namespace secondpull::app {

class EarningDetail;
class EarningFilter;
class MoneyBars;
class TwoSides;
class WhyFigure;
class WordRow;

/// What every machine that is gone earned, singly and in groups, as a table and as charts.
class MachinesPanel : public BooksPanel {
  Q_OBJECT
 public:
  MachinesPanel(Session& session, QWidget* parent);
  void refresh() override;
  void start() override;
  Report report() const override;
  bool isAboutAYear() const override { return false; }
  void openMachine(MachineId machine) override;
  void groupBy(GroupBy by);

 protected:
  void keyPressEvent(QKeyEvent* event) override {
    if (event->key() == Qt::Key_Escape && only_)
      showAll();
    else
      BooksPanel::keyPressEvent(event);
  }

 private:
  QWidget* makeHead();
  QWidget* makeTables();
  QWidget* makeCharts();
  void placeDetail(bool below);  ///< below the bars, or beside them
  void follow(DataTable* table);

  GroupBy by() const;
  bool single() const { return by() == GroupBy::machine; }
  DataTable* currentTable() const { return single() ? table_ : groups_table_; }

  void regroup();
  void showOnly(const GroupRow& group);
  void showAll();
  void rowsMoved();      ///< another order, filter or group: totals and bars again
  Earned total() const;  ///< of the machines shown
  void showTotals();
  void rowChosen();

  std::vector<EarningRow> rows_;
  std::vector<GroupRow> groups_;
  std::vector<int> order_;       ///< source rows as the current table shows them
  std::vector<int> bars_;        ///< those of them that have a bar
  std::optional<QString> only_;  ///< the one group that is shown
  std::set<int> only_rows_;

  QStackedWidget* whole_;
  QLabel* problem_;
  WhyFigure *total_gross_, *total_profit_, *total_hours_, *total_pay_;
  WordRow* group_by_;
  QLineEdit* filter_;
  EarningFilter* by_word_;
  QPushButton* all_;
  QStackedWidget* tables_;
  DataTable *table_, *groups_table_;
  RowModel<EarningRow>* model_;
  RowModel<GroupRow>* groups_model_ = nullptr;
  MoneyBars* profit_bars_;
  QLabel* bars_title_;
  EarningDetail* detail_;
  TwoSides* sides_;
  QGridLayout* charts_;
};

}  // namespace secondpull::app
