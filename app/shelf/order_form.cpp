#include "app/shelf/order_form.h"

#include <QCheckBox>
#include <QLabel>

#include "app/bench/form_fields.h"
#include "app/bench/guesses.h"
#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/look.h"
#include "app/shelf/part_rows.h"
#include "core/shop/shelf.h"

namespace secondpull::app {

Form* orderForm(Session& session, QWidget* parent) {
  const QString name = QStringLiteral("shelf.order");
  auto* form = new Form(session, name, QObject::tr("Place an order"), parent);
  form->setColumns(4);
  form->setSaveText(QObject::tr("Place the order"));
  const FormFields fields{*form, QStringLiteral("order.")};
  auto* supplier =
      fields.add("supplier", QObject::tr("Supplier"),
                 new RecordPicker(session, RecordPicker::Of::person, QStringLiteral("supplier"), form));
  auto* date = fields.add("date", QObject::tr("Ordered on"),
                          new DateEdit(QStringLiteral("date"), session.today(), form));
  date->setValue(session.today());
  date->setRequired(true);
  auto* freight = fields.add("freight", QObject::tr("Freight"),
                             new MoneyEdit(QStringLiteral("freight"), session.currency(), form));
  auto* tax =
      fields.add("tax", QObject::tr("Tax"), new MoneyEdit(QStringLiteral("tax"), session.currency(), form));
  auto* arrived = fields.add("arrived", QObject::tr("Arrived on, if it is here already"),
                             new DateEdit(QStringLiteral("arrived"), session.today(), form), 2);
  // Stock that was here before can only be entered in the year in which the books begin.
  auto* opening = fields.add("opening", QObject::tr("Opening stock"),
                             new QCheckBox{QObject::tr("Was here when the books begin"), form}, 2);
  const auto years = session.books()->years();
  form->setFieldShown("opening", !years || years->first == year_of(session.today()));
  auto* total = faded({}, form);
  total->setObjectName(QStringLiteral("orderTotal"));
  form->addWide(total);
  auto* rows = new PartRows(
      session, *form, name,
      {QObject::tr("Price each"), [&session](PartId part) { return lastPrice(*session.shop(), part); }},
      true);

  const auto add_up = [=, &session] {
    Money goods;
    std::int64_t pieces = 0;
    for (const PartRows::Row& row : rows->filled()) {
      goods += row.amount * row.quantity;
      pieces += row.quantity;
    }
    const Money extra = freight->value().value_or(Money{}) + tax->value().value_or(Money{});
    if (pieces == 0)
      return total->setText(QObject::tr("One line a part. A new row follows when the last one is begun."));
    const QString words = pieces == 1 ? QObject::tr("1 piece for %1, with freight and tax %2")
                                      : QObject::tr("%1 pieces for %2, with freight and tax %3").arg(pieces);
    total->setText(words.arg(session.money(goods), session.money(goods + extra)));
  };
  QObject::connect(rows, &PartRows::edited, form, add_up);
  QObject::connect(freight, &QLineEdit::textChanged, form, add_up);
  QObject::connect(tax, &QLineEdit::textChanged, form, add_up);
  add_up();

  form->onSave([=, &session]() -> std::optional<Problem> {
    if (const auto wrong = rows->problem()) return wrong;
    NewOrder order;
    order.date = date->value().value_or(session.today());
    order.supplier.known = supplier->picked<PersonId>();
    if (!order.supplier.known) order.supplier.new_name = textOf(supplier);
    order.arrived = arrived->value();
    order.freight = freight->value().value_or(Money{});
    order.tax = tax->value().value_or(Money{});
    order.opening = opening->isChecked();
    if (order.opening && !order.arrived) order.arrived = order.date;
    for (const PartRows::Row& row : rows->filled())
      order.lines.push_back({row.part, row.quantity, row.amount, row.machine});
    const auto shop = session.shop();
    return session.perform(place_order(*shop, order));
  });
  return form;
}

Form* receiveForm(Session& session, OrderId order, QWidget* parent) {
  const auto shop = session.shop();
  const Order* known = shop->find(order);
  if (known == nullptr || known->arrived) return nullptr;
  auto* form = new Form(session, QStringLiteral("shelf.receive.%1").arg(number(order)),
                        QObject::tr("It is here"), parent);
  form->setColumns(3);
  form->setSaveText(QObject::tr("Take it in"));
  const FormFields fields{*form, QStringLiteral("receive.")};
  auto* arrived = fields.add("arrived", QObject::tr("Came on"),
                             new DateEdit(QStringLiteral("arrived"), session.today(), form));
  arrived->setValue(session.today());
  arrived->setRequired(true);
  auto* freight = fields.add("freight", QObject::tr("Freight"),
                             new MoneyEdit(QStringLiteral("freight"), session.currency(), form));
  freight->setValue(known->freight);
  auto* tax =
      fields.add("tax", QObject::tr("Tax"), new MoneyEdit(QStringLiteral("tax"), session.currency(), form));
  tax->setValue(known->tax);
  form->onSave([=, &session]() -> std::optional<Problem> {
    const auto now = session.shop();
    return session.perform(receive_order(*now, order, arrived->value().value_or(session.today()),
                                         freight->value().value_or(Money{}), tax->value().value_or(Money{})));
  });
  return form;
}

}  // namespace secondpull::app
