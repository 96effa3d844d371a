#include "app/print/report_bar.h"

#include <QDir>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QPrintDialog>
#include <QPrinter>
#include <QPushButton>
#include <QStandardPaths>

#include "app/parts/look.h"
#include "app/print/paper.h"

namespace secondpull::app {

ReportBar::ReportBar(std::function<Report()> make, QWidget* parent)
    : QWidget(parent), make_{std::move(make)} {
  auto* line = new QHBoxLayout{this};
  line->setContentsMargins(0, 0, 0, 0);
  line->setSpacing(kGrid / 2);
  const auto button = [&](const char* name, const QString& text, const QString& what, const QKeySequence& key,
                          void (ReportBar::*run)()) {
    auto* made = new QPushButton{text, this};
    made->setObjectName(QString::fromLatin1(name));
    made->setAccessibleName(what);
    made->setToolTip(QStringLiteral("%1   %2").arg(what, key.toString(QKeySequence::NativeText)));
    setRank(made, "quiet");
    line->addWidget(made);
    connect(made, &QPushButton::clicked, this, run);
  };
  button("reportPrint", tr("Print..."), tr("Print this page"), QKeySequence{"Ctrl+P"}, &ReportBar::print);
  button("reportPdf", tr("PDF..."), tr("Write this page as PDF"), QKeySequence{"Ctrl+Shift+P"},
         &ReportBar::pdf);
  button("reportCsv", tr("CSV..."), tr("Write this page as a table for a spreadsheet"),
         QKeySequence{"Ctrl+Shift+S"}, &ReportBar::csv);
}

void ReportBar::print() {
  const Report report = make_();
  QPrinter printer{QPrinter::HighResolution};
  printer.setDocName(report.title);
  setUpPaper(report, printer);
  QPrintDialog dialog{&printer, this};
  if (dialog.exec() != QDialog::Accepted) return;
  if (drawReport(report, printer) == 0)
    emit said(tr("%1 could not be printed on %2.").arg(report.title, printer.printerName()), true);
  else
    emit said(tr("%1 went to the printer.").arg(report.title), false);
}

QString ReportBar::askForPath(const QString& title, const QString& ending) {
  const QDir documents{QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation)};
  QString path = QFileDialog::getSaveFileName(this, title, documents.filePath(make_().file_name + ending),
                                              QStringLiteral("*") + ending);
  if (!path.isEmpty() && QFileInfo{path}.suffix().isEmpty()) path += ending;
  return path;
}

void ReportBar::pdf() {
  if (const QString path = askForPath(tr("Write as PDF"), QStringLiteral(".pdf")); !path.isEmpty())
    writePdfTo(path);
}

void ReportBar::csv() {
  if (const QString path = askForPath(tr("Write as CSV"), QStringLiteral(".csv")); !path.isEmpty())
    writeCsvTo(path);
}

void ReportBar::writePdfTo(const QString& path) {
  const auto wrong = writePdf(make_(), path);
  emit said(wrong ? QString::fromStdString(wrong->sentence) : tr("Written to %1.").arg(path),
            wrong.has_value());
}

void ReportBar::writeCsvTo(const QString& path) {
  const auto wrong = writeCsv(make_(), path);
  emit said(wrong ? QString::fromStdString(wrong->sentence) : tr("Written to %1.").arg(path),
            wrong.has_value());
}

}  // namespace secondpull::app
