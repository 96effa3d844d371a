#include "app/print/paper_desk.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileDialog>
#include <QPrintDialog>
#include <QPrinter>
#include <QStandardPaths>

namespace secondpull::app {
namespace {

QString tr(const char* text) {
  return QCoreApplication::translate("Paper", text);
}

}  // namespace

PaperSaid printPaper(const Sheet& sheet, QWidget* over) {
  QPrinter printer{QPrinter::HighResolution};
  printer.setDocName(sheet.title);
  printer.setPageLayout(sheet.layout);
  QPrintDialog dialog{&printer, over};
  if (dialog.exec() != QDialog::Accepted) return {};
  if (sheet.draw(printer) == 0)
    return {tr("%1 could not be printed on %2.").arg(sheet.title, printer.printerName()), true};
  return {tr("%1 went to the printer.").arg(sheet.title), false};
}

QString askForPath(const QString& title, const QString& file_name, const QString& ending, QWidget* over) {
  const QDir documents{QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation)};
  QString path = QFileDialog::getSaveFileName(over, title, documents.filePath(file_name + ending),
                                              QStringLiteral("*") + ending);
  if (!path.isEmpty() && QFileInfo{path}.suffix().isEmpty()) path += ending;
  return path;
}

PaperSaid savePaper(const Sheet& sheet, QWidget* over) {
  const QString path = askForPath(tr("Write as PDF"), sheet.file_name, QStringLiteral(".pdf"), over);
  return path.isEmpty() ? PaperSaid{} : savePaperTo(sheet, path);
}

PaperSaid savePaperTo(const Sheet& sheet, const QString& path) {
  const auto wrong = writeSheetPdf(sheet, path);
  return {wrong ? QString::fromStdString(wrong->sentence) : tr("Written to %1.").arg(path),
          wrong.has_value()};
}

}  // namespace secondpull::app
