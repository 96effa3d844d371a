#pragma once

#include <QAbstractTableModel>

#include "app/books/year_rows.h"

class QTableView;

namespace secondpull::app {

/// The sections of a year one below the other, as a table of three columns: line, what, amount. Its order is
/// the form's, so it does not sort.
class YearTable : public QAbstractTableModel {
  Q_OBJECT
 public:
  using QAbstractTableModel::QAbstractTableModel;
  void setSections(const std::vector<YearSection>& sections);
  const YearRow* rowAt(int row) const;  ///< nullptr for a title
  int rowOf(YearLine line) const;       ///< the first that shows that figure, -1 if none does
  void layOut(QTableView& view) const;  ///< widths, and titles and sentences over all columns

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override { return parent.isValid() ? 0 : 3; }
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;

 private:
  struct At {
    QString title;  ///< of a section, or
    YearRow row;
    bool is_title = false;
  };
  std::vector<At> rows_;
};

}  // namespace secondpull::app
