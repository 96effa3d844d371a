#include "app/scout/scout_page.h"

#include <algorithm>

#include <QHBoxLayout>
#include <QJsonArray>
#include <QJsonDocument>
#include <QPushButton>
#include <QScrollArea>
#include <QShortcut>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "app/bench/bench_panel.h"
#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/data_table.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/planning/latest_task.h"
#include "app/planning/planning.h"
#include "app/scout/end_row.h"
#include "app/scout/find_rows.h"
#include "app/scout/lead_form.h"
#include "app/scout/offer_panel.h"
#include "app/scout/pocket_panel.h"
#include "core/shop/together.h"

namespace secondpull::app {
namespace {

using planning::Situation;

constexpr int kFormWidth = 62 * kGrid;
constexpr int kTableHeight = 20 * kGrid;

FindId newest(const Shop& shop) {
  return std::prev(shop.all<Find>().end())->id;
}

class ScoutPage : public Page {
 public:
  ScoutPage(Session& session, QWidget* parent);
  ~ScoutPage() override { form_->hide(); }  // writes its draft, the answers of this page too

  QString word() const override { return tr("Scout"); }
  QString iconName() const override { return QStringLiteral("scout"); }
  QKeySequence key() const override { return {Qt::ALT | Qt::Key_6}; }
  void refresh(const std::vector<AnyId>&) override {
    stale_ = true;
    if (isVisible()) reload();
  }
  void start() override { form_->findChild<QWidget*>(QStringLiteral("findKind"))->setFocus(); }
  std::vector<Deed> deeds() override;

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  QWidget* makeFind();
  QWidget* makeList();
  void reload();
  void work();      ///< has the offer and the questions worked out anew, in the background
  void workCard();  ///< likewise the pocket card
  void turnTo(std::optional<FindId> find);  ///< a kept find, or a new one, with what was half typed of it
  void startAfresh();                       ///< what was shown is done with
  Result<Change> keeping() const;           ///< what is typed, as a new find or in the place of the one shown
  std::optional<Problem> keep();
  /// Keeps what is typed and does the rest with it, in one action; the find, or nothing where that failed.
  std::optional<FindId> keepAnd(const std::function<Result<Change>(const Shop& shop, FindId find)>& then);
  void answer(const QString& test, const QString& outcome);
  // What the seller said of a find that is not kept yet, as its draft holds it.
  QString draftOfAnswers() const;
  void readAnswers(const QString& kept);
  void askPrice();
  void buy(Money price);
  void end(FindEnd how);
  bool perform(Result<Change> change);
  const Find* current() const { return find_ ? session().shop()->find(*find_) : nullptr; }

