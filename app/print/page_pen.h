#pragma once

#include <functional>
#include <memory>
#include <vector>

#include <QString>

class QPagedPaintDevice;
class QPainter;
class QTextLayout;

namespace secondpull::app {

/// How a piece of text stands on paper.
struct PenStyle {
  qreal points = 10;
  bool bold = false;
  bool faded = false;  ///< grey
  Qt::Alignment align = Qt::AlignLeft;
};

/// A piece of a row; widths in mm from the left margin.
struct PenCell {
  enum class What { text, box, bar, line };
  QString text;
  double left = 0;
  double width = 0;
  PenStyle style{};
  What what = What::text;  ///< box: a square to tick; bar: a share of the width; line: to write on
  double share = 0;        ///< of a bar, [0, 1]
};

/// Writes a paper from its top down, page after page: black on white, in millimetres, with the page's number
/// at its foot. What is written in one call stays together on a page, but for text() and list(), which go on
/// with the next line.
class PagePen {
 public:
  double width() const { return width_; }       ///< between the margins
  double left() const { return height_ - y_; }  ///< what the page has left
  double y() const { return y_; }               ///< from the top margin
  void space(double mm);                        ///< nothing at the top of a page
  void keepTogether(double mm);                 ///< begins a page if less than that is left
  void text(const QString& words, PenStyle style = {}, double left = 0, double width = 0);
  void heading(const QString& words);
  /// Lines with a dash before each.
  void list(const std::vector<std::string>& items, PenStyle style = {}, double left = 0);
  void row(const std::vector<PenCell>& cells, double gap = 1);
  double heightOf(const std::vector<PenCell>& cells) const;
  void rule(bool strong = false);
  /// Lines to write on, down to the end of the page; at least so many.
  void linesToWriteOn(int at_least, double gap);
  /// Lines down from there to y(), at so many mm from the left.
  void columns(const std::vector<double>& at, double from);
  /// The painter, to draw freely below y(), and dots to a mm; null while pages are counted. Drawing moves
  /// nothing: use space().
  QPainter* painter() const { return painter_; }
  double dots(double mm) const { return mm * per_mm_; }

 private:
  friend int drawPages(QPagedPaintDevice&, const QString&, const std::function<void(PagePen&)>&);
  PagePen(QPagedPaintDevice& device, QPainter* painter, QString foot, int pages);
  std::unique_ptr<QTextLayout> laidOut(const QString& words, const PenStyle& style, double width) const;
  void newPage();
  void writeFoot();

  QPagedPaintDevice& device_;
  QPainter* painter_;
  QString foot_;
  double per_mm_;
  double width_;
  double height_;
  double y_ = 0;
  int page_ = 1;
  int pages_;
};

/// Writes the paper twice: to count its pages, and then on the device. `foot` stands at the left of every
/// foot. Returns the number of pages; 0 if the device cannot be drawn on.
int drawPages(QPagedPaintDevice& device, const QString& foot, const std::function<void(PagePen&)>& write);

}  // namespace secondpull::app
