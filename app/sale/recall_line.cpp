#include "app/sale/recall_line.h"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/frame/session.h"
#include "app/parts/flow.h"
#include "app/parts/look.h"
#include "core/learning/knowledge_base.h"
#include "core/shop/recall.h"
#include "core/shop/steps.h"
#include "core/typed_words.h"

namespace secondpull::app {
namespace {

/// As the Bench's list of looks before the sale calls it, so that both tick the same one.
std::string stepOf(const Session& session) {
  for (const learning::SaleCheck& check : session.knowledge()->checks)
    for (const char* word : {"recall", "recalls"})
      if (holds_words(check.name, word)) return check_step(check.name, check.must);
  return std::string{kRecallStep};
}

}  // namespace

RecallLine::RecallLine(Session& session, MachineId machine, QWidget* parent)
    : QWidget(parent), session_{session}, machine_{machine} {
  setObjectName(QStringLiteral("recallLine"));
  auto* box = new QVBoxLayout{this};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid / 2);
  says_ = new QLabel;
  says_->setObjectName(QStringLiteral("recallSays"));
  says_->setWordWrap(true);
  box->addWidget(says_);
  auto* line = new QWidget;
  auto* flow = new Flow{line, kGrid};
  const auto button = [&](const char* name, const QString& text, bool recalled) {
    auto* made = new QPushButton{text};
    made->setObjectName(QString::fromLatin1(name));
    connect(made, &QPushButton::clicked, this, [this, recalled] { record(recalled); });
    flow->addWidget(made);
    return made;
  };
  none_ = button("recallNone", tr("&Looked up today: none found"), false);
  found_ = button("recallFound", tr("A recall fo&und"), true);
  box->addWidget(line);
  problem_ = new QLabel;
  problem_->setWordWrap(true);
  setRank(problem_, "problem");
  problem_->hide();
  box->addWidget(problem_);
  connect(&session, &Session::changed, this, [this] { tell(); });
  tell();
}

void RecallLine::tell() {
  const auto books = session_.books();
  const auto last = recall_lookup(books->by_machine().of(machine_));
  const bool due = recall_lookup_due(last, session_.today());
  const auto day = [&] { return QString::fromStdString(shown_short(last->date, session_.today())); };
  QString says;
  if (!last)
    says = tr("Recall look-up: not done since it came in. Look it up by model and serial number.");
  else if (last->recalled)
    says = tr("Recalled, looked up %1: it may not be offered or sold until its remedy is done.").arg(day());
  else
    says = tr("Recalls looked up %1: none found.").arg(day());
  if (last && !last->recalled && due) says += QLatin1Char(' ') + tr("Look again before it goes.");
  says_->setText(says);
  setRank(says_, last && last->recalled ? "problem" : due ? "caution" : "faded");
  none_->setVisible(due || last->recalled);
  found_->setVisible(due && !(last && last->recalled));
}

void RecallLine::record(bool recalled) {
  const auto wrong = session_.perform(
      record_recall_lookup(*session_.shop(), machine_, session_.today(), stepOf(session_), recalled));
  problem_->setText(wrong ? QString::fromStdString(wrong->sentence) : QString{});
  problem_->setVisible(wrong.has_value());
}

}  // namespace secondpull::app
