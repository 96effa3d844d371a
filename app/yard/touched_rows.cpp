#include "app/yard/touched_rows.h"

#include <algorithm>

#include <QCheckBox>
#include <QComboBox>
#include <QGridLayout>
#include <QJsonObject>
#include <QLabel>

#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/look.h"
#include "app/parts/tag_badge.h"

namespace secondpull::app {
namespace {

enum Column { kTick, kTag, kName, kMinutes, kWork, kUsed, kCost };
constexpr int kMostOffered = 8;  // more than are touched in a day

QString text(std::string_view words) {
  return QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
}

QString saysFrom(EveningGuess::From from) {
  switch (from) {
    case EveningGuess::From::its_own_record:
      return TouchedRows::tr("What a piece of work on this machine usually took.");
    case EveningGuess::From::the_shops_record:
      return TouchedRows::tr("What such work usually takes in this shop.");
    case EveningGuess::From::common_practice:
      break;
  }
  return TouchedRows::tr("There is no record of such work yet: half an hour to start with.");
}

}  // namespace

struct TouchedRows::Impl : public QObject {
  Impl(Session& session_in, TouchedRows* rows_in) : QObject(rows_in), session{session_in}, rows{rows_in} {}

  struct Row {
    MachineId machine;
    QCheckBox* tick;
    TagBadge* tag;
    QLabel* name;
    MinutesEdit* minutes;
    QComboBox* work;
    RecordPicker* used;
    MoneyEdit* cost;
    std::vector<QWidget*> widgets() const { return {tick, tag, name, minutes, work, used, cost}; }
  };
  Session& session;
  TouchedRows* rows;
  QGridLayout* grid = nullptr;
  QLabel* nobody = nullptr;
  std::vector<QLabel*> heads;
  std::vector<Row> lines;
  QWidget* before = nullptr;  ///< in the order of Tab
  int widget_rows = 1;        // the grid's next row, the head being row 0

