#pragma once

#include <vector>

#include <QWidget>

#include "app/books/earning_rows.h"

class QLabel;
class QStackedWidget;

namespace secondpull::app {

class MoneyBars;
class Session;
class WhyFigure;

/// How one machine, or several together, went from price to profit: three figures and the steps as bars.
/// Object names: booksGross, booksProfit, booksPay, booksWaterfall, booksNoProfit.
class EarningDetail : public QWidget {
  Q_OBJECT
 public:
  explicit EarningDetail(Session& session, QWidget* parent = nullptr);
  void show(const EarningRow& machine);
  void show(const GroupRow& group, const std::vector<EarningRow>& rows);
  void showNothing();

 private:
  void showSum(const QString& title, const Earned& sum, const std::vector<FigureLine>& lines,
               const QString& why_gross, const QString& why_profit);
  void say(const QString& sentence);
  Session& session_;
  QLabel *title_, *no_profit_;
  WhyFigure *gross_, *profit_, *pay_;
  MoneyBars* waterfall_;
  QStackedWidget* shown_;
};

/// The labelled figure of that object name.
WhyFigure* figureNamed(const QString& label, const char* name);

}  // namespace secondpull::app
