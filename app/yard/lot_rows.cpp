#include "app/yard/lot_rows.h"

#include <algorithm>

#include <QComboBox>
#include <QGridLayout>
#include <QJsonObject>
#include <QLabel>
#include <QLineEdit>

#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/yard/seen_menu.h"

namespace secondpull::app {
namespace {

enum Column { kTag, kKind, kWhat, kSymptom, kSeen, kWorth, kValue, kShare };
constexpr int kValueWidth = 15 * kGrid;  // room for the amount and the word that it is a guess

QString text(std::string_view words) {
  return QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
}

QLabel* headOf(const QString& words, QWidget* parent, Qt::Alignment alignment = Qt::AlignLeft) {
  auto* label = new QLabel{words, parent};
  label->setAlignment(alignment);
  setRank(label, "small");
  return label;
}

}  // namespace

std::vector<Money> lotShares(Money paid, const std::vector<std::optional<Money>>& values) {
  if (values.empty()) return {};
  const bool all_known = std::all_of(values.begin(), values.end(), [](const auto& value) { return value; });
  if (!all_known) return split_evenly(paid, values.size());
  std::vector<Money> weights;
  for (const auto& value : values)
    weights.push_back(*value);
  return split(paid, weights);
}

struct LotRows::Impl : public QObject {
  Impl(Session& session_in, LotRows* rows_in) : QObject(rows_in), session{session_in}, rows{rows_in} {}

  struct Row {
    QLabel* tag;
    QComboBox* kind;
    QLineEdit* what;
    QLineEdit* symptom;
    SeenMenu* seen;
    WordRow* worth;
    MoneyEdit* value;
    QLabel* share;
    std::vector<QWidget*> widgets() const { return {tag, kind, what, symptom, seen, worth, value, share}; }
  };
  Session& session;
  LotRows* rows;
  QGridLayout* grid = nullptr;
  std::vector<Row> lines;
  QLabel* how = nullptr;
  QWidget* before = nullptr;  ///< in the order of Tab
  Money paid;
  int widget_rows = 1;  // the grid's next row, the head being row 0
  bool busy = false;    // filling in guesses is not editing

