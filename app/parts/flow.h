#pragma once

#include <QLayout>

namespace secondpull::app {

/// Puts its widgets one after the other and goes on in a new row where the width ends, as words in a line do.
class Flow : public QLayout {
 public:
  explicit Flow(QWidget* parent = nullptr, int gap = 8);
  ~Flow() override;
  void setGap(int gap);  ///< between widgets and between rows
  void addItem(QLayoutItem* item) override;
  int count() const override;
  QLayoutItem* itemAt(int index) const override;
  QLayoutItem* takeAt(int index) override;
  Qt::Orientations expandingDirections() const override { return {}; }
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override;
  QSize sizeHint() const override;     ///< all in one row
  QSize minimumSize() const override;  ///< the widest of them
  void setGeometry(const QRect& rect) override;

 private:
  int place(const QRect& rect, bool move) const;  // the height it took
  std::vector<QLayoutItem*> items_;
  int gap_;
};

}  // namespace secondpull::app
