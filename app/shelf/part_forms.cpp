#include "app/shelf/part_forms.h"

#include <QLineEdit>

#include "app/bench/form_fields.h"
#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/form.h"
#include "core/shop/side_trades.h"

namespace secondpull::app {
namespace {

DateEdit* addDay(const Session& session, const FormFields& fields, Form* form) {
  auto* day =
      fields.add("date", QObject::tr("Day"), new DateEdit(QStringLiteral("date"), session.today(), form));
  day->setRequired(true);
  day->setValue(session.today());
  return day;
}

CountEdit* addCount(const FormFields& fields, Form* form) {
  auto* count =
      fields.add("quantity", QObject::tr("How many"), new CountEdit(QStringLiteral("quantity"), 1, form));
  count->setPlaceholderText(QStringLiteral("1"));
  return count;
}

}  // namespace

Form* sellPartForm(Session& session, PartId part, QWidget* parent) {
  const auto shop = session.shop();
  const Part* known = shop->find(part);
  if (known == nullptr) return nullptr;
  auto* form = new Form(session, QStringLiteral("shelf.sell.%1").arg(number(part)),
                        QObject::tr("Sell it by itself"), parent);
  form->setColumns(2);
  const FormFields fields{*form, QStringLiteral("sellPart.")};
  const auto money = [&](const char* field, const QString& label) {
    return fields.add(field, label, new MoneyEdit(QString::fromLatin1(field), session.currency(), form));
  };
  CountEdit* quantity = addCount(fields, form);
  MoneyEdit* price = money("price", QObject::tr("Price of all"));
  price->setRequired(true);
  auto* buyer =
      fields.add("buyer", QObject::tr("To whom"),
                 new RecordPicker(session, RecordPicker::Of::person, QStringLiteral("buyer"), form), 2);
  MoneyEdit* tax = money("sales_tax", QObject::tr("Sales tax"));
  QLineEdit* place = fields.text("place", QObject::tr("Its place"), {});
  MoneyEdit* fee = money("fee", QObject::tr("Fee"));
  DateEdit* day = addDay(session, fields, form);
  form->onSave([=, &session]() -> std::optional<Problem> {
    NewPartSale sale{.date = *day->value(),
                     .part = part,
                     .quantity = quantity->value().value_or(1),
                     .price = price->value().value_or(Money{}),
                     .sales_tax = tax->value().value_or(Money{}),
                     .fee = fee->value().value_or(Money{}),
                     .place = textOf(place)};
    sale.buyer.known = buyer->picked<PersonId>();
    if (buyer->isNew()) sale.buyer.new_name = textOf(buyer);
    return session.perform(sell_part(*session.shop(), sale));
  });
  return form;
}

Form* foundPartForm(Session& session, QWidget* parent) {
  auto* form = new Form(session, QStringLiteral("shelf.found"), QObject::tr("Parts that turned up"), parent);
  form->setColumns(4);
  const FormFields fields{*form, QStringLiteral("found.")};
  auto* part = fields.add("part", QObject::tr("Which part"),
                          new RecordPicker(session, RecordPicker::Of::part, QStringLiteral("part"), form));
  CountEdit* quantity = addCount(fields, form);
  auto* price = fields.add("price", QObject::tr("Cost of each, if known"),
                           new MoneyEdit(QStringLiteral("price"), session.currency(), form));
  price->setPlaceholderText(QObject::tr("nothing"));
  DateEdit* day = addDay(session, fields, form);
  form->onSave([=, &session]() -> std::optional<Problem> {
    PartChoice choice;
    choice.known = part->picked<PartId>();
    if (part->isNew()) choice.new_name = textOf(part);
    return session.perform(take_in_found(*session.shop(), *day->value(), choice,
                                         quantity->value().value_or(1), price->value().value_or(Money{})));
  });
  return form;
}

}  // namespace secondpull::app
