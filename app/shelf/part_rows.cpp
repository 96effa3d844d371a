#include "app/shelf/part_rows.h"

#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/form.h"

namespace secondpull::app {
namespace {

constexpr std::size_t kFirstRows = 3;

QString fieldName(const char* field, std::size_t row) {
  return QStringLiteral("%1%2").arg(QString::fromLatin1(field)).arg(row);
}

}  // namespace

PartRows::PartRows(Session& session, Form& form, const QString& form_name, Amount amount, bool for_machine)
    : QObject(&form), session_{session}, form_{form}, amount_{std::move(amount)}, for_machine_{for_machine} {
  const QString draft = session.draft(form_name).value_or(QString{});
  while (rows_.size() < kFirstRows ||
         draft.contains(QStringLiteral("\"%1\"").arg(fieldName("part", rows_.size() + 1))))
    addRow();
}

void PartRows::addRow() {
  const std::size_t count = rows_.size() + 1;
  const bool first = rows_.empty();
  Fields row{};
  const auto add = [&](const char* field, const QString& label, QWidget* widget) {
    const QString name = fieldName(field, count);
    widget->setObjectName(name);
    form_.addField(name, first ? label : QString{}, widget);
    widget->setAccessibleName(tr("%1, line %2").arg(label).arg(count));
  };
  row.part = new RecordPicker(session_, RecordPicker::Of::part, fieldName("part", count), &form_);
  add("part", tr("Part"), row.part);
  row.quantity = new CountEdit(fieldName("quantity", count), 1, &form_);
  row.quantity->setPlaceholderText(QStringLiteral("1"));
  add("quantity", tr("How many"), row.quantity);
  row.amount = new MoneyEdit(fieldName("amount", count), session_.currency(), &form_);
  add("amount", amount_.label, row.amount);
  if (for_machine_) {
    row.machine =
        new RecordPicker(session_, RecordPicker::Of::machine_here, fieldName("machine", count), &form_);
    row.machine->setPlaceholderText(tr("the shelf"));
    add("machine", tr("For machine"), row.machine);
  }
  rows_.push_back(row);

  connect(row.part, &RecordPicker::pickedChanged, this, [this, count] { guess(rows_[count - 1]); });
  connect(row.part, &QLineEdit::textChanged, this, [this, count](const QString& text) {
    if (count == rows_.size() && !text.trimmed().isEmpty()) addRow();
    emit edited();
  });
  connect(row.quantity, &QLineEdit::textChanged, this, [this, count] {
    guess(rows_[count - 1]);
    emit edited();
  });
  connect(row.amount, &QLineEdit::textChanged, this, &PartRows::edited);
}

void PartRows::guess(const Fields& row) {
  if (!row.amount->isBlank() && !row.amount->isGuess()) return;
  const auto part = row.part->picked<PartId>();
  const std::optional<Money> amount = part ? amount_.guess(*part) : std::nullopt;
  if (amount)
    row.amount->setGuess(QString::fromStdString(plain(*amount, session_.currency())));
  else if (row.amount->isGuess())
    row.amount->setGuess({});
}

std::vector<PartRows::Row> PartRows::filled() const {
  std::vector<Row> rows;
  for (const Fields& fields : rows_) {
    const QString name = fields.part->text().trimmed();
    if (name.isEmpty()) continue;
    Row row;
    row.part.known = fields.part->picked<PartId>();
    if (!row.part.known) row.part.new_name = name.toStdString();
    row.quantity = fields.quantity->value().value_or(1);
    row.amount = fields.amount->value().value_or(Money{});
    if (fields.machine != nullptr) row.machine = fields.machine->picked<MachineId>();
    rows.push_back(std::move(row));
  }
  return rows;
}

std::optional<Problem> PartRows::problem() const {
  std::size_t count = 0;
  for (const Fields& fields : rows_) {
    ++count;
    const bool named = !fields.part->text().trimmed().isEmpty();
    if (!named && (!fields.amount->isBlank() || !fields.quantity->isBlank()))
      return Problem{tr("Say which part line %1 is about.").arg(count).toStdString(),
                     fieldName("part", count).toStdString(),
                     {}};
    if (named && fields.machine != nullptr && fields.machine->isNew())
      return Problem{tr("No machine here has the tag “%1”.").arg(fields.machine->text()).toStdString(),
                     fieldName("machine", count).toStdString(), fields.machine->text().toStdString()};
  }
  return std::nullopt;
}

void PartRows::reload() {
  for (const Fields& fields : rows_) {
    fields.part->reload();
    if (fields.machine != nullptr) fields.machine->reload();
  }
}

}  // namespace secondpull::app
