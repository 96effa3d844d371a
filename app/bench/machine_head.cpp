#include "app/bench/machine_head.h"

#include <array>

#include <QHBoxLayout>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/parts/choices.h"
#include "app/parts/figure_words.h"
#include "app/parts/form.h"
#include "app/parts/look.h"
#include "app/parts/tag_badge.h"
#include "app/print/machine_papers.h"
#include "core/shop/bench.h"

namespace secondpull::app {
namespace {

constexpr int kTagHeight = 9 * kGrid;

/// The stages that a person can say; the others follow from what happened.
constexpr std::array kSayable{Stage::on_the_bench, Stage::waiting_on_parts, Stage::test_run};

template <class Word>
QString wordOf(Word value) {
  const std::string_view text = word(value);
  return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

QStringList sayableWords() {
  QStringList words;
  for (const Stage stage : kSayable)
    words << wordOf(stage);
  return words;
}

/// The machine's tag, large and not to be pressed: it is open already.
class TagMark : public QWidget {
 public:
  explicit TagMark(QWidget* parent) : QWidget(parent) { setFixedHeight(kTagHeight); }
  void setNumber(const QString& number) {
    number_ = number;
    setAccessibleName(QObject::tr("Tag %1").arg(number));
    setFixedWidth(static_cast<int>(tagWidth(number, kTagHeight, font())) + kGrid);
    update();
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter{this};
    painter.setRenderHint(QPainter::Antialiasing);
    paintTag(painter, QRectF{rect()}.adjusted(1, 1, -1, -1), number_, true, palette());
  }

 private:
  QString number_;
};

QPushButton* quietButton(const QString& text, const char* name, const QString& says, const QString& key,
                         QWidget* parent) {
  auto* button = new QPushButton(text, parent);
  button->setObjectName(QString::fromLatin1(name));
  button->setAccessibleName(says);
  button->setToolTip(QStringLiteral("%1 (%2)").arg(says, key));
  setRank(button, "quiet");
  return button;
}

}  // namespace

MachineHead::MachineHead(Session& session, QWidget* parent)
    : BenchPanel(session, parent),
      tag_{new TagMark(this)},
      name_{heading({}, this)},
      standing_{new QLabel(this)},
      facts_{faded({}, this)},
      condition_{faded({}, this)},
      stage_{new WordRow(tr("Where it stands"), sayableWords(), this)},
      edit_{quietButton(tr("Facts  F4"), "editFacts", tr("Change the facts"), QStringLiteral("F4"), this)},
      papers_{new PaperButton(
          machinePapers(
              session, [this] { return machine() == MachineId{} ? std::nullopt : std::optional{machine()}; }),
          [this](const QString& sentence, bool problem) { emit said(sentence, problem); }, this)},
      money_{new WhyFigure(tr("money in"), this)},
      hours_{new WhyFigure(tr("hours in"), this)},
      earned_{new WhyFigure(tr("profit"), this)},
      per_hour_{new WhyFigure(tr("an hour"), this)} {
  tag_->setObjectName(QStringLiteral("machineTag"));
  name_->setObjectName(QStringLiteral("machineName"));
  name_->setWordWrap(true);
  standing_->setObjectName(QStringLiteral("machineStanding"));
  standing_->setWordWrap(true);
  setRank(standing_, "subheading");
  facts_->setObjectName(QStringLiteral("machineFacts"));
  condition_->setObjectName(QStringLiteral("machineCondition"));
  stage_->setObjectName(QStringLiteral("stageWords"));
  money_->setObjectName(QStringLiteral("moneyIn"));
  hours_->setObjectName(QStringLiteral("hoursIn"));
  earned_->setObjectName(QStringLiteral("earned"));
  per_hour_->setObjectName(QStringLiteral("perHour"));
  auto* previous = quietButton(tr("‹ Before"), "previousMachine", tr("The machine before"),
                               QStringLiteral("Ctrl+PgUp"), this);
  auto* next =
      quietButton(tr("Next ›"), "nextMachine", tr("The next machine"), QStringLiteral("Ctrl+PgDown"), this);
  auto* pick = quietButton(tr("Another machine"), "pickMachine", tr("Pick another machine"),
                           QStringLiteral("Ctrl+O"), this);

  auto* words = new QVBoxLayout;
  words->setSpacing(kGrid / 2);
  words->addWidget(name_);
  words->addWidget(standing_);
  words->addWidget(facts_);
  words->addWidget(condition_);
  auto* doing = new QHBoxLayout;
  doing->setSpacing(kGrid);
  doing->addWidget(stage_);
  doing->addWidget(edit_);
  doing->addWidget(papers_);
  doing->addStretch(1);
  words->addLayout(doing);

  auto* figures = new QHBoxLayout;
  figures->setSpacing(3 * kGrid);
  for (WhyFigure* figure : {money_, hours_, earned_, per_hour_})
    figures->addWidget(figure, 0, Qt::AlignTop);
  auto* turning = new QHBoxLayout;
  turning->setSpacing(0);
  turning->addStretch(1);
  turning->addWidget(pick);
  turning->addWidget(previous);
  turning->addWidget(next);
  auto* right = new QVBoxLayout;
  right->addLayout(turning);
  right->addLayout(figures);
  right->addStretch(1);

  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(2 * kGrid);
  row->addWidget(tag_, 0, Qt::AlignTop);
  row->addLayout(words, 1);
  row->addLayout(right);

  connect(stage_, &WordRow::chosen, this, &MachineHead::setStage);
  connect(edit_, &QPushButton::clicked, this, &MachineHead::wantsFacts);
  connect(previous, &QPushButton::clicked, this, &MachineHead::wantsPrevious);
  connect(next, &QPushButton::clicked, this, &MachineHead::wantsNext);
  connect(pick, &QPushButton::clicked, this, &MachineHead::wantsPick);
}

void MachineHead::refresh() {
  const auto shop = session().shop();
  const auto books = session().books();
  const ByMachine::Lines& lines = books->by_machine().of(machine());
  if (lines.machine == nullptr) return;
  const Machine& about = *lines.machine;

  static_cast<TagMark*>(tag_)->setNumber(session().tagOf(machine()));
  name_->setText(session().nameOf(machine()));
  standing_->setText(QString::fromStdString(standing(*shop, lines, session().today())));

  QStringList facts{wordOf(about.kind)};
  const auto fact = [&](const QString& label, const std::string& value) {
    if (!value.empty())
      facts << (label.isEmpty() ? QString::fromStdString(value)
                                : QStringLiteral("%1 %2").arg(label, QString::fromStdString(value)));
  };
  fact(tr("model no."), about.model_number);
  fact(tr("serial"), about.serial);
  fact(tr("engine"), about.engine);
  if (about.year) facts << QString::number(*about.year);
  if (about.deck_in) {
    const std::int64_t tenths = about.deck_in->count;
    facts << (tenths % 10 == 0 ? tr("%1 in cut").arg(tenths / 10)
                               : tr("%1.%2 in cut").arg(tenths / 10).arg(tenths % 10));
  }
  facts_->setText(facts.join(QStringLiteral(" · ")));

  QStringList came;
  if (!about.symptom.empty()) came << tr("came in: %1").arg(QString::fromStdString(about.symptom));
  if (!about.condition.empty()) came << QString::fromStdString(about.condition);
  if (!about.note.empty()) came << QString::fromStdString(about.note);
  condition_->setText(came.join(QStringLiteral(" · ")));
  condition_->setVisible(!came.empty());

  const Stage stage = stage_of(lines);
  stage_->setVisible(is_here(stage));
  const auto at = std::find(kSayable.begin(), kSayable.end(), stage);
  stage_->setCurrent(at != kSayable.end() ? static_cast<int>(at - kSayable.begin()) : -1);
  showFigures();
}

void MachineHead::showFigures() {
  const auto books = session().books();
  const MachineFigures* figures = books->machine(machine());
  if (figures == nullptr) return;
  money_->setFigure(session().money(figures->cost_basis), whyCost(session(), machine()));
  hours_->setFigure(QString::fromStdString(shown(figures->minutes)), whyHours(session(), machine()));
  earned_->setVisible(figures->profit.has_value());
  per_hour_->setVisible(figures->profit.has_value());
  if (!figures->profit) return;
  earned_->setFigure(session().money(figures->profit), whyProfit(session(), machine()));
  per_hour_->setFigure(session().money(figures->pay_per_hour),
                       figures->pay_per_hour ? tr("%1 of profit over %2.")
                                                   .arg(session().money(figures->profit),
                                                        QString::fromStdString(shown(figures->minutes)))
                                             : tr("No hours are logged on it, so there is no pay per hour."));
}

void MachineHead::setStage(int index) {
  if (index < 0 || index >= static_cast<int>(kSayable.size())) return;
  const Stage stage = kSayable[static_cast<std::size_t>(index)];
  if (stage_of(session().books()->by_machine().of(machine())) == stage) return;
  const auto shop = session().shop();
  if (const auto failed = session().perform(set_stage(*shop, machine(), stage))) {
    emit said(QString::fromStdString(failed->sentence), true);
    refresh();
  }
}

}  // namespace secondpull::app
