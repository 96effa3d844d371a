#include "app/scout/offer_panel.h"

#include <algorithm>
#include <cmath>

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/bench/chances_view.h"
#include "app/bench/numbered_choices.h"
#include "app/bench/step_words.h"
#include "app/frame/session.h"
#include "app/parts/look.h"
#include "core/learning/knowledge_base.h"
#include "core/learning/stops.h"
#include "core/planning/names.h"

namespace secondpull::app {
namespace {

constexpr std::size_t kMostAnswers = 9;
constexpr std::size_t kMostOthers = 4;
constexpr double kLeastWorth = 0.5;  // of an answer, in whole units: less is nothing to speak of

QString text(std::string_view words) {
  return QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
}

QString endingWords(const std::string& ending) {
  if (ending == learning::kSellAsIs) return OfferPanel::tr("sold as it is");
  if (ending == learning::kPartOut) return OfferPanel::tr("parted out");
  if (ending == learning::kScrap) return OfferPanel::tr("scrapped");
  return OfferPanel::tr("it runs and is sold");
}

void empty(QVBoxLayout* list) {
  while (QLayoutItem* item = list->takeAt(0)) {
    if (QWidget* widget = item->widget()) {
      widget->hide();
      widget->deleteLater();
    }
    delete item;
  }
}

QPushButton* quietLine(const QString& name, const QString& words) {
  auto* button = new QPushButton{words};
  button->setObjectName(name);
  button->setAccessibleName(words);
  setRank(button, "quiet");
  button->setStyleSheet(QStringLiteral("text-align: left;"));
  return button;
}

}  // namespace

OfferPanel::OfferPanel(Session& session, QWidget* parent) : QWidget(parent), session_{session} {
  auto* box = new QVBoxLayout{this};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  const auto label = [&](const char* name, const char* rank) {
    auto* made = new QLabel{this};
    made->setObjectName(QString::fromLatin1(name));
    made->setWordWrap(true);
    if (rank != nullptr) setRank(made, rank);
    box->addWidget(made);
    return made;
  };
  offer_ = label("scoutOffer", "figure");
  price_ = label("scoutAsked", nullptr);
  chance_ = label("scoutChance", nullptr);
  takes_ = label("scoutTakes", nullptr);
  counts_ = label("scoutCounts", "small");
  box->addSpacing(kGrid);
  head_ = faded(tr("Ask the seller"), this);
  box->addWidget(head_);
  question_ = label("scoutQuestion", "subheading");
  choices_ = new NumberedChoices{QStringLiteral("scoutAnswer"), this};
  choices_->setAccessibleName(tr("What the seller says"));
  box->addWidget(choices_);
  worth_ = label("scoutWorth", "small");
  others_ = new QVBoxLayout;
  others_->setSpacing(0);
  box->addLayout(others_);
  said_list_ = new QVBoxLayout;
  said_list_->setSpacing(0);
  box->addLayout(said_list_);
  box->addStretch(1);
  connect(choices_, &NumberedChoices::chosen, this, [this](int index) {
    if (asked_ >= questions_.size()) return;
    const planning::SellerQuestion question = questions_[asked_];
    const std::string outcome = question.answers[static_cast<std::size_t>(index)].outcome;
    const auto base = session_.knowledge();
    if (question.test.empty()) return emit symptomSaid(text(base->knowledge.symptom(outcome)->name));
    emit answered(text(base->knowledge.test(question.test)->name),
                  text(planning::called_outcome(question.test, outcome, base->knowledge)));
  });
  price_->setText(tr("Working out what to offer for one of which nothing is known…"));
  showQuestions({});
}

QString OfferPanel::moneyWords(double amount) const {
  return wholeMoney(amount, session_.currency());
}

void OfferPanel::showLead(const planning::Lead& lead) {
  lead_ = lead;
}

void OfferPanel::showWorth(const Result<planning::LeadWorth>& worth, const planning::HourValue& hour) {
  for (QLabel* each : {price_, chance_, takes_, counts_})
    each->setVisible(worth.has_value());
  if (!worth) {
    offer_->setText(tr("No offer"));
    price_->setText(text(worth.error().sentence));
    price_->show();
    return;
  }
  const bool worth_it = worth->most_to_offer >= 1;
  offer_->setText(worth_it ? tr("Offer up to %1").arg(moneyWords(std::floor(worth->most_to_offer)))
                           : tr("Leave it: nothing would be left even if it were free"));
  price_->setVisible(worth->gain_at_asking.has_value() && worth_it);
  if (worth->gain_at_asking)
    price_->setText(*worth->gain_at_asking >= 0
                        ? tr("At the asking price, %1, it leaves %2 for you.")
                              .arg(moneyWords(worth->price), moneyWords(*worth->gain_at_asking))
                        : tr("The asking price, %1, is %2 too much.")
                              .arg(moneyWords(worth->price), moneyWords(-*worth->gain_at_asking)));
  chance_->setText(tr("Chance of making money when bought for %1: %2.")
                       .arg(moneyWords(worth->price), percent(worth->chance_of_gain)));
  const auto base = session_.knowledge();
  QString takes = tr("It takes about %1 and %2. Likeliest end: %3, %4.")
                      .arg(hoursWords(worth->hours), moneyWords(worth->money), endingWords(worth->ending),
                           percent(worth->chance_of_ending));
  if (worth->next && worth->next->kind != decision::Move::Kind::stop)
    takes += QStringLiteral(" ") +
             tr("First step: %1.").arg(text(planning::called(*worth->next, base->knowledge)));
  if (worth->symptom.empty())
    takes += QStringLiteral(" ") +
             (lead_.machine.symptom.empty()
                  ? tr("What it does is not known: this is the mean over all that it may be.")
                  : tr("Nobody knows \"%1\": this is the mean over all that it may be.")
                        .arg(text(lead_.machine.symptom)));
  takes_->setText(takes);
  counts_->setText(
      tr("Your hour counts %1 here; fetching takes %2 of it and %3, driving included.")
          .arg(moneyWords(hour.value), text(shown(lead_.minutes)), session_.money(lead_.pickup_cost)));
}

void OfferPanel::showQuestions(std::vector<planning::SellerQuestion> questions) {
  questions_ = std::move(questions);
  ask(0);
}

void OfferPanel::ask(std::size_t index) {
  asked_ = index;
  const bool any = index < questions_.size();
  for (QWidget* each : std::initializer_list<QWidget*>{head_, question_, choices_, worth_})
    each->setVisible(any);
  showOthers();
  if (!any) return choices_->setChoices({});
  const planning::SellerQuestion& question = questions_[index];
  const auto base = session_.knowledge();
  const bool asks_symptom = question.test.empty();
  question_->setText(asks_symptom ? tr("What does it do when you try it?")
                                  : text(base->texts.at(question.test).ask));
  std::vector<NumberedChoices::Choice> choices;
  for (const planning::SellerAnswer& answer : question.answers) {
    if (choices.size() == kMostAnswers) break;
    const QString said = asks_symptom
                             ? text(base->knowledge.symptom(answer.outcome)->name)
                             : text(planning::called_outcome(question.test, answer.outcome, base->knowledge));
    const QString offer = answer.most_to_offer >= 1
                              ? tr("offer up to %1").arg(moneyWords(std::floor(answer.most_to_offer)))
                              : tr("leave it");
    choices.push_back({said, tr("%1, then %2").arg(percent(answer.chance), offer)});
  }
  choices_->setChoices(choices);
  worth_->setText(question.worth >= kLeastWorth
                      ? tr("Knowing the answer is worth about %1 to you.").arg(moneyWords(question.worth))
                      : tr("Whatever the answer, you would decide the same."));
}

void OfferPanel::showOthers() {
  empty(others_);
  const auto base = session_.knowledge();
  int listed = 0;
  for (std::size_t i = 0; i < questions_.size() && i <= kMostOthers; ++i) {
    if (i == asked_) continue;
    auto* line = quietLine(QStringLiteral("scoutOther%1").arg(++listed),
                           tr("Ask instead: %1").arg(text(base->knowledge.test(questions_[i].test)->name)));
    line->setToolTip(text(base->texts.at(questions_[i].test).ask));
    connect(line, &QPushButton::clicked, this, [this, i] {
      ask(i);
      choices_->start();
    });
    others_->addWidget(line);
  }
}

void OfferPanel::showSaid(const std::vector<SellerSaid>& said) {
  said_ = said;
  empty(said_list_);
  for (std::size_t i = 0; i < said_.size(); ++i) {
    auto* line = quietLine(QStringLiteral("scoutSaid%1").arg(i + 1),
                           tr("Said: %1, %2 (take back)").arg(text(said_[i].test), text(said_[i].outcome)));
    connect(line, &QPushButton::clicked, this,
            [this, test = said_[i].test] { emit answered(text(test), {}); });
    said_list_->addWidget(line);
  }
}

bool OfferPanel::press(int number) {
  return choices_->press(number);
}

void OfferPanel::start() {
  choices_->start();
}

}  // namespace secondpull::app
