#include "app/bench/facts_form.h"

#include <QComboBox>
#include <QLineEdit>

#include "app/bench/form_fields.h"
#include "app/frame/session.h"
#include "app/parts/edits.h"
#include "app/parts/form.h"
#include "core/shop/intake.h"

namespace secondpull::app {

Form* factsForm(Session& session, MachineId machine, QWidget* parent) {
  const auto shop = session.shop();
  const Machine* known = shop->find(machine);
  if (known == nullptr) return nullptr;
  auto* form = new Form(session, QStringLiteral("bench.facts.%1").arg(number(machine)),
                        QObject::tr("The facts of #%1").arg(QString::fromStdString(known->tag)), parent);
  form->setColumns(4);
  const FormFields fields{*form, QStringLiteral("fact.")};
  QLineEdit* make = fields.text("make", QObject::tr("Make"), known->make);
  QLineEdit* model = fields.text("model", QObject::tr("Model"), known->model);
  QComboBox* kind = fields.words("kind", QObject::tr("What it is"), known->kind);
  QLineEdit* tag = fields.text("tag", QObject::tr("Tag"), known->tag);
  QLineEdit* model_number = fields.text("model_number", QObject::tr("Model number"), known->model_number);
  QLineEdit* serial = fields.text("serial", QObject::tr("Serial number"), known->serial);
  QLineEdit* engine = fields.text("engine", QObject::tr("Engine"), known->engine, 2);
  auto* year = new CountEdit(QStringLiteral("year"), 1, form);
  year->setValue(known->year ? std::optional<std::int64_t>{*known->year} : std::nullopt);
  fields.add("year", QObject::tr("Year"), year);
  auto* deck = new TenthsEdit(QStringLiteral("deck_in"), QObject::tr("in"), form);
  deck->setValue(known->deck_in);
  fields.add("deck_in", QObject::tr("Width of cut"), deck);
  auto* value = new MoneyEdit(QStringLiteral("value_then"), session.currency(), form);
  value->setValue(known->value_then);
  fields.add("value_then", QObject::tr("Worth when it came"), value);
  QLineEdit* symptom = fields.text("symptom", QObject::tr("What it did wrong"), known->symptom, 2);
  QLineEdit* condition = fields.text("condition", QObject::tr("Condition"), known->condition, 2);
  QLineEdit* note = fields.text("note", QObject::tr("Note"), known->note, 4);

  form->onSave([=, &session]() -> std::optional<Problem> {
    const auto now = session.shop();
    const Machine* before = now->find(machine);
    if (before == nullptr)
      return Problem{QObject::tr("This machine is no longer in the shop.").toStdString(), {}, {}};
    Machine changed = *before;
    changed.tag = textOf(tag);
    changed.kind = wordOf<MachineKind>(kind);
    changed.make = textOf(make);
    changed.model = textOf(model);
    changed.model_number = textOf(model_number);
    changed.serial = textOf(serial);
    changed.engine = textOf(engine);
    const auto typed_year = year->value();
    changed.year = typed_year ? std::optional<int>{static_cast<int>(*typed_year)} : std::nullopt;
    changed.deck_in = deck->value();
    changed.value_then = value->value();
    changed.symptom = textOf(symptom);
    changed.condition = textOf(condition);
    changed.note = textOf(note);
    if (changed == *before) return std::nullopt;
    return session.perform(edit_machine(*now, changed));
  });
  return form;
}

}  // namespace secondpull::app
