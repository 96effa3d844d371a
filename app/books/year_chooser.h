#pragma once

#include <QWidget>

class QLabel;
class QToolButton;

namespace secondpull::app {

/// The year that the pages of the Books are about: earlier, the year, later. Object names: yearEarlier,
/// yearShown, yearLater.
class YearChooser : public QWidget {
  Q_OBJECT
 public:
  explicit YearChooser(int year, QWidget* parent = nullptr);
  int year() const { return year_; }
  void setYear(int year);  ///< kept between the limits; does not send chosen
  void setLimits(int first, int last);
  void step(int years);  ///< as the buttons do

 signals:
  void chosen(int year);

 private:
  void show();
  int year_, first_, last_;
  QLabel* label_;
  QToolButton *earlier_, *later_;
};

}  // namespace secondpull::app
