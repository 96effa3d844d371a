#include "app/yard/seen_work.h"

#include <algorithm>

#include <QLineEdit>

#include "app/frame/session.h"
#include "app/parts/flow.h"
#include "app/parts/look.h"
#include "core/learning/knowledge_base.h"

namespace secondpull::app {
namespace {

constexpr int kGap = 4;

QStringList piecesOf(const QString& condition) {
  QStringList pieces;
  for (const QString& piece : condition.split(QLatin1Char{','}))
    if (const QString words = piece.trimmed(); !words.isEmpty()) pieces << words;
  return pieces;
}

}  // namespace

SeenWork::SeenWork(Session& session, QLineEdit* condition, QWidget* parent)
    : QWidget(parent), condition_{condition} {
  setObjectName(QStringLiteral("seenWork"));
  setAccessibleName(tr("Also seen"));
  auto* row = new Flow(this, kGap);
  row->setContentsMargins(0, 0, 0, 0);
  auto* title = new QLabel(tr("Also seen:"), this);
  setRank(title, "small");
  row->addWidget(title);
  const auto base = session.knowledge();
  for (const learning::PieceOfWork& work : base->knowledge.known_work) {
    Tick tick{
        .button = new QToolButton(this), .name = QString::fromStdString(work.name), .kinds = work.kinds};
    tick.phrases << tick.name.toLower();
    for (const std::string& phrase : work.also)
      tick.phrases << QString::fromStdString(phrase).toLower();
    tick.button->setText(tick.name);
    tick.button->setObjectName(QStringLiteral("seen-") + QString::fromStdString(work.id));
    tick.button->setCheckable(true);
    tick.button->setAccessibleName(tick.name);
    setRank(tick.button, "word");
    row->addWidget(tick.button);
    connect(tick.button, &QToolButton::clicked, this, [this, tick](bool on) { turn(tick, on); });
    ticks_.push_back(std::move(tick));
  }
  connect(condition_, &QLineEdit::textChanged, this, &SeenWork::showWhatIsTyped);
}

void SeenWork::setKind(MachineKind kind) {
  for (const Tick& tick : ticks_)
    tick.button->setVisible(learning::fits(tick.kinds, kind));
}

void SeenWork::turn(const Tick& tick, bool on) {
  QStringList pieces = piecesOf(condition_->text());
  const auto says = [&](const QString& piece) { return tick.phrases.contains(piece.toLower()); };
  pieces.erase(std::remove_if(pieces.begin(), pieces.end(), says), pieces.end());
  if (on) pieces << tick.name;
  condition_->setText(pieces.join(QStringLiteral(", ")));
}

void SeenWork::showWhatIsTyped() {
  const QStringList pieces = piecesOf(condition_->text());
  for (const Tick& tick : ticks_)
    tick.button->setChecked(std::any_of(pieces.begin(), pieces.end(), [&](const QString& piece) {
      return tick.phrases.contains(piece.toLower());
    }));
}

}  // namespace secondpull::app
