#include "app/sale/deal_list.h"

#include <algorithm>

#include <QComboBox>
#include <QHBoxLayout>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/sale/form_words.h"
#include "app/sale/sale_rows.h"

namespace secondpull::app {
namespace {

constexpr int kValueWidth = 14 * kGrid;
constexpr int kCountWidth = 8 * kGrid;
constexpr int kShareWidth = 11 * kGrid;

QString guessText(const Session& session, Money amount) {
  return QString::fromStdString(plain(amount, session.currency()));
}

/// What a machine counts for: its asking price, else what it has cost.
Money guessedValue(const Session& session, MachineId machine) {
  const auto books = session.books();
  if (const Listing* listing = listingNow(books->by_machine().of(machine))) return listing->asking;
  const MachineFigures* figures = books->machine(machine);
  return figures != nullptr ? figures->cost_basis : Money{};
}

/// What one piece was sold for last, else bought for last.
Money guessedPiece(const Session& session, PartId part) {
  const auto shop = session.shop();
  const PartSale* sold = nullptr;
  for (const PartSale& sale : shop->all<PartSale>())
    if (sale.part == part) sold = &sale;
  if (sold != nullptr) return scale(sold->price, 1, sold->quantity);
  const OrderLine* bought = nullptr;
  for (const OrderLine& line : shop->all<OrderLine>())
    if (line.part == part) bought = &line;
  return bought != nullptr ? bought->price : Money{};
}

std::optional<SoldAs> chosenAs(const QComboBox& box) {
  const auto all = all_words<SoldAs>();
  const int at = box.currentIndex() - 1;
  return at < 0 ? std::nullopt : std::optional{all[static_cast<std::size_t>(at)]};
}

}  // namespace

DealList::DealList(Session& session, MachineId first, QWidget* parent) : QWidget(parent), session_{session} {
  box_ = new QVBoxLayout{this};
  box_->setContentsMargins(0, 0, 0, 0);
  box_->setSpacing(kGrid / 2);
  hint_ = faded(tr("One price for all of them, split by what each counts for."));
  hint_->setWordWrap(true);
  box_->addWidget(hint_);

  const auto picker = [&](const char* name, const char* button_name, RecordPicker::Of of,
                          const QString& words, const QString& what) {
    auto* made = new RecordPicker{session_, of, QString::fromLatin1(name)};
    made->setPlaceholderText(words);
    made->setAccessibleName(what);
    auto* button = new QPushButton{tr("Add")};
    button->setObjectName(QString::fromLatin1(button_name));
    button->setAccessibleName(what);
    connect(button, &QPushButton::clicked, this, [this, made] { takePicked(made); });
    auto* line = new QHBoxLayout;
    line->setSpacing(kGrid);
    line->addWidget(made, 1);
    line->addWidget(button);
    box_->addLayout(line);
    return made;
  };
  machine_ = picker("dealMachine", "dealAddMachine", RecordPicker::Of::machine_here, tr("Another machine"),
                    tr("Add a machine to the deal"));
  part_ = picker("dealPart", "dealAddPart", RecordPicker::Of::part, tr("A part with it"),
                 tr("Add a part to the deal"));

  Line& line = addLine(tr("#%1 %2").arg(session.tagOf(first), session.nameOf(first)),
                       guessText(session, guessedValue(session, first)));
  line.machine = first;
  showLines();
}

DealList::Line& DealList::addLine(const QString& name, const QString& guess) {
  Line line{.number = next_++};
  const auto called = [at = line.number](const char* word) {
    return QStringLiteral("%1%2").arg(QString::fromLatin1(word)).arg(at);
  };
  line.widget = new QWidget;
  auto* rows = new QVBoxLayout{line.widget};
  rows->setContentsMargins(0, 0, 0, 0);
  rows->setSpacing(kGrid / 4);
  auto* what = new QLabel{name};
  what->setWordWrap(true);
  rows->addWidget(what);
  auto* row = new QHBoxLayout;
  row->setSpacing(kGrid);
  rows->addLayout(row);
  line.row = row;
  line.value = new MoneyEdit{QStringLiteral("value"), session_.currency()};
  line.value->setObjectName(called("dealValue"));
  line.value->setAccessibleName(tr("What %1 counts for").arg(name));
  line.value->setToolTip(tr("What it counts for when the price is split"));
  line.value->setFixedWidth(grown(kValueWidth));
  line.value->setRequired(true);
  line.value->setGuess(guess);
  line.share = new QLabel;
  line.share->setObjectName(called("dealShare"));
  line.share->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  line.share->setMinimumWidth(grown(kShareWidth));
  row->addWidget(line.value);
  row->addWidget(line.share);
  if (!lines_.empty()) {
    auto* leave = new QPushButton{tr("Leave out")};
    leave->setObjectName(called("dealLeave"));
    leave->setAccessibleName(tr("Leave %1 out of the deal").arg(name));
    setRank(leave, "quiet");
    const QWidget* of = line.widget;
    connect(leave, &QPushButton::clicked, this, [this, of] { remove(of); });
    row->addWidget(leave);
  }
  row->addStretch(1);
  connect(line.value, &TypedEdit::valueEdited, this, &DealList::edited);
  box_->insertWidget(box_->count() - 2, line.widget);
  lines_.push_back(line);
  return lines_.back();
}

void DealList::add(MachineId machine) {
  if (std::any_of(lines_.begin(), lines_.end(), [&](const Line& line) { return line.machine == machine; }))
    return;
  Line& line = addLine(tr("#%1 %2").arg(session_.tagOf(machine), session_.nameOf(machine)),
                       guessText(session_, guessedValue(session_, machine)));
  line.machine = machine;
  line.sold_as = new QComboBox;
  line.sold_as->setObjectName(QStringLiteral("dealSoldAs%1").arg(line.number));
  line.sold_as->setAccessibleName(tr("#%1 is sold as").arg(session_.tagOf(machine)));
  line.sold_as->addItems(soldAsWords());
  const auto books = session_.books();
  if (const Listing* listing = listingNow(books->by_machine().of(machine)); listing && listing->sold_as)
    line.sold_as->setCurrentText(textOf(word(*listing->sold_as)));
  line.row->insertWidget(0, line.sold_as);
  connect(line.sold_as, &QComboBox::currentIndexChanged, this, &DealList::edited);
  showLines();
  emit edited();
}

void DealList::add(PartId part) {
  const auto shop = session_.shop();
  const Part* known = shop->find(part);
  if (known == nullptr) return;
  Line& line =
      addLine(QString::fromStdString(known->name), guessText(session_, guessedPiece(session_, part)));
  line.part = part;
  line.count = new CountEdit{QStringLiteral("quantity"), 1};
  line.count->setObjectName(QStringLiteral("dealCount%1").arg(line.number));
  line.count->setAccessibleName(tr("How many of %1").arg(QString::fromStdString(known->name)));
  line.count->setToolTip(tr("How many"));
  line.count->setFixedWidth(grown(kCountWidth));
  line.count->setRequired(true);
  line.count->setValue(1);
  line.row->insertWidget(0, line.count);
  MoneyEdit* value = line.value;
  CountEdit* count = line.count;
  connect(count, &TypedEdit::valueEdited, this, [this, part, value, count] {
    // A guess follows the number of pieces; what was typed stays.
    if (const auto pieces = count->value(); pieces && value->isGuess() && *pieces <= kLargestQuantity)
      value->setGuess(guessText(session_, guessedPiece(session_, part) * *pieces));
    emit edited();
  });
  showLines();
  emit edited();
}

void DealList::remove(const QWidget* of) {
  const auto at =
      std::find_if(lines_.begin(), lines_.end(), [of](const Line& line) { return line.widget == of; });
  if (at == lines_.end() || at == lines_.begin()) return;
  at->widget->hide();
  at->widget->deleteLater();
  lines_.erase(at);
  machine_->setFocus();
  showLines();
  emit edited();
}

void DealList::showLines() {
  // Alone the first machine needs no line: the form is about it.
  lines_.front().widget->setVisible(isSeveral());
  hint_->setVisible(isSeveral());
}

void DealList::takePicked(RecordPicker* from) {
  const auto shop = session_.shop();
  if (const auto machine = from == machine_ ? from->pickedIn<MachineId>(*shop) : std::nullopt) {
    from->clear();
    add(*machine);
  } else if (const auto part = from == part_ ? from->pickedIn<PartId>(*shop) : std::nullopt) {
    from->clear();
    add(*part);
  }
}

void DealList::keyPressEvent(QKeyEvent* event) {
  const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
  // Enter in a picker adds to the deal; it sells only where nothing is typed there.
  for (RecordPicker* picker : {machine_, part_})
    if (enter && picker->hasFocus() && !picker->text().trimmed().isEmpty()) return takePicked(picker);
  QWidget::keyPressEvent(event);
}

std::optional<Problem> DealList::problem() const {
  for (RecordPicker* picker : {machine_, part_}) {
    const QString typed = picker->text().trimmed();
    if (typed.isEmpty()) continue;
    picker->setFocus();
    return Problem{
        tr("\"%1\" is typed but not in the deal: add it, or empty the field.").arg(typed).toStdString(),
        picker == machine_ ? "machine" : "part", typed.toStdString()};
  }
  if (!isSeveral()) return std::nullopt;
  for (const Line& line : lines_)
    for (TypedEdit* edit : std::initializer_list<TypedEdit*>{line.count, line.value}) {
      if (edit == nullptr) continue;
      const std::optional<Problem> wrong = edit->problem();
      if (!wrong) continue;
      edit->markProblem();
      edit->setFocus();
      return wrong;
    }
  return std::nullopt;
}

void DealList::fill(Deal& deal) const {
  deal.machines.clear();
  deal.parts.clear();
  for (const Line& line : lines_) {
    const std::optional<Money> value = isSeveral() ? line.value->value() : std::nullopt;
    if (line.machine)
      deal.machines.push_back({.machine = *line.machine,
                               .value = value,
                               .sold_as = line.sold_as != nullptr ? chosenAs(*line.sold_as) : std::nullopt});
    else
      deal.parts.push_back({.part = *line.part, .quantity = line.count->value().value_or(0), .value = value});
  }
}

void DealList::showShares(const std::vector<DealShare>& shares) {
  // Shares come machines first, whatever the order of the lines.
  std::size_t machine = 0;
  std::size_t part = static_cast<std::size_t>(
      std::count_if(lines_.begin(), lines_.end(), [](const Line& line) { return line.machine.has_value(); }));
  for (const Line& line : lines_) {
    const std::size_t at = line.machine ? machine++ : part++;
    line.share->setText(at < shares.size() ? session_.money(shares[at].price) : QString{});
  }
}

QString DealList::draft() const {
  if (!isSeveral()) return {};
  QJsonArray things;
  for (const Line& line : lines_) {
    QJsonObject thing{{"value", line.value->text()}, {"guess", line.value->isGuess()}};
    if (line.machine) thing["machine"] = static_cast<qint64>(number(*line.machine));
    if (line.part) thing["part"] = static_cast<qint64>(number(*line.part));
    if (line.count != nullptr) thing["count"] = line.count->text();
    if (line.sold_as != nullptr) thing["as"] = line.sold_as->currentIndex();
    things.append(thing);
  }
  return QString::fromUtf8(QJsonDocument{things}.toJson(QJsonDocument::Compact));
}

void DealList::read(const QString& draft) {
  while (isSeveral())
    remove(lines_.back().widget);
  const auto shop = session_.shop();
  for (const QJsonValue& each : QJsonDocument::fromJson(draft.toUtf8()).array()) {
    const QJsonObject thing = each.toObject();
    const auto before = lines_.size();
    if (thing.contains("part")) {
      const PartId part{thing["part"].toInteger()};
      if (shop->find(part) != nullptr) add(part);
    } else {
      const MachineId machine{thing["machine"].toInteger()};
      if (shop->find(machine) != nullptr) add(machine);
    }
    const bool is_first = MachineId{thing["machine"].toInteger()} == lines_.front().machine;
    if (lines_.size() == before && !is_first) continue;
    Line& line = is_first ? lines_.front() : lines_.back();
    if (line.count != nullptr) line.count->setText(thing["count"].toString());
    if (line.sold_as != nullptr) line.sold_as->setCurrentIndex(thing["as"].toInt());
    if (!thing["guess"].toBool()) {
      line.value->setGuess({});
      line.value->setText(thing["value"].toString());
    }
  }
  showLines();
}

}  // namespace secondpull::app
