#pragma once

#include "app/books/books_panel.h"

class QLabel;
class QStackedWidget;

namespace secondpull::app {

class ExpenseList;
class MoneyBars;
class TripList;
class TwoSides;
class WhyFigure;
class WordRow;

/// What went out for the shop in a year: expenses by kind, and the mileage log; both typed line by line.
/// Object names: moneyOutWhich, moneyOutSides, moneyOutBars, expenseTotal, tripMilesTotal, tripCostTotal,
/// tripLacking, and those of the lists.
class MoneyOutPanel : public BooksPanel {
  Q_OBJECT
 public:
  MoneyOutPanel(Session& session, QWidget* parent);
  void refresh() override;
  void start() override;
  Report report() const override;
  void showTrips();

 private:
  QWidget* makeExpenses();
  QWidget* makeTrips();
  void showExpenses();
  void showLog();
  WordRow* which_;
  QStackedWidget* stack_;
  TwoSides* sides_;
  ExpenseList* expenses_;
  TripList* trips_;
  WhyFigure *total_, *miles_, *cost_;
  QLabel *lacking_, *bars_title_;
  MoneyBars* bars_;
};

}  // namespace secondpull::app
