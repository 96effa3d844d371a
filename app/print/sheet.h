#pragma once

#include <functional>
#include <optional>

#include <QFont>
#include <QPageLayout>
#include <QString>

#include "core/result.h"

class QPagedPaintDevice;

namespace secondpull::app {

/// Something that goes on paper or into a PDF: its page, and how it is drawn.
struct Sheet {
  QString title;      ///< for the printer's queue and the PDF's title
  QString file_name;  ///< suggested, without folder and ending: "tag-14"
  QPageLayout layout;
  /// Draws it on a device that has that layout and returns the number of pages; 0: nothing could be drawn.
  std::function<int(QPagedPaintDevice&)> draw;
};

/// A4, or Letter where that is what paper is, with the margins of the shop's papers.
QPageLayout paperPage(QPageLayout::Orientation orientation = QPageLayout::Portrait);

/// The typeface of all papers. Its letters stay letters in a PDF, so that its words can be found and copied.
QFont paperFont(qreal points);

/// Writes it as PDF; the file is there whole or not at all. A problem names the file.
std::optional<Problem> writeSheetPdf(const Sheet& sheet, const QString& path);

/// Writes a file whole or not at all. A problem names it.
std::optional<Problem> writeWhole(const QString& path, const QByteArray& content);

}  // namespace secondpull::app
