#include "app/print/sheet.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QLocale>
#include <QPdfWriter>
#include <QSaveFile>

namespace secondpull::app {
namespace {

constexpr double kMargin = 16;  // mm
constexpr int kPdfResolution = 600;

QString tr(const char* text) {
  return QCoreApplication::translate("Paper", text);
}

bool usesLetter(const QLocale& locale) {
  return locale.territory() == QLocale::UnitedStates || locale.territory() == QLocale::Canada ||
         locale.territory() == QLocale::Mexico;
}

std::optional<Problem> cannotWrite(const QString& path, const QString& why) {
  return Problem{tr("The file %1 cannot be written: %2").arg(path, why).toStdString(), "file",
                 path.toStdString()};
}

}  // namespace

QPageLayout paperPage(QPageLayout::Orientation orientation) {
  return {QPageSize{usesLetter(QLocale::system()) ? QPageSize::Letter : QPageSize::A4}, orientation,
          QMarginsF{kMargin, kMargin, kMargin, kMargin}, QPageLayout::Millimeter};
}

QFont paperFont(qreal points) {
  QFont font{QStringLiteral("Lato")};  // its digits are all of one width
  font.setPointSizeF(points);
  // Any spacing of letters keeps Qt from drawing two of them as one: what is drawn so cannot be searched for
  // or copied out of a PDF.
  constexpr qreal kNoLigatures = 0.02;
  font.setLetterSpacing(QFont::AbsoluteSpacing, kNoLigatures);
  return font;
}

std::optional<Problem> writeWhole(const QString& path, const QByteArray& content) {
  QSaveFile file{path};
  if (!file.open(QIODevice::WriteOnly) || file.write(content) != content.size() || !file.commit())
    return cannotWrite(path, file.errorString());
  return std::nullopt;
}

std::optional<Problem> writeSheetPdf(const Sheet& sheet, const QString& path) {
  QBuffer content;
  content.open(QIODevice::WriteOnly);
  {
    QPdfWriter writer{&content};
    writer.setResolution(kPdfResolution);
    writer.setTitle(sheet.title);
    writer.setCreator(QStringLiteral("Second Pull"));
    writer.setPageLayout(sheet.layout);
    if (sheet.draw(writer) == 0) return cannotWrite(path, tr("nothing could be drawn"));
  }
  return writeWhole(path, content.data());
}

}  // namespace secondpull::app