  bool stale_ = true;
  bool loading_ = false;
  std::optional<FindId> find_;    ///< the kept one that is shown; nothing: a new one
  std::vector<SellerSaid> said_;  ///< of it
  std::vector<FindRow> rows_;
  WordRow* view_;
  QStackedWidget* whole_;
  LeadForm* form_;
  OfferPanel* offer_;
  PocketPanel* pocket_;
  EndRow* end_;
  DataTable* table_;
  RowModel<FindRow>* model_;
  std::uint64_t turn_ = 0;  ///< of what is asked last
  std::uint64_t card_turn_ = 0;
  LatestTask worker_;  // after all that its tasks tell: it goes first
  LatestTask card_worker_;
};

ScoutPage::ScoutPage(Session& session, QWidget* parent) : Page(session, parent) {
  setObjectName(QStringLiteral("scoutPage"));
  view_ = new WordRow{QStringLiteral("scoutView"), {tr("a find"), tr("pocket card")}, this};
  view_->setAccessibleName(tr("What to see"));
  auto* fresh = new QPushButton{tr("New find"), this};
  fresh->setObjectName(QStringLiteral("scoutNew"));
  connect(fresh, &QPushButton::clicked, this, [this] {
    find_ ? turnTo(std::nullopt) : startAfresh();
    start();
  });
  auto* head = new QHBoxLayout;
  head->addWidget(heading(tr("Scout")));
  head->addSpacing(2 * kGrid);
  head->addWidget(view_);
  head->addStretch(1);
  head->addWidget(fresh);

  pocket_ = new PocketPanel{session};
  connect(pocket_, &PocketPanel::said, this, &Page::wantsSaid);
  whole_ = new QStackedWidget;
  whole_->addWidget(makeFind());
  whole_->addWidget(pocket_);
  connect(view_, &WordRow::chosen, this, [this](int index) {
    whole_->setCurrentIndex(index);
    if (index == 1) workCard();
  });
  auto* box = new QVBoxLayout{this};
  box->setContentsMargins(3 * kGrid, 2 * kGrid, 3 * kGrid, kGrid);
  box->setSpacing(kGrid);
  box->addLayout(head);
  box->addWidget(whole_, 1);

  auto* bought = new QShortcut{QKeySequence{Qt::CTRL | Qt::Key_B}, this};
  bought->setContext(Qt::WidgetWithChildrenShortcut);
  connect(bought, &QShortcut::activated, this, [this] { end_->isAsking() ? end_->takeIn() : askPrice(); });
  connect(&session.planning(), &Planning::hourValueChanged, this, [this] {
    if (isVisible()) work();
  });
  // Not afresh: what was half typed the last time is offered.
  loading_ = true;
  form_->startAfresh();
  loading_ = false;
}

QWidget* ScoutPage::makeFind() {
  auto* side = new QWidget;
  auto* left = new QVBoxLayout{side};
  left->setContentsMargins(0, 0, 0, 0);
  form_ = new LeadForm{session()};
  form_->setTitleShown(false);
  form_->onSave([this] { return keep(); });
  form_->setExtraDraft([this] { return draftOfAnswers(); },
                       [this](const QString& kept) { readAnswers(kept); });
  left->addWidget(form_);
  end_ = new EndRow{session().currency()};
  connect(end_, &EndRow::asked, this, &ScoutPage::askPrice);
  connect(end_, &EndRow::bought, this, &ScoutPage::buy);
  connect(end_, &EndRow::ended, this, &ScoutPage::end);
  left->addWidget(end_);
  left->addStretch(1);
  side->setFixedWidth(grown(kFormWidth));
  connect(form_, &LeadForm::edited, this, [this] {
    if (!loading_) work();
  });
  connect(form_, &Form::left, this, [this] {
    form_->setVisible(true);
    table_->setFocus();
  });

  offer_ = new OfferPanel{session()};
  connect(offer_, &OfferPanel::answered, this, &ScoutPage::answer);
  connect(offer_, &OfferPanel::symptomSaid, this, [this](const QString& symptom) {
    form_->setSymptom(symptom);
    offer_->start();
  });
  const auto scrolled = [](QWidget* inside) {
    auto* area = new QScrollArea;
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setWidget(inside);
    return area;
  };
  auto* left_area = scrolled(side);
  left_area->setFixedWidth(grown(kFormWidth) + 2 * kGrid);
  auto* sides = new QHBoxLayout;
  sides->setSpacing(3 * kGrid);
  sides->addWidget(left_area);
  sides->addWidget(scrolled(offer_), 1);
  auto* content = new QWidget;
  auto* box = new QVBoxLayout{content};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  box->addLayout(sides, 1);
  box->addWidget(makeList());
  return content;
}

QWidget* ScoutPage::makeList() {
  model_ = new RowModel<FindRow>{findColumns(session()), this};
  table_ = new DataTable{session(), QStringLiteral("scout_finds")};
  table_->setObjectName(QStringLiteral("scoutTable"));
  table_->setAccessibleName(tr("Finds so far"));
  table_->setRowModel(model_);
  table_->setFixedHeight(grown(kTableHeight));
  connect(table_, &DataTable::opened, this,
          [this](int row) { turnTo(rows_[static_cast<std::size_t>(row)].find); });
  return table_;
}

void ScoutPage::showEvent(QShowEvent* event) {
  Page::showEvent(event);
  if (stale_) reload();
}

void ScoutPage::reload() {
  const bool first = stale_ && !find_ && rows_.empty();
  stale_ = false;
  rows_ = findRows(session());
  model_->setRows(rows_);
  table_->setVisible(!rows_.empty());
  if (find_ && current() == nullptr) startAfresh();  // undone
  if (const Find* const find = current()) {
    said_.clear();
    for (const FindAnswer& each : session().shop()->all<FindAnswer>())
      if (each.find == find->id) said_.push_back({each.test, each.outcome});
  }
  const Find* const find = current();
  end_->setEndable(find == nullptr || find->how != FindEnd::bought);
  if (first) form_->open();
  session().planning().backlog();  // has an hour valued, if nobody did
  work();
  if (whole_->currentIndex() == 1) workCard();
}

void ScoutPage::work() {
  offer_->showSaid(said_);
  planning::Lead lead = form_->lead();
  for (const SellerSaid& line : said_)
    lead.machine.answers.push_back({line.test, line.outcome});
  offer_->showLead(lead);
  const auto situation = session().planning().situation();
  const planning::HourValue hour = session().planning().hourValue();
  const std::uint64_t turn = ++turn_;
  worker_.run([this, lead, situation, hour, turn](const LatestTask::IsStale& is_stale) {
    const auto tell = [this, turn](auto act) {
      QMetaObject::invokeMethod(
          this,
          [this, turn, act = std::move(act)] {
            if (turn == turn_) act();
          },
          Qt::QueuedConnection);
    };
    decision::Budget budget{.states = planning::kStatesToAsk};
    budget.go_on = [&](const decision::Progress&) { return !is_stale(); };
    const auto worth = planning::lead_worth(*situation, lead, hour.value, budget);
    if (is_stale()) return;
    tell([this, worth, hour] { offer_->showWorth(worth, hour); });
    auto questions = planning::seller_questions(*situation, lead, hour.value, budget);
    if (is_stale()) return;
    tell([this, questions = questions ? *std::move(questions) : std::vector<planning::SellerQuestion>{}] {
      offer_->showQuestions(questions);
    });
  });
}

void ScoutPage::workCard() {
  pocket_->showWorking();
  const auto situation = session().planning().situation();
  const planning::HourValue hour = session().planning().hourValue();
  const Money margin = form_->lead().margin;
  const std::uint64_t turn = ++card_turn_;
  card_worker_.run([this, situation, hour, margin, turn](const LatestTask::IsStale& is_stale) {
    decision::Budget budget{.states = planning::kStatesToAsk};
    budget.go_on = [&](const decision::Progress&) { return !is_stale(); };
    auto card = planning::pocket_card(*situation, hour.value, margin, budget);
    if (is_stale()) return;
    QMetaObject::invokeMethod(
        this,
        [this, turn, hour, card = std::move(card)] {
          if (turn == card_turn_) pocket_->showCard(card, hour);
        },
        Qt::QueuedConnection);
  });
}

void ScoutPage::turnTo(std::optional<FindId> find) {
  form_->setDraftName(find ? QStringLiteral("scout.find-%1").arg(number(*find))
                           : QStringLiteral("scout.find"));
  find_ = find;
  said_.clear();
  loading_ = true;
  if (const Find* const kept = current())
    form_->fillFrom(*kept);
  else
    form_->startAfresh();
  loading_ = false;
  end_->stopAsking();
  end_->hint().clearHint();
  form_->open();
  if (isVisible()) reload();
}

void ScoutPage::startAfresh() {
  form_->clear();
  turnTo(std::nullopt);
}

bool ScoutPage::perform(Result<Change> change) {
  const auto failed = session().perform(std::move(change));
  if (failed)
    end_->hint().problem(*failed);
  else
    end_->hint().clearHint();
  return !failed;
}

Result<Change> ScoutPage::keeping() const {
  if (const Find* const find = current()) return change_find(*session().shop(), form_->over(*find));
  NewFind find = form_->newFind();
  find.said = said_;
  return note_find(*session().shop(), find);
}

std::optional<Problem> ScoutPage::keep() {
  if (auto failed = session().perform(keeping())) return failed;
  if (find_) {
    reload();
  } else {
    form_->clear();  // as a new find it is done with
    turnTo(newest(*session().shop()));
  }
  return std::nullopt;
}

std::optional<FindId> ScoutPage::keepAnd(
    const std::function<Result<Change>(const Shop& shop, FindId find)>& then) {
  if (form_->showOwnProblems()) return std::nullopt;
  Result<Change> kept = keeping();
  if (!kept) {
    form_->showProblem(kept.error());
    return std::nullopt;
  }
  Together together{*session().shop()};
  together.add([&](const Shop&) { return kept; });
  const FindId find = find_ ? *find_ : newest(together.shop());
  std::string title;
  together.add([&](const Shop& now) {
    Result<Change> made = then(now, find);
    if (made) title = made->title();
    return made;
  });
  if (!perform(std::move(together).result(title))) return std::nullopt;
  return find;
}

void ScoutPage::answer(const QString& test, const QString& outcome) {
  const std::string asked = test.toStdString();
  const std::string said = outcome.toStdString();
  if (find_) {
    perform(answer_find(*session().shop(), *find_, session().today(), asked, said));
    return;
  }
  std::erase_if(said_, [&](const SellerSaid& line) { return line.test == asked; });
  if (!said.empty()) said_.push_back({asked, said});
  form_->noteEdited();
  work();
}

QString ScoutPage::draftOfAnswers() const {
  if (find_) return {};
  QJsonArray lines;
  for (const SellerSaid& line : said_)
    lines.append(QJsonArray{QString::fromStdString(line.test), QString::fromStdString(line.outcome)});
  return lines.isEmpty() ? QString{} : QString::fromUtf8(QJsonDocument{lines}.toJson(QJsonDocument::Compact));
}

void ScoutPage::readAnswers(const QString& kept) {
  said_.clear();
  const QJsonArray lines = QJsonDocument::fromJson(kept.toUtf8()).array();
  for (const QJsonValue& line : lines)
    said_.push_back({line[0].toString().toStdString(), line[1].toString().toStdString()});
  work();
}

void ScoutPage::askPrice() {
  if (const Find* const find = current(); find != nullptr && find->how == FindEnd::bought) return;
  end_->askPrice(form_->lead().asking.value_or(Money{}));
}

void ScoutPage::buy(Money price) {
  const auto find = keepAnd([&](const Shop& shop, FindId id) {
    const Find& about = *shop.find(id);
    BuyFind bought{.date = session().today(),
                   .source = price.is_zero() ? Source::curb : Source::private_sale,
                   .price = price,
                   .pickup_cost = about.pickup_cost,
                   .miles = about.miles,
                   .minutes = about.minutes};
    if (bought.miles && bought.miles->count == 0) bought.miles.reset();
    if (bought.minutes && bought.minutes->count == 0) bought.minutes.reset();
    return buy_find(shop, id, bought);
  });
  if (!find) return;
  const auto machine = session().shop()->find(*find)->machine;
  startAfresh();
  if (machine) emit wantsMachine(*machine);
}

void ScoutPage::end(FindEnd how) {
  if (keepAnd(
          [&](const Shop& shop, FindId id) { return pass_on_find(shop, id, session().today(), how, {}); }))
    startAfresh();
}

std::vector<Page::Deed> ScoutPage::deeds() {
  return {{tr("look at a find"),
           {},
           [this] {
             emit wantsPage(word(), MachineId{});
             startAfresh();
             start();
           }},
          {tr("pocket card: most to pay"), {}, [this] {
             emit wantsPage(word(), MachineId{});
             view_->setCurrent(1);
             emit view_->chosen(1);
           }}};
}

}  // namespace

Page* makeScoutPage(Session& session, QWidget* parent) {
  return new ScoutPage{session, parent};
}

}  // namespace secondpull::app