  void addRow(const EveningGuess& guess);
  void clear();
  void touched(const Row& row) {
    row.tick->setChecked(true);
    emit rows->edited();
  }
  void showHeads();  ///< of the columns, or that there is nothing in them
  void orderTabs();
};

void TouchedRows::Impl::addRow(const EveningGuess& guess) {
  const auto index = lines.size();
  const auto named = [&](const char* what) {
    return QStringLiteral("%1%2").arg(QLatin1String{what}).arg(index);
  };
  const QString tag = session.tagOf(guess.machine);
  const QString name = session.nameOf(guess.machine);
  Row row{.machine = guess.machine,
          .tick = new QCheckBox{rows},
          .tag = new TagBadge{rows},
          .name = new QLabel{name, rows},
          .minutes = new MinutesEdit{named("minutes"), rows},
          .work = new QComboBox{rows},
          .used = new RecordPicker{session, RecordPicker::Of::part, named("used"), rows},
          .cost = new MoneyEdit{named("cost"), session.currency(), rows}};
  row.tick->setObjectName(named("touched"));
  row.tick->setChecked(guess.likely);
  row.tick->setAccessibleName(tr("Worked on #%1, %2").arg(tag, name));
  row.tag->setMachine(guess.machine, tag, name);
  row.tag->setFocusPolicy(Qt::NoFocus);
  row.minutes->setGuess(text(shown(guess.minutes)));
  row.minutes->setToolTip(saysFrom(guess.from));
  row.minutes->setAccessibleName(tr("How long on #%1").arg(tag));
  for (const Work work : all_words<Work>())
    row.work->addItem(text(word(work)));
  row.work->setCurrentIndex(static_cast<int>(guess.work));
  row.work->setObjectName(named("work"));
  row.work->setAccessibleName(tr("Kind of work on #%1").arg(tag));
  row.used->setPlaceholderText(tr("a part from the shelf, or anything"));
  row.used->setAccessibleName(tr("What was used on #%1").arg(tag));
  row.cost->setAccessibleName(tr("What that cost, if it is not from the shelf"));

  int column = kTick;
  for (QWidget* widget : row.widgets()) {
    grid->addWidget(widget, widget_rows, column++);
    widget->show();
  }
  ++widget_rows;
  lines.push_back(row);
  connect(row.tick, &QCheckBox::toggled, rows, &TouchedRows::edited);
  connect(row.minutes, &TypedEdit::valueEdited, this, [this, row] { touched(row); });
  connect(row.work, &QComboBox::activated, this, [this, row] { touched(row); });
  connect(row.used, &QLineEdit::textEdited, this, [this, row] { touched(row); });
  connect(row.cost, &TypedEdit::valueEdited, this, [this, row] { touched(row); });
}

void TouchedRows::Impl::clear() {
  for (const Row& row : lines)
    for (QWidget* widget : row.widgets()) {
      widget->hide();
      widget->deleteLater();
    }
  lines.clear();
}

void TouchedRows::Impl::showHeads() {
  nobody->setVisible(lines.empty());
  for (QLabel* head : heads)
    head->setVisible(!lines.empty());
}

void TouchedRows::Impl::orderTabs() {
  QWidget* last = before;
  for (const Row& row : lines)
    for (QWidget* widget : {static_cast<QWidget*>(row.tick), static_cast<QWidget*>(row.minutes),
                            static_cast<QWidget*>(row.work), static_cast<QWidget*>(row.used),
                            static_cast<QWidget*>(row.cost)}) {
      if (last != nullptr) QWidget::setTabOrder(last, widget);
      last = widget;
    }
}

TouchedRows::TouchedRows(Session& session, QWidget* parent)
    : QWidget(parent), impl_{new Impl{session, this}} {
  setObjectName("touchedRows");
  setAccessibleName(tr("Machines worked on"));
  impl_->grid = new QGridLayout{this};
  QGridLayout& grid = *impl_->grid;
  grid.setContentsMargins(0, 0, 0, 0);
  grid.setHorizontalSpacing(kGrid);
  grid.setVerticalSpacing(kGrid / 2);
  const auto head = [&](const QString& words, Column column, Qt::Alignment alignment = Qt::AlignLeft) {
    auto* label = new QLabel{words, this};
    label->setAlignment(alignment);
    setRank(label, "small");
    grid.addWidget(label, 0, column);
    impl_->heads.push_back(label);
  };
  head(tr("Machine"), kTag);
  head(tr("How long"), kMinutes);
  head(tr("Kind of work"), kWork);
  head(tr("What was used"), kUsed);
  head(tr("Cost, if bought"), kCost, Qt::AlignRight);
  grid.setColumnStretch(kName, 3);
  grid.setColumnStretch(kMinutes, 1);
  grid.setColumnStretch(kUsed, 3);
  grid.setColumnStretch(kCost, 1);
  impl_->nobody = faded(tr("No machine was touched lately. Add one below."), this);
  constexpr int kLastRow = 1000;  // below any day's machines
  grid.addWidget(impl_->nobody, kLastRow, kTick, 1, kCost + 1);
}

TouchedRows::~TouchedRows() = default;

void TouchedRows::offer(Date day) {
  impl_->clear();
  const auto shop = impl_->session.shop();
  const std::vector<MachineId> in_hand = impl_->session.inHand();
  std::vector<EveningGuess> guesses = evening_guesses(ByMachine{*shop}, *shop, day, in_hand);
  if (guesses.size() > kMostOffered) guesses.resize(kMostOffered);
  for (const EveningGuess& guess : guesses)
    impl_->addRow(guess);
  impl_->showHeads();
  impl_->orderTabs();
}

void TouchedRows::add(MachineId machine) {
  const auto at = std::find_if(impl_->lines.begin(), impl_->lines.end(),
                               [machine](const Impl::Row& row) { return row.machine == machine; });
  if (at == impl_->lines.end()) {
    EveningGuess guess{.machine = machine, .likely = true, .minutes = {30}};
    const auto shop = impl_->session.shop();
    for (const EveningGuess& known :
         evening_guesses(ByMachine{*shop}, *shop, impl_->session.today(), std::vector{machine}))
      if (known.machine == machine) guess = known;
    guess.likely = true;
    impl_->addRow(guess);
  } else {
    at->tick->setChecked(true);
  }
  impl_->showHeads();
  impl_->orderTabs();
  emit edited();
}

std::vector<EveningMachine> TouchedRows::ticked() const {
  std::vector<EveningMachine> all;
  for (const Impl::Row& row : impl_->lines) {
    if (!row.tick->isChecked()) continue;
    EveningMachine line{.machine = row.machine,
                        .minutes = row.minutes->value().value_or(Minutes{}),
                        .work = static_cast<Work>(row.work->currentIndex())};
    // A part of the shelf is fitted from stock, unless it was bought for this: then it is a material.
    const auto part = row.used->picked<PartId>();
    if (part && row.cost->isBlank())
      line.part = part;
    else
      line.material = row.used->text().trimmed().toStdString();
    line.material_cost = row.cost->value().value_or(Money{});
    all.push_back(std::move(line));
  }
  return all;
}

std::optional<Problem> TouchedRows::problem() const {
  for (const Impl::Row& row : impl_->lines) {
    if (!row.tick->isChecked()) continue;
    for (TypedEdit* edit : {static_cast<TypedEdit*>(row.minutes), static_cast<TypedEdit*>(row.cost)})
      if (auto wrong = edit->problem()) {
        edit->markProblem();
        edit->setFocus();
        return wrong;
      }
  }
  return std::nullopt;
}

bool TouchedRows::isEmpty() const {
  return impl_->lines.empty();
}
void TouchedRows::setTabAfter(QWidget* field) {
  impl_->before = field;
}

void TouchedRows::focusFirst() {
  if (!impl_->lines.empty()) impl_->lines.front().tick->setFocus();
}

QJsonArray TouchedRows::draft() const {
  QJsonArray all;
  for (const Impl::Row& row : impl_->lines)
    all.append(QJsonObject{{"machine", static_cast<qint64>(number(row.machine))},
                           {"tick", row.tick->isChecked()},
                           {"minutes", row.minutes->isGuess() ? QString{} : row.minutes->text()},
                           {"work", row.work->currentIndex()},
                           {"used", row.used->text()},
                           {"cost", row.cost->text()}});
  return all;
}

void TouchedRows::restore(const QJsonArray& draft) {
  const auto shop = impl_->session.shop();
  for (const auto& entry : draft) {
    const QJsonObject kept = entry.toObject();
    const auto machine = static_cast<MachineId>(kept["machine"].toInteger());
    if (shop->find(machine) == nullptr) continue;
    add(machine);
    const auto row = std::find_if(impl_->lines.begin(), impl_->lines.end(),
                                  [machine](const Impl::Row& at) { return at.machine == machine; });
    row->tick->setChecked(kept["tick"].toBool());
    row->work->setCurrentIndex(kept["work"].toInt());
    row->used->setText(kept["used"].toString());
    row->cost->setText(kept["cost"].toString());
    if (const QString minutes = kept["minutes"].toString(); !minutes.isEmpty()) {
      row->minutes->setGuess({});
      row->minutes->setText(minutes);
    }
  }
}

}  // namespace secondpull::app
