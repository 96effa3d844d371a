#include "app/bench/bench_page.h"

#include <algorithm>
#include <array>

#include <QHBoxLayout>
#include <QPointer>
#include <QPushButton>
#include <QScrollArea>
#include <QShortcut>
#include <QStackedLayout>
#include <QVBoxLayout>

#include "app/bench/alike_panel.h"
#include "app/bench/facts_form.h"
#include "app/bench/fault_panel.h"
#include "app/bench/finding_line.h"
#include "app/bench/hours_line.h"
#include "app/bench/machine_head.h"
#include "app/bench/machine_list.h"
#include "app/bench/material_line.h"
#include "app/bench/numbered_choices.h"
#include "app/bench/numbers_panel.h"
#include "app/bench/part_line.h"
#include "app/bench/path_view.h"
#include "app/bench/plan_ahead.h"
#include "app/bench/sale_band.h"
#include "app/bench/step_panel.h"
#include "app/bench/verdict_band.h"
#include "app/parts/edits.h"
#include "app/parts/form.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/parts/photo_strip.h"
#include "app/planning/planning.h"
#include "app/print/paper_button.h"
#include "core/learning/stops.h"
#include "core/planning/bench_moment.h"

namespace secondpull::app {
namespace {

constexpr int kPathWidth = 48 * kGrid;
constexpr int kMostPathWidth = 62 * kGrid;  // however large the text: the fields beside it need theirs
constexpr int kPathHeight = 30 * kGrid;

QFrame* hairline(QWidget* parent) {
  auto* line = new QFrame(parent);
  line->setFrameShape(QFrame::HLine);
  line->setFrameShadow(QFrame::Plain);
  line->setForegroundRole(QPalette::Mid);
  return line;
}

class BenchPage : public Page {
 public:
  BenchPage(Session& session, QWidget* parent);

  QString word() const override { return tr("Bench"); }
  QString iconName() const override { return QStringLiteral("bench"); }
  QKeySequence key() const override { return QKeySequence{Qt::ALT | Qt::Key_2}; }
  void refresh(const std::vector<AnyId>& ids) override;
  void openMachine(MachineId machine) override;
  void start() override;
  std::vector<Deed> deeds() override;

