#include <variant>

#include "app/bench/facts_form.h"
#include "app/bench/form_fields.h"
#include "app/frame/session.h"
#include "app/parts/edits.h"
#include "core/shop/bench.h"

namespace secondpull::app {
namespace {

/// Builds the form of one line. Every kind of line has a day; `finish` puts the fields back into the record.
class LineFormMaker {
 public:
  LineFormMaker(Session& session, QWidget* parent) : session_{session}, parent_{parent} {}

  Form* operator()(FaultId id) const {
    return make<Fault>(id, QObject::tr("Change the fault"), [&](const FormFields& fields, const Fault& now) {
      QLineEdit* symptom = fields.text("symptom", QObject::tr("What it does wrong"), now.symptom);
      QLineEdit* cause = fields.text("cause", QObject::tr("Cause"), now.cause);
      DateEdit* ended = day(fields, "ended", QObject::tr("Ended"), now.ended);
      QComboBox* how = fields.words("how", QObject::tr("How it ended"), now.how.value_or(FaultEnd::mended));
      QLineEdit* note = fields.text("note", QObject::tr("Note"), now.note);
      return [=](Fault& changed) {
        changed.symptom = textOf(symptom);
        changed.cause = textOf(cause);
        changed.ended = ended->value();
        changed.how = changed.ended ? std::optional{wordOf<FaultEnd>(how)} : std::nullopt;
        changed.note = textOf(note);
      };
    });
  }

  Form* operator()(FindingId id) const {
    return make<Finding>(
        id, QObject::tr("Change the step"), [&](const FormFields& fields, const Finding& now) {
          QLineEdit* step = fields.text("step", QObject::tr("Step"), now.step);
          QLineEdit* outcome = fields.text("outcome", QObject::tr("What came of it"), now.outcome);
          auto* minutes = fields.add("minutes", QObject::tr("Minutes it took"),
                                     new MinutesEdit(QStringLiteral("minutes")));
          minutes->setValue(now.minutes);
          MoneyEdit* cost = money(fields, "cost", QObject::tr("Paid to others"), now.cost);
          QLineEdit* reading = fields.text("reading", QObject::tr("Reading"), now.reading);
          QLineEdit* unit = fields.text("unit", QObject::tr("Unit"), now.unit);
          QLineEdit* note = fields.text("note", QObject::tr("Note"), now.note);
          return [=](Finding& changed) {
            changed.step = textOf(step);
            changed.outcome = textOf(outcome);
            changed.minutes = minutes->value();
            changed.cost = cost->value().value_or(Money{});
            changed.reading = textOf(reading);
            changed.unit = textOf(unit);
            changed.note = textOf(note);
          };
        });
  }

  Form* operator()(LabourId id) const {
    return make<Labour>(
        id, QObject::tr("Change the hours"), [&](const FormFields& fields, const Labour& now) {
          auto* minutes =
              fields.add("minutes", QObject::tr("How long"), new MinutesEdit(QStringLiteral("minutes")));
          minutes->setValue(now.minutes);
          minutes->setRequired(true);
          QComboBox* work = fields.words("work", QObject::tr("What it was"), now.work);
          QLineEdit* note = fields.text("note", QObject::tr("Note"), now.note);
          return [=](Labour& changed) {
            changed.minutes = minutes->value().value_or(changed.minutes);
            changed.work = wordOf<Work>(work);
            changed.note = textOf(note);
          };
        });
  }

  Form* operator()(FittedId id) const {
    return make<Fitted>(
        id, QObject::tr("Change the part fitted"), [&](const FormFields& fields, const Fitted& now) {
          auto* quantity =
              fields.add("quantity", QObject::tr("How many"), new CountEdit(QStringLiteral("quantity"), 1));
          quantity->setValue(now.quantity);
          quantity->setRequired(true);
          return [=](Fitted& changed) { changed.quantity = quantity->value().value_or(changed.quantity); };
        });
  }

  Form* operator()(MaterialId id) const {
    return make<Material>(id, QObject::tr("Change the material"),
                          [&](const FormFields& fields, const Material& now) {
                            QLineEdit* what = fields.text("what", QObject::tr("What"), now.what);
                            MoneyEdit* cost = money(fields, "cost", QObject::tr("Cost"), now.cost);
                            return [=](Material& changed) {
                              changed.what = textOf(what);
                              changed.cost = cost->value().value_or(Money{});
                            };
                          });
  }

  template <class Id>
  Form* operator()(Id) const {
    return nullptr;
  }

 private:
  DateEdit* day(const FormFields& fields, const char* name, const QString& label,
                std::optional<Date> date) const {
    auto* edit = new DateEdit(QString::fromLatin1(name), session_.today());
    edit->setValue(date);
    return fields.add(name, label, edit);
  }
  MoneyEdit* money(const FormFields& fields, const char* name, const QString& label, Money amount) const {
    auto* edit = new MoneyEdit(QString::fromLatin1(name), session_.currency());
    if (!amount.is_zero()) edit->setValue(amount);
    return fields.add(name, label, edit);
  }

  template <class Record, class Id, class Fill>
  Form* make(Id id, const QString& title, Fill&& fill) const {
    const auto shop = session_.shop();
    const Record* now = shop->find(id);
    if (now == nullptr) return nullptr;
    auto* form = new Form(session_, QStringLiteral("bench.line.%1").arg(number(id)), title, parent_);
    form->setColumns(2);
    const FormFields fields{*form, QStringLiteral("line.")};
    DateEdit* date = day(fields, "date", QObject::tr("Day"), now->date);
    date->setRequired(true);
    const auto finish = fill(fields, *now);
    Session& session = session_;
    form->onSave([&session, id, date, finish]() -> std::optional<Problem> {
      const auto shop_now = session.shop();
      const Record* before = shop_now->find(id);
      if (before == nullptr)
        return Problem{QObject::tr("This line is no longer there.").toStdString(), {}, {}};
      Record changed = *before;
      changed.date = date->value().value_or(before->date);
      finish(changed);
      if (changed == *before) return std::nullopt;
      return session.perform(replace_line(*shop_now, AnyRecord{changed}));
    });
    return form;
  }

  Session& session_;
  QWidget* parent_;
};

}  // namespace

Form* lineForm(Session& session, const AnyId& record, QWidget* parent) {
  return std::visit(LineFormMaker{session, parent}, record);
}

}  // namespace secondpull::app
