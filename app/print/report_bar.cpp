#include "app/print/report_bar.h"

#include <QHBoxLayout>
#include <QPushButton>

#include "app/parts/look.h"
#include "app/print/paper.h"
#include "app/print/paper_desk.h"

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

void ReportBar::say(const PaperSaid& what) {
  if (!what.sentence.isEmpty()) emit said(what.sentence, what.problem);
}

void ReportBar::print() {
  say(printPaper(sheetOf(make_()), this));
}

void ReportBar::pdf() {
  say(savePaper(sheetOf(make_()), this));
}

void ReportBar::csv() {
  const QString path = askForPath(tr("Write as CSV"), make_().file_name, QStringLiteral(".csv"), this);
  if (!path.isEmpty()) writeCsvTo(path);
}

void ReportBar::writePdfTo(const QString& path) {
  say(savePaperTo(sheetOf(make_()), path));
}

void ReportBar::writeCsvTo(const QString& path) {
  const auto wrong = writeCsv(make_(), path);
  emit said(wrong ? QString::fromStdString(wrong->sentence) : tr("Written to %1.").arg(path),
            wrong.has_value());
}

}  // namespace secondpull::app