  void addRow();
  void removeRow();
  void guess();
  void showShares();
  void touched() {
    if (busy) return;
    guess();
    showShares();
    emit rows->edited();
  }
  std::vector<std::optional<Money>> values() const {
    std::vector<std::optional<Money>> all;
    for (const Row& line : lines)
      all.push_back(line.value->value());
    return all;
  }
};

void LotRows::Impl::addRow() {
  const auto index = lines.size();
  const auto named = [&](const char* what) {
    return QStringLiteral("%1%2").arg(QLatin1String{what}).arg(index);
  };
  Row line{.tag = new QLabel{rows},
           .kind = new QComboBox{rows},
           .what = new QLineEdit{rows},
           .symptom = new QLineEdit{rows},
           .seen = new SeenMenu{session, named("lotSeen"), rows},
           .worth = new WordRow{named("lotWorth"), {tr("good"), tr("middling"), tr("for parts")}, rows},
           .value = new MoneyEdit{named("lotValue"), session.currency(), rows},
           .share = new QLabel{rows}};
  for (const MachineKind kind : all_words<MachineKind>())
    line.kind->addItem(text(word(kind)));
  line.kind->setCurrentIndex(lines.empty() ? static_cast<int>(usual_kind(*session.shop()))
                                           : lines.back().kind->currentIndex());
  line.kind->setObjectName(named("lotKind"));
  line.what->setObjectName(named("lotWhat"));
  line.what->setPlaceholderText(tr("make and model"));
  line.symptom->setObjectName(named("lotSymptom"));
  line.symptom->setPlaceholderText(tr("not tried yet"));
  line.seen->setKind(static_cast<MachineKind>(line.kind->currentIndex()));
  line.worth->setCurrent(static_cast<int>(Worth::middling));
  line.share->setObjectName(named("lotShare"));
  line.share->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  const auto number = index + 1;
  line.kind->setAccessibleName(tr("Kind of machine %1").arg(number));
  line.what->setAccessibleName(tr("Make and model of machine %1").arg(number));
  line.symptom->setAccessibleName(tr("What machine %1 does wrong").arg(number));
  line.seen->setAccessibleName(tr("Also seen of machine %1").arg(number));
  line.worth->setAccessibleName(tr("How good machine %1 looks").arg(number));
  line.value->setAccessibleName(tr("Value of machine %1 that day").arg(number));

  int column = kTag;
  for (QWidget* widget : line.widgets()) {
    grid->addWidget(widget, widget_rows, column++);
    widget->show();
  }
  ++widget_rows;
  line.value->setMaximumWidth(grown(kValueWidth));
  connect(line.kind, &QComboBox::currentIndexChanged, this, [this, seen = line.seen](int kind) {
    seen->setKind(static_cast<MachineKind>(kind));
    touched();
  });
  connect(line.seen, &SeenMenu::edited, this, [this] { touched(); });
  connect(line.what, &QLineEdit::textChanged, this, [this] { touched(); });
  connect(line.symptom, &QLineEdit::textChanged, this, [this] { touched(); });
  connect(line.worth, &WordRow::chosen, this, [this] { touched(); });
  connect(line.value, &QLineEdit::textChanged, this, [this] { touched(); });
  lines.push_back(line);
}

void LotRows::Impl::removeRow() {
  for (QWidget* widget : lines.back().widgets()) {
    widget->hide();
    widget->deleteLater();
  }
  lines.pop_back();
}

/// Fills in the values that the person has not typed.
void LotRows::Impl::guess() {
  std::vector<WorthGuess> machines;
  for (const Row& line : lines)
    machines.push_back(
        {static_cast<MachineKind>(line.kind->currentIndex()), static_cast<Worth>(line.worth->current())});
  const std::vector<Money> guessed = guessed_values(*session.shop(), machines, paid);
  const bool was_busy = std::exchange(busy, true);
  for (std::size_t at = 0; at < lines.size(); ++at) {
    MoneyEdit* value = lines[at].value;
    const bool typed = !value->isGuess() && !(value->isBlank() && !value->isModified());
    if (!typed && !value->hasFocus()) value->setGuess(session.money(guessed[at]));
  }
  busy = was_busy;
}

void LotRows::Impl::showShares() {
  const auto known = values();
  const auto shares = lotShares(paid, known);
  for (std::size_t at = 0; at < lines.size(); ++at)
    lines[at].share->setText(session.money(shares[at]));
  const bool by_value = std::all_of(known.begin(), known.end(), [](const auto& value) { return value; });
  how->setText(by_value ? tr("%1 split by value").arg(session.money(paid))
                        : tr("%1 split equally, because a value is missing").arg(session.money(paid)));
}

LotRows::LotRows(Session& session, QWidget* parent) : QWidget(parent), impl_{new Impl{session, this}} {
  setObjectName("lotRows");
  setAccessibleName(tr("The machines of the lot"));
  impl_->grid = new QGridLayout{this};
  QGridLayout& grid = *impl_->grid;
  grid.setContentsMargins(0, 0, 0, 0);
  grid.setHorizontalSpacing(kGrid);
  grid.setVerticalSpacing(kGrid / 2);
  grid.addWidget(headOf(tr("Tag"), this), 0, kTag);
  grid.addWidget(headOf(tr("Kind"), this), 0, kKind);
  grid.addWidget(headOf(tr("What it is"), this), 0, kWhat);
  grid.addWidget(headOf(tr("What it does wrong"), this), 0, kSymptom);
  grid.addWidget(headOf(tr("Also seen"), this), 0, kSeen);
  grid.addWidget(headOf(tr("How it looks"), this), 0, kWorth);
  grid.addWidget(headOf(tr("Value that day"), this, Qt::AlignRight), 0, kValue);
  grid.addWidget(headOf(tr("Its share"), this, Qt::AlignRight), 0, kShare);
  grid.setColumnStretch(kWhat, 3);
  grid.setColumnStretch(kSymptom, 3);
  constexpr int kShareWidth = 10 * kGrid;
  grid.setColumnMinimumWidth(kValue, kValueWidth);
  grid.setColumnMinimumWidth(kShare, kShareWidth);
  impl_->how = faded({}, this);
  impl_->how->setObjectName("lotHow");
  impl_->how->setAlignment(Qt::AlignRight);
  constexpr int kLastRow = 1000;  // below any lot that fits a form
  grid.addWidget(impl_->how, kLastRow, kTag, 1, kShare + 1);
}

LotRows::~LotRows() = default;

void LotRows::setCount(int count, const QString& first_tag) {
  while (static_cast<int>(impl_->lines.size()) < count)
    impl_->addRow();
  while (static_cast<int>(impl_->lines.size()) > count)
    impl_->removeRow();
  bool whole = false;
  const qlonglong first = first_tag.toLongLong(&whole);
  for (int at = 0; at < count; ++at)
    impl_->lines[static_cast<std::size_t>(at)].tag->setText(whole ? tr("#%1").arg(first + at) : QString{});
  QWidget* before = impl_->before;
  for (const Impl::Row& line : impl_->lines)
    for (QWidget* widget : {static_cast<QWidget*>(line.kind), static_cast<QWidget*>(line.what),
                            static_cast<QWidget*>(line.symptom), static_cast<QWidget*>(line.seen),
                            static_cast<QWidget*>(line.worth), static_cast<QWidget*>(line.value)}) {
      if (before != nullptr) setTabOrder(before, widget);
      before = widget;
    }
  if (count == 0) return;
  impl_->guess();
  impl_->showShares();
}

int LotRows::count() const {
  return static_cast<int>(impl_->lines.size());
}

void LotRows::setPaid(Money paid) {
  if (paid == impl_->paid) return;
  impl_->paid = paid;
  if (impl_->lines.empty()) return;
  impl_->guess();
  impl_->showShares();
}

std::optional<Problem> LotRows::problem() const {
  for (const Impl::Row& line : impl_->lines)
    if (auto wrong = line.value->problem()) {
      line.value->markProblem();
      line.value->setFocus();
      return wrong;
    }
  return std::nullopt;
}

std::vector<NewMachine> LotRows::machines() const {
  const auto shop = impl_->session.shop();
  std::vector<NewMachine> all;
  for (const Impl::Row& line : impl_->lines) {
    const MakeAndModel what = split_make_model(*shop, line.what->text().toStdString());
    NewMachine machine{.kind = static_cast<MachineKind>(line.kind->currentIndex()),
                       .make = what.make,
                       .model = what.model,
                       .symptom = line.symptom->text().trimmed().toStdString(),
                       .condition = line.seen->seen().join(QStringLiteral(", ")).toStdString(),
                       .value_then = line.value->value()};
    if (machine.symptom.empty()) machine.symptom = line.symptom->placeholderText().toStdString();
    all.push_back(std::move(machine));
  }
  return all;
}

void LotRows::clear() {
  while (!impl_->lines.empty())
    impl_->removeRow();
}

void LotRows::setTabAfter(QWidget* field) {
  impl_->before = field;
}

QJsonArray LotRows::draft() const {
  QJsonArray all;
  for (const Impl::Row& line : impl_->lines)
    all.append(QJsonObject{{"kind", line.kind->currentIndex()},
                           {"what", line.what->text()},
                           {"symptom", line.symptom->text()},
                           {"seen", QJsonArray::fromStringList(line.seen->seen())},
                           {"worth", line.worth->current()},
                           {"value", line.value->isGuess() ? QString{} : line.value->text()}});
  return all;
}

void LotRows::restore(const QJsonArray& draft) {
  impl_->busy = true;
  for (qsizetype at = 0; at < std::min<qsizetype>(draft.size(), count()); ++at) {
    const QJsonObject kept = draft[at].toObject();
    const Impl::Row& line = impl_->lines[static_cast<std::size_t>(at)];
    line.kind->setCurrentIndex(kept["kind"].toInt());
    line.what->setText(kept["what"].toString());
    line.symptom->setText(kept["symptom"].toString());
    QStringList seen;
    for (const QJsonValue& name : kept["seen"].toArray())
      seen << name.toString();
    line.seen->setSeen(seen);
    line.worth->setCurrent(kept["worth"].toInt());
    if (const QString value = kept["value"].toString(); !value.isEmpty()) {
      line.value->setGuess({});
      line.value->setText(value);
      line.value->setModified(true);
    }
  }
  impl_->busy = false;
  impl_->guess();
  impl_->showShares();
}

}  // namespace secondpull::app
