#include "app/frame/first_run.h"

#include <QComboBox>
#include <QDir>
#include <QFileDialog>
#include <QFrame>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/parts/edits.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "db/exchange/demo_folder.h"
#include "db/exchange/exchange.h"

namespace secondpull::app {
namespace {

namespace fs = std::filesystem;

constexpr int kColumnWidth = 84 * kGrid;
constexpr int kButtonLetters = 14;  // so that the buttons of the ways are alike in width
constexpr std::size_t kMostErrorsShown = 200;

QString say(const std::string& text) {
  return QString::fromStdString(text);
}

/// Makes a shop in `into` from an exchange folder, or leaves nothing behind.
Result<db::Store> makeShop(const fs::path& from, const fs::path& into, db::Instant now,
                           const LongWork::Reins& reins) {
  reins.step(FirstRun::tr("Reading the folder…"));
  const db::ImportResult read = db::read_folder(from, Shop{});
  if (!read.errors.empty()) {
    std::string sentence = FirstRun::tr("The folder was not imported; nothing was changed.").toStdString();
    for (std::size_t i = 0; i < std::min(read.errors.size(), kMostErrorsShown); ++i)
      sentence += "\n" + db::shown(read.errors[i]);
    return problem(std::move(sentence));
  }
  if (reins.cancelled()) return problem(FirstRun::tr("The import was given up.").toStdString());
  reins.step(FirstRun::tr("Writing the shop…"));
  const bool was_there = fs::exists(into);
  const auto give_up = [&](Problem what) {
    std::error_code ignored;  // what matters is the problem before it
    if (!was_there) fs::remove_all(into, ignored);
    return tl::unexpected<Problem>(std::move(what));
  };
  Result<db::Store> store = db::Store::create(into, read.shop.settings, now);
  if (!store) return give_up(store.error());
  const auto done = store->perform(db::import_change(*store->shop(), read.shop), now);
  if (!done) {
    store = problem("");  // closes it before its folder goes
    return give_up(done.error());
  }
  return store;
}

/// One of the ways to begin: what it is, a sentence, and its buttons.
QFrame* way(const QString& title, const QString& sentence, std::initializer_list<QPushButton*> buttons,
            QWidget* parent) {
  auto* card = new QFrame{parent};
  setRank(card, "card");
  auto* layout = new QHBoxLayout{card};
  layout->setContentsMargins(2 * kGrid, 2 * kGrid, 2 * kGrid, 2 * kGrid);
  layout->setSpacing(2 * kGrid);
  auto* words = new QVBoxLayout;
  words->setSpacing(kGrid / 2);
  auto* head = new QLabel{title, card};
  setRank(head, "subheading");
  words->addWidget(head);
  words->addWidget(faded(sentence, card));
  layout->addLayout(words, 1);
  for (QPushButton* button : buttons) {
    button->setMinimumWidth(button->fontMetrics().averageCharWidth() * kButtonLetters);
    layout->addWidget(button, 0, Qt::AlignVCenter);
  }
  return card;
}

}  // namespace

FirstRun::FirstRun(fs::path home, Clock clock, QWidget* parent)
    : QWidget(parent),
      home_{std::move(home)},
      clock_{std::move(clock)},
      work_{new LongWork{this}},
      store_{std::make_shared<std::optional<db::Store>>()} {
  setObjectName("firstRun");
  setWindowTitle(tr("Second Pull"));
  auto* outer = new QHBoxLayout{this};
  auto* column = new QWidget{this};
  column->setMaximumWidth(grown(kColumnWidth));
  outer->addStretch(1);
  outer->addWidget(column, 100);
  outer->addStretch(1);
  auto* layout = new QVBoxLayout{column};
  layout->setSpacing(2 * kGrid);
  layout->addStretch(2);
  auto* name = new QLabel{tr("Second Pull"), column};
  setRank(name, "figure");
  layout->addWidget(name);
  auto* what =
      faded(tr("The books, the bench and the plan of a one-person mower shop. Everything stays on this "
               "computer."),
            column);
  layout->addWidget(what);

  problem_ = new QLabel{column};
  problem_->setObjectName("problem");
  problem_->setWordWrap(true);
  problem_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  setRank(problem_, "problem");
  problem_->hide();
  layout->addWidget(problem_);
  details_ = new QPlainTextEdit{column};
  details_->setObjectName("importErrors");
  details_->setAccessibleName(tr("What is wrong with the folder"));
  details_->setReadOnly(true);
  details_->hide();
  layout->addWidget(details_, 3);

  ways_ = new QWidget{column};
  auto* ways = new QVBoxLayout{ways_};
  ways->setContentsMargins(0, 0, 0, 0);
  ways->setSpacing(2 * kGrid);
  auto* start = new QPushButton{tr("&Start"), ways_};
  start->setObjectName("startNew");
  setRank(start, "first");
  auto* demo = new QPushButton{tr("&Look"), ways_};
  demo->setObjectName("lookAtDemo");
  auto* folder = new QPushButton{tr("&Import…"), ways_};
  folder->setObjectName("importFolder");
  auto* other = new QPushButton{tr("&Open…"), ways_};
  other->setObjectName("openShop");
  auto* restore = new QPushButton{tr("&Restore…"), ways_};
  restore->setObjectName("restoreFile");
  ways->addWidget(
      way(tr("Start with what I already have"),
          tr("An empty shop of your own: log what stands in the garage now, and go on from there."), {start},
          ways_));
  ways->addWidget(way(tr("Look at the demo shop"),
                      tr("An invented shop with two years in it. Try anything; it is yours to break."),
                      {demo}, ways_));
  ways->addWidget(way(tr("Import a folder"),
                      tr("A folder of CSV tables, exported from another shop or made from a spreadsheet."),
                      {folder}, ways_));
  ways->addWidget(way(tr("Open a shop"),
                      tr("A shop's folder that lies somewhere else on this computer, or the one file of a "
                         "backup, of which a new shop is made."),
                      {other, restore}, ways_));
  layout->addWidget(ways_);
  connect(start, &QPushButton::clicked, this, &FirstRun::startNew);
  connect(demo, &QPushButton::clicked, this, &FirstRun::lookAtDemo);
  connect(folder, &QPushButton::clicked, this, [this] {
    const QString chosen = QFileDialog::getExistingDirectory(this, tr("The folder to import"));
    if (!chosen.isEmpty()) importFolder(chosen.toStdString());
  });
  connect(other, &QPushButton::clicked, this, [this] {
    const QString chosen =
        QFileDialog::getExistingDirectory(this, tr("The shop's folder"), say(home_.string()));
    if (!chosen.isEmpty()) emit wantsShop(chosen.toStdString());
  });
  connect(restore, &QPushButton::clicked, this, [this] {
    const QString chosen = QFileDialog::getOpenFileName(this, tr("The backup"), QDir::homePath(),
                                                        tr("Backups (*.tar.gz);;All files (*)"));
    if (!chosen.isEmpty()) restoreFile(chosen.toStdString());
  });

  new_form_ = makeNewForm();
  new_form_->hide();
  layout->addWidget(new_form_);

  busy_ = new QWidget{column};
  auto* busy = new QHBoxLayout{busy_};
  busy->setContentsMargins(0, 0, 0, 0);
  step_ = new QLabel{busy_};
  auto* bar = new QProgressBar{busy_};
  bar->setRange(0, 0);
  auto* give_up = new QPushButton{tr("Give up"), busy_};
  give_up->setObjectName("giveUp");
  busy->addWidget(step_);
  busy->addWidget(bar, 1);
  busy->addWidget(give_up);
  busy_->hide();
  layout->addWidget(busy_);
  layout->addStretch(3);
  connect(give_up, &QPushButton::clicked, work_, &LongWork::cancel);
  connect(work_, &LongWork::stepped, step_, &QLabel::setText);
  connect(work_, &LongWork::failed, this, [this](const QString& sentence) {
    setBusy(false);
    showProblem(sentence);
  });
  connect(work_, &LongWork::givenUp, this, [this] {
    setBusy(false);
    showProblem(tr("Given up; nothing was changed."));
  });
  connect(work_, &LongWork::done, this, [this] {
    setBusy(false);
    emit ready(false);
  });
  start->setFocus();
}

FirstRun::~FirstRun() = default;

QWidget* FirstRun::makeNewForm() {
  auto* card = new QFrame{this};
  setRank(card, "card");
  auto* grid = new QGridLayout{card};
  grid->setContentsMargins(2 * kGrid, 2 * kGrid, 2 * kGrid, 2 * kGrid);
  grid->setHorizontalSpacing(2 * kGrid);
  grid->setVerticalSpacing(kGrid / 2);
  auto* title = new QLabel{tr("A shop of your own"), card};
  setRank(title, "subheading");
  grid->addWidget(title, 0, 0, 1, 4);
  name_ = new QLineEdit{card};
  name_->setObjectName("shopName");
  currency_ = new QComboBox{card};
  currency_->setObjectName("currency");
  for (const Currency& currency : currencies())
    currency_->addItem(say(currency.code));
  currency_->setCurrentText("USD");
  hour_value_ = new QLineEdit{card};
  hour_value_->setObjectName("hourValue");
  hour_value_->setPlaceholderText(tr("can wait"));
  // Without either, plans take an hour for worth nothing until some hours are logged.
  hours_a_week_ = new TenthsEdit{QStringLiteral("hoursAWeek"), tr("h"), card};
  hours_a_week_->setPlaceholderText(tr("can wait"));
  int column = 0;
  const auto field = [&](const QString& label, QWidget* widget) {
    auto* caption = new QLabel{label, card};
    caption->setBuddy(widget);
    setRank(caption, "small");
    widget->setAccessibleName(label);
    grid->addWidget(caption, 1, column);
    grid->addWidget(widget, 2, column++);
  };
  field(tr("Name of the shop"), name_);
  field(tr("Currency"), currency_);
  field(tr("What an hour of yours is worth"), hour_value_);
  field(tr("Hours a week for the shop"), hours_a_week_);
  grid->setColumnStretch(0, 2);
  grid->setColumnStretch(2, 1);
  auto* buttons = new QHBoxLayout;
  buttons->setSpacing(kGrid);
  auto* make = new QPushButton{tr("Make the shop"), card};
  make->setObjectName("makeShop");
  setRank(make, "first");
  auto* back = new QPushButton{tr("Back"), card};
  buttons->addWidget(make);
  buttons->addWidget(back);
  buttons->addStretch(1);
  grid->setRowMinimumHeight(3, kGrid);
  grid->addLayout(buttons, 4, 0, 1, 4);
  connect(make, &QPushButton::clicked, this, &FirstRun::create);
  for (QLineEdit* line : std::initializer_list<QLineEdit*>{name_, hour_value_, hours_a_week_})
    connect(line, &QLineEdit::returnPressed, this, &FirstRun::create);
  connect(back, &QPushButton::clicked, this, [this] {
    new_form_->hide();
    ways_->show();
  });
  return card;
}

void FirstRun::showProblem(const QString& sentence) {
  const qsizetype first = sentence.indexOf('\n');
  problem_->setText(first < 0 ? sentence : sentence.left(first));
  problem_->show();
  details_->setPlainText(first < 0 ? QString{} : sentence.mid(first + 1));
  details_->setVisible(first >= 0);
}

void FirstRun::startNew() {
  ways_->hide();
  new_form_->show();
  name_->setFocus();
}

void FirstRun::create() {
  const Result<Currency> currency = currency_of(currency_->currentText().toStdString());
  if (!currency) return showProblem(say(currency.error().sentence));
  Settings settings;
  settings.name = name_->text().trimmed().toStdString();
  settings.currency = *currency;
  if (!hour_value_->text().trimmed().isEmpty()) {
    const Result<Money> value =
        parse_typed_amount(hour_value_->text().toStdString(), *currency, "hour_value");
    if (!value) {
      hour_value_->setFocus();
      return showProblem(say(value.error().sentence));
    }
    settings.hour_value = *value;
  }
  if (const auto wrong = hours_a_week_->problem()) {
    hours_a_week_->setFocus();
    return showProblem(say(wrong->sentence));
  }
  settings.hours_a_week = hours_a_week_->value();
  Result<db::Store> store = db::Store::create(freeFolder("shop"), settings, clock_());
  if (!store) return showProblem(say(store.error().sentence));
  *store_ = *std::move(store);
  emit ready(true);
}

void FirstRun::lookAtDemo() {
  const fs::path into = home_ / "demo-shop";
  if (fs::exists(into / "shop.sqlite")) return emit wantsShop(into);
  const Result<fs::path> from = db::demo_folder();
  if (!from) return showProblem(say(from.error().sentence));
  import(*from, into);
}

void FirstRun::importFolder(const fs::path& folder) {
  import(folder, freeFolder("shop"));
}

void FirstRun::restoreFile(const fs::path& file) {
  const fs::path into = freeFolder("shop");
  make(into, [file, into, now = clock_()](const LongWork::Reins& reins) -> Result<db::Store> {
    reins.step(tr("Unpacking the backup…"));
    if (const auto made = db::Store::restore(file, into); !made) return tl::unexpected{made.error()};
    return db::Store::open(into, db::Access::write, now);
  });
}

void FirstRun::import(const fs::path& from, const fs::path& into) {
  make(into, [from, into, now = clock_()](const LongWork::Reins& reins) {
    return makeShop(from, into, now, reins);
  });
}

void FirstRun::make(const fs::path& into,
                    std::function<Result<db::Store>(const LongWork::Reins& reins)> shop) {
  setBusy(true);
  work_->start([into, shop = std::move(shop),
                store = store_](const LongWork::Reins& reins) -> std::optional<Problem> {
    std::error_code cannot;
    fs::create_directories(into.parent_path(), cannot);
    if (cannot)
      return Problem{
          "The folder " + into.parent_path().string() + " cannot be made: " + cannot.message() + ".", {}, {}};
    Result<db::Store> made = shop(reins);
    if (!made) return made.error();
    *store = *std::move(made);
    return std::nullopt;
  });
}

void FirstRun::setBusy(bool busy) {
  busy_->setVisible(busy);
  ways_->setEnabled(!busy);
  if (busy) {
    problem_->hide();
    details_->hide();
  }
}

fs::path FirstRun::freeFolder(const std::string& name) const {
  std::error_code ignored;  // a folder that cannot be made is told of by Store::create
  fs::create_directories(home_, ignored);
  fs::path folder = home_ / name;
  for (int count = 2; fs::exists(folder); ++count)
    folder = home_ / (name + "-" + std::to_string(count));
  return folder;
}

std::optional<db::Store> FirstRun::takeStore() {
  return std::exchange(*store_, std::nullopt);
}

}  // namespace secondpull::app
