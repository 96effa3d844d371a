#include "app/print/paper_button.h"

#include <QMenu>

#include "app/parts/look.h"
#include "app/print/paper_desk.h"

namespace secondpull::app {
namespace {

const QKeySequence kOpen{Qt::CTRL | Qt::Key_P};

QString asTitle(QString words) {
  if (!words.isEmpty()) words[0] = words[0].toUpper();
  return words;
}

}  // namespace

PaperButton::PaperButton(std::vector<PaperChoice> papers, Say say, QWidget* parent)
    : QPushButton(tr("Print"), parent), papers_{std::move(papers)}, say_{std::move(say)} {
  setObjectName(QStringLiteral("paperButton"));
  setAccessibleName(tr("Papers to print or to write as PDF"));
  setToolTip(QStringLiteral("%1   %2").arg(accessibleName(), kOpen.toString(QKeySequence::NativeText)));
  setRank(this, "quiet");
  auto* menu = new QMenu{this};
  const auto wanted = each();
  std::size_t at = 0;
  for (const PaperChoice& paper : papers_) {
    for (const char* what : {"Print", "Pdf"}) {
      QAction* action =
          menu->addAction(asTitle(wanted[at].words) + QStringLiteral("…"), this, wanted[at].run);
      action->setObjectName(paper.name + QLatin1String(what));
      ++at;
    }
  }
  setMenu(menu);
}

std::vector<Page::Deed> PaperButton::deeds() {
  std::vector<Page::Deed> all = each();
  all.push_back({tr("papers of this machine"), kOpen, [this] {
                   setFocus();
                   showMenu();
                 }});
  return all;
}

std::vector<Page::Deed> PaperButton::each() {
  const auto deed = [this](const QString& words, const PaperChoice& paper,
                           PaperSaid (*go)(const Sheet&, QWidget*)) {
    return Page::Deed{words, {}, [this, make = paper.make, go] {
                        const std::optional<Sheet> sheet = make();
                        if (!sheet) return say_(tr("Choose a machine first."), true);
                        const PaperSaid said = go(*sheet, window());
                        if (!said.sentence.isEmpty()) say_(said.sentence, said.problem);
                      }};
  };
  std::vector<Page::Deed> all;
  for (const PaperChoice& paper : papers_) {
    all.push_back(deed(paper.print, paper, &printPaper));
    all.push_back(deed(paper.pdf, paper, &savePaper));
  }
  return all;
}

}  // namespace secondpull::app
