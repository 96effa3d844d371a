#pragma once

#include <QStyledItemDelegate>

namespace secondpull::app {

/// Draws the text of a column as the shop's mark of a machine: a tie-on tag with that number ("14" or "#14").
/// The column's text stays plain, so that it is filtered, copied and read aloud as it is.
class TagDelegate : public QStyledItemDelegate {
  Q_OBJECT
 public:
  using QStyledItemDelegate::QStyledItemDelegate;
  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

}  // namespace secondpull::app