 protected:
  void showEvent(QShowEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  QWidget* makeCard();
  QWidget* makeRight(QWidget* page);
  void makeKeys();
  void show(MachineId machine);
  void showPlan();
  void stop(const QString& how);
  void pick();
  void turn(int steps);
  void editFacts();
  void editLine(const AnyId& record);
  void openForm(Form* form, QVBoxLayout* slot, QWidget* back_to);
  Date day() const { return day_->value().value_or(session().today()); }
  bool isOpen() const { return machine_ && session().shop()->find(*machine_) != nullptr; }

  std::optional<MachineId> machine_;
  bool stale_ = true;
  bool wants_price_ = false;  // the band of a sale at some price, asked for beside the verdict
  std::vector<BenchPanel*> panels_;
  QPointer<Form> facts_form_;
  QPointer<Form> line_form_;

  MachineList* list_;
  QWidget* card_;
  MachineHead* head_;
  QVBoxLayout* facts_slot_;
  FaultPanel* faults_;
  StepPanel* step_;
  PlanAhead* ahead_;
  VerdictBand* verdict_;
  NumbersPanel* numbers_;
  AlikePanel* alike_;
  DateEdit* day_;
  FindingLine* finding_;
  HoursLine* hours_;
  PartLine* part_;
  MaterialLine* material_;
  PhotoStrip* photos_;
  QPushButton* add_photo_;
  QVBoxLayout* line_slot_;
  PathView* path_;
  SaleBand* band_;
  QStackedLayout* stack_;
};

BenchPage::BenchPage(Session& session, QWidget* parent) : Page(session, parent) {
  setObjectName(QStringLiteral("benchPage"));
  list_ = new MachineList(session, this);
  card_ = makeCard();
  stack_ = new QStackedLayout(this);
  stack_->addWidget(list_);
  stack_->addWidget(card_);
  panels_ = {head_,    faults_, step_, verdict_,  numbers_, alike_,
             finding_, hours_,  part_, material_, path_,    band_};
  for (BenchPanel* panel : panels_)
    connect(panel, &BenchPanel::said, this, &Page::wantsSaid);
  connect(photos_, &PhotoStrip::wantsSaid, this, &Page::wantsSaid);
  connect(list_, &MachineList::picked, this, &BenchPage::openMachine);
  connect(list_, &MachineList::wantsLogging, this,
          [this] { emit wantsPage(QStringLiteral("Yard"), MachineId{}); });
  connect(head_, &MachineHead::wantsFacts, this, &BenchPage::editFacts);
  connect(head_, &MachineHead::wantsPrevious, this, [this] { turn(-1); });
  connect(head_, &MachineHead::wantsNext, this, [this] { turn(1); });
  connect(head_, &MachineHead::wantsPick, this, &BenchPage::pick);
  connect(path_, &PathView::wantsChange, this, &BenchPage::editLine);
  connect(alike_, &AlikePanel::wantsMachine, this, &BenchPage::openMachine);
  connect(step_, &StepPanel::wantsStop, this, &BenchPage::stop);
  connect(step_, &StepPanel::wantsSale, this,
          [this] { emit wantsPage(QStringLiteral("For sale"), *machine_); });
  connect(&session.planning(), &Planning::planned, this, [this](MachineId machine) {
    if (isVisible() && isOpen() && machine == *machine_) showPlan();
  });
  makeKeys();
}

QWidget* BenchPage::makeCard() {
  auto* card = new QWidget(this);
  card->setObjectName(QStringLiteral("benchCard"));
  setRank(card, "gloves");
  auto* scroll = new QScrollArea(card);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll->setFocusPolicy(Qt::NoFocus);
  auto* page = new QWidget(scroll);
  setRank(page, "page");
  const auto day = [this] { return this->day(); };

  head_ = new MachineHead(session(), page);
  faults_ = new FaultPanel(session(), day, page);
  step_ = new StepPanel(session(), day, page);
  numbers_ = new NumbersPanel(session(), page);
  day_ = new DateEdit(QStringLiteral("date"), session().today(), page);
  day_->setValue(session().today());
  day_->setObjectName(QStringLiteral("workDay"));
  day_->setAccessibleName(tr("The day these lines are for"));
  day_->setFixedWidth(grown(18 * kGrid));
  finding_ = new FindingLine(session(), day, page);
  hours_ = new HoursLine(session(), day, page);
  part_ = new PartLine(session(), day, page);
  material_ = new MaterialLine(session(), day, page);
  photos_ = new PhotoStrip(session(), page);
  add_photo_ = new QPushButton(tr("Add photos"), page);
  add_photo_->setObjectName(QStringLiteral("photoAdd"));
  setRank(add_photo_, "quiet");
  connect(add_photo_, &QPushButton::clicked, photos_, &PhotoStrip::chooseFiles);
  band_ = new SaleBand(session(), card);
  verdict_ = new VerdictBand(session(), card);

  facts_slot_ = new QVBoxLayout;
  line_slot_ = new QVBoxLayout;

  auto* done = new QLabel(tr("Done on it"), page);
  setRank(done, "subheading");
  auto* when = new QLabel(tr("day"), page);
  when->setBuddy(day_);
  setRank(when, "small");
  auto* done_head = new QHBoxLayout;
  done_head->setSpacing(kGrid);
  done_head->addWidget(done, 1);
  done_head->addWidget(when);
  done_head->addWidget(day_);

  auto* photo_head = new QHBoxLayout;
  auto* photo_title = new QLabel(tr("Photos"), page);
  setRank(photo_title, "subheading");
  photo_head->addWidget(photo_title, 1);
  photo_head->addWidget(add_photo_);

  // Read downwards: what is wrong, what to do next, what was done.
  auto* left = new QVBoxLayout;
  left->setSpacing(kGrid);
  left->addWidget(faults_);
  left->addSpacing(kGrid);
  left->addWidget(step_);
  left->addWidget(numbers_);
  left->addSpacing(kGrid);
  left->addLayout(done_head);
  left->addWidget(finding_);
  left->addWidget(hours_);
  left->addWidget(part_);
  left->addWidget(material_);
  left->addSpacing(kGrid);
  left->addLayout(photo_head);
  left->addWidget(photos_);
  left->addStretch(1);

  auto* columns = new QHBoxLayout;
  columns->setSpacing(4 * kGrid);
  columns->addLayout(left, 1);
  columns->addWidget(makeRight(page));

  auto* body = new QVBoxLayout;
  body->setContentsMargins(3 * kGrid, 2 * kGrid, 3 * kGrid, 2 * kGrid);
  body->setSpacing(kGrid);
  body->addWidget(head_);
  body->addLayout(facts_slot_);
  body->addWidget(hairline(page));
  body->addLayout(columns, 1);
  auto* inner = new QWidget(page);
  inner->setLayout(body);
  inner->setMaximumWidth(grown(kWidestCard * kGrid));
  auto* centred = new QHBoxLayout(page);
  centred->setContentsMargins(0, 0, 0, 0);
  centred->addWidget(inner);
  scroll->setWidget(page);

  auto* outer = new QVBoxLayout(card);
  outer->setContentsMargins(0, 0, 0, 0);
  outer->setSpacing(0);
  outer->addWidget(scroll, 1);
  outer->addWidget(verdict_);
  outer->addWidget(band_);
  return card;
}

QWidget* BenchPage::makeRight(QWidget* page) {
  ahead_ = new PlanAhead(session(), page);
  path_ = new PathView(session(), page);
  path_->setMinimumHeight(kPathHeight);
  auto* right = new QVBoxLayout;
  right->setSpacing(kGrid);
  right->setContentsMargins(0, 0, 0, 0);
  right->addWidget(ahead_);
  right->addLayout(line_slot_);
  right->addWidget(path_, 1);
  alike_ = new AlikePanel(session(), page);
  right->addWidget(alike_);
  auto* box = new QWidget(page);
  box->setLayout(right);
  box->setFixedWidth(std::min(grown(kPathWidth), kMostPathWidth));
  return box;
}

void BenchPage::makeKeys() {
  const auto key = [this](const QKeySequence& keys, const std::function<void()>& run) {
    auto* shortcut = new QShortcut(keys, this);
    shortcut->setContext(Qt::WidgetWithChildrenShortcut);
    connect(shortcut, &QShortcut::activated, this, [this, run] {
      if (isOpen()) run();
    });
  };
  key(Qt::Key_F3, [this] {
    wants_price_ = true;
    band_->refresh();
    band_->start();
  });
  key(Qt::Key_F4, [this] { editFacts(); });
  key(Qt::Key_F5, [this] { finding_->start(); });
  key(Qt::Key_F6, [this] { hours_->start(); });
  key(Qt::Key_F7, [this] { part_->start(); });
  key(Qt::Key_F8, [this] { material_->start(); });
  key(Qt::Key_F9, [this] { faults_->start(); });
  key(Qt::Key_F12, [this] { path_->start(); });
  key(Qt::CTRL | Qt::Key_O, [this] { pick(); });
  key(Qt::CTRL | Qt::Key_PageUp, [this] { turn(-1); });
  key(Qt::CTRL | Qt::Key_PageDown, [this] { turn(1); });
}

void BenchPage::refresh(const std::vector<AnyId>&) {
  stale_ = true;
  if (!isVisible()) return;
  stale_ = false;
  if (isOpen()) return show(*machine_);
  machine_.reset();
  list_->refresh();
  stack_->setCurrentWidget(list_);
}

void BenchPage::showEvent(QShowEvent* event) {
  Page::showEvent(event);
  if (!machine_) {
    // What was in hand last is what a person goes on with.
    const std::vector<MachineId> in_hand = session().inHand();
    if (!in_hand.empty()) machine_ = in_hand.front();
  }
  if (stale_) refresh({});
}

void BenchPage::openMachine(MachineId machine) {
  if (session().shop()->find(machine) == nullptr) return;
  if (machine_ != machine) {
    day_->setValue(session().today());
    wants_price_ = false;
  }
  machine_ = machine;
  if (session().inHand().empty() || session().inHand().front() != machine) session().takeInHand(machine);
  if (!isVisible()) {
    stale_ = true;
    return;
  }
  show(machine);
  start();
}

void BenchPage::show(MachineId machine) {
  for (Form* form : {facts_form_.data(), line_form_.data()})
    if (form != nullptr && head_->machine() != machine) form->leave();
  for (BenchPanel* panel : panels_)
    panel->about(machine);
  Photo owner;
  owner.machine = machine;
  photos_->setOwner(owner);
  showPlan();
  stack_->setCurrentWidget(card_);
}

void BenchPage::showPlan() {
  const auto books = session().books();
  const auto moment =
      planning::bench_moment(books->by_machine().of(*machine_), session().knowledge()->knowledge);
  const bool waits = moment.what == planning::BenchMoment::What::step;
  const MachinePlan plan = waits ? session().planning().now(*machine_) : MachinePlan{};
  ahead_->showPlan(plan);
  // While the next plan is worked out, the last one stays: an empty place would only flicker.
  if (plan.answer != nullptr || !waits) {
    verdict_->showPlan(plan);
    numbers_->showPlan(plan);
  }
  if (verdict_->isVisibleTo(card_) && !wants_price_) band_->hide();
}

void BenchPage::stop(const QString& how) {
  const std::string stop = how.toStdString();
  if (stop == learning::kPartOut) return emit wantsPage(QStringLiteral("Shelf"), *machine_);
  emit wantsPage(stop == learning::kSellAsIs ? QStringLiteral("For sale") : QStringLiteral("Yard"),
                 *machine_);
}

void BenchPage::keyPressEvent(QKeyEvent* event) {
  if (const int digit = digitOf(*event); digit != 0 && isOpen() && step_->press(digit)) return;
  Page::keyPressEvent(event);
}

void BenchPage::pick() {
  list_->refresh();
  stack_->setCurrentWidget(list_);
  list_->start();
}

void BenchPage::turn(int steps) {
  const std::vector<MachineId> here = MachineList::here(session());
  if (here.empty()) return;
  const auto at = std::find(here.begin(), here.end(), *machine_);
  const auto count = static_cast<std::ptrdiff_t>(here.size());
  // From a machine that has gone, either way leads to the ends of the row.
  const std::ptrdiff_t from = at != here.end() ? at - here.begin() : (steps > 0 ? -1 : count);
  openMachine(here[static_cast<std::size_t>((from + steps + count) % count)]);
}

void BenchPage::start() {
  if (stack_->currentWidget() == list_)
    list_->start();
  else
    step_->start();
}

void BenchPage::openForm(Form* form, QVBoxLayout* slot, QWidget* back_to) {
  if (form == nullptr) return;
  slot->addWidget(form);
  const auto done = [form, back = QPointer<QWidget>{back_to}] {
    form->hide();
    form->deleteLater();
    if (back) back->setFocus();
  };
  connect(form, &Form::saved, this, done);
  connect(form, &Form::left, this, done);
  form->open();
}

void BenchPage::editFacts() {
  if (facts_form_) return facts_form_->leave();
  facts_form_ = factsForm(session(), *machine_, card_);
  openForm(facts_form_, facts_slot_, head_);
}

void BenchPage::editLine(const AnyId& record) {
  if (line_form_) line_form_->leave();
  line_form_ = lineForm(session(), record, card_);
  openForm(line_form_, line_slot_, path_);
}

std::vector<Page::Deed> BenchPage::deeds() {
  const auto on_card = [this](std::function<void()> run) {
    return [this, run = std::move(run)] {
      if (isOpen())
        run();
      else
        pick();
    };
  };
  std::vector<Deed> all{
      {tr("write down a step"), Qt::Key_F5, on_card([this] { finding_->start(); })},
      {tr("log hours"), Qt::Key_F6, on_card([this] { hours_->start(); })},
      {tr("fit a part"), Qt::Key_F7, on_card([this] { part_->start(); })},
      {tr("material used"), Qt::Key_F8, on_card([this] { material_->start(); })},
      {tr("open a fault"), Qt::Key_F9, on_card([this] { faults_->start(); })},
      {tr("change the facts of the machine"), Qt::Key_F4, on_card([this] { editFacts(); })},
      {tr("if sold at"), Qt::Key_F3, on_card([this] { band_->start(); })},
      {tr("another machine on the bench"), QKeySequence{Qt::CTRL | Qt::Key_O}, [this] { pick(); }},
  };
  for (const Deed& paper : head_->papers().deeds())
    all.push_back({paper.words, paper.key, on_card(paper.run)});
  return all;
}

}  // namespace

Page* makeBenchPage(Session& session, QWidget* parent) {
  return new BenchPage(session, parent);
}

}  // namespace secondpull::app
