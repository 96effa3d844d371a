#include "app/sale/suggestion_panel.h"

#include <cmath>

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/bench/step_words.h"
#include "app/frame/session.h"
#include "app/parts/flow.h"
#include "app/parts/form.h"
#include "app/parts/look.h"
#include "app/sale/sale_rows.h"
#include "app/sale/suggestion_words.h"

namespace secondpull::app {
namespace {

WhyFigure* figure(const QString& label, const char* name) {
  auto* made = new WhyFigure{label};
  made->setObjectName(QString::fromLatin1(name));
  made->setShrinks();
  return made;
}

}  // namespace

SuggestionPanel::SuggestionPanel(Session& session, QWidget* parent) : QWidget(parent), session_{session} {
  auto* box = new QVBoxLayout{this};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  auto* figures = new QWidget;
  auto* flow = new Flow{figures, 3 * kGrid};
  price_ = figure(tr("Ask"), "salesAsk");
  days_ = figure(tr("Sells in"), "salesDays");
  least_ = figure(tr("Do not go below"), "salesFloor");
  hold_ = figure(tr("Hold until spring"), "salesHold");
  for (WhyFigure* each : {price_, days_, least_, hold_})
    flow->addWidget(each);
  box->addWidget(figures);
  says_ = faded({});
  says_->setObjectName(QStringLiteral("salesSays"));
  says_->setWordWrap(true);
  box->addWidget(says_);
  drops_ = new QLabel;
  drops_->setObjectName(QStringLiteral("salesDrops"));
  drops_->setWordWrap(true);
  box->addWidget(drops_);
  auto* line = new QHBoxLayout;
  use_ = new QPushButton;
  use_->setObjectName(QStringLiteral("salesUse"));
  connect(use_, &QPushButton::clicked, this, [this] {
    if (ask_) emit used(*ask_);
  });
  line->addWidget(use_);
  line->addStretch(1);
  box->addLayout(line);
  clear();
}

void SuggestionPanel::setMachine(std::optional<MachineId> machine) {
  machine_ = machine;
  setVisible(machine.has_value());
  if (!machine) return clear();
  if (of_ == session_.books() && of_machine_ == machine) return;
  work();
}

void SuggestionPanel::clear() {
  ++turn_;
  of_.reset();
  of_machine_.reset();
  working_ = false;
  ask_.reset();
  floor_.reset();
  for (QWidget* each : std::initializer_list<QWidget*>{price_, days_, least_, hold_, drops_, use_})
    each->hide();
  says_->setText({});
}

void SuggestionPanel::work() {
  if (of_machine_ != machine_) {
    clear();
    says_->setText(tr("Working out what it would fetch…"));
  }
  const auto books = session_.books();
  const auto base = session_.knowledge();
  const ByMachine::Lines& lines = books->by_machine().of(*machine_);
  const Listing* listing = listingNow(lines);
  const SoldAs as = listing != nullptr && listing->sold_as ? *listing->sold_as : planning::usual_way(lines);
  of_ = books;
  of_machine_ = machine_;
  working_ = true;
  const std::uint64_t turn = ++turn_;
  worker_.run([this, books, base, machine = *machine_, as, today = session_.today(),
               turn](const LatestTask::IsStale& is_stale) {
    if (is_stale()) return;
    auto outlook =
        planning::sale_outlook(books->by_machine(), books->shop(), base->knowledge, machine, as, today);
    if (is_stale()) return;
    QMetaObject::invokeMethod(
        this,
        [this, turn, outlook = std::move(outlook)] {
          if (turn == turn_) showOutlook(outlook);
        },
        Qt::QueuedConnection);
  });
}

void SuggestionPanel::sayOnly(const QString& sentence) {
  const auto machine = of_machine_;
  const auto books = of_;
  clear();
  of_ = books;
  of_machine_ = machine;
  says_->setText(sentence);
  emit worked();
}

void SuggestionPanel::showOutlook(const Result<planning::SaleOutlook>& outlook) {
  working_ = false;
  if (!outlook) return sayOnly(QString::fromStdString(outlook.error().sentence));
  const Currency currency = session_.currency();
  if (outlook->give_up)
    return sayOnly(
        tr("Scrap it today: that brings about %1, and waiting for a buyer costs more than one would "
           "bring (likely to fetch %2; a day that it stands here costs %3).")
            .arg(wholeMoney(outlook->salvage, currency), wholeMoney(outlook->price.median, currency),
                 wholeMoney(outlook->holding_cost, currency)));
  const auto amount = [&](double units) { return wholeMoney(units, currency); };
  ask_ = asMoney(outlook->ask, currency);
  floor_ = asMoney(std::round(outlook->floor), currency);
  price_->setFigure(amount(outlook->ask), whyAsk(session_, *outlook));
  price_->setNote(tr("likely %1 to %2").arg(amount(outlook->price.p10), amount(outlook->price.p90)));
  days_->setFigure(aboutDays(outlook->days.median), whyDays(session_, *outlook));
  least_->setFigure(amount(outlook->floor), whyFloor(session_, *outlook));
  hold_->setVisible(outlook->hold_until.has_value());
  if (outlook->hold_until) {
    const double gained = std::round(outlook->hold.gained);
    hold_->setFigure((gained > 0 ? QStringLiteral("+") : QString{}) + amount(gained),
                     whyHold(session_, *outlook));
    hold_->setNote(gained > 0 ? tr("worth it") : tr("sell it now"));
  }
  QString says = outlook->as == SoldAs::running ? tr("Offered as running.") : tr("Offered as is.");
  says += QLatin1Char(' ') + restsOn(*outlook);
  says_->setText(says);
  const QString drops = dropsInWords(session_, *outlook);
  drops_->setText(drops);
  drops_->setVisible(!drops.isEmpty());
  const Listing* listing = machine_ ? listingNow(of_->by_machine().of(*machine_)) : nullptr;
  use_->setText(tr("As&k %1").arg(amount(outlook->ask)));
  use_->setToolTip(tr("Puts this price into the form, to be looked at before it is saved"));
  use_->setVisible(listing == nullptr || listing->asking != *ask_);
  for (QWidget* each : {price_, days_, least_})
    each->show();
  emit worked();
}

}  // namespace secondpull::app
