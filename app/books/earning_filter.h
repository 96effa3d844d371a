#pragma once

#include <array>

#include <QWidget>

#include "app/books/earning_rows.h"

class QComboBox;

namespace secondpull::app {

/// Chooses machines by kind, source, make, and the year or month in which they left. Each list holds what
/// there is. Object names: booksKind, booksSource, booksMake, booksWhen.
class EarningFilter : public QWidget {
  Q_OBJECT
 public:
  explicit EarningFilter(QWidget* parent = nullptr);
  void offer(const std::vector<EarningRow>& rows);  ///< what was chosen stays, if it is still there
  bool passes(const EarningRow& row) const;
  QString inWords() const;  ///< "push, curb, 2026"; empty: all

 signals:
  void chosen();

 private:
  std::array<QComboBox*, 4> boxes_{};
};

}  // namespace secondpull::app
