#include "app/sale/allowance_form.h"

#include <QLineEdit>

#include "app/frame/session.h"
#include "app/parts/edits.h"
#include "core/shop/side_trades.h"

namespace secondpull::app {

AllowanceForm::AllowanceForm(Session& session, MachineId machine, QWidget* parent)
    : Form(session, QStringLiteral("allowance-%1").arg(number(machine)),
           tr("Money back on #%1, which stays sold").arg(session.tagOf(machine)), parent),
      session_{session},
      machine_{machine} {
  setObjectName(QStringLiteral("allowanceForm"));
  setColumns(2);
  amount_ = new MoneyEdit{QStringLiteral("amount"), session.currency()};
  amount_->setObjectName(QStringLiteral("allowanceAmount"));
  amount_->setRequired(true);
  tax_ = new MoneyEdit{QStringLiteral("sales_tax"), session.currency()};
  tax_->setObjectName(QStringLiteral("allowanceTax"));
  date_ = new DateEdit{QStringLiteral("date"), session.today()};
  date_->setObjectName(QStringLiteral("allowanceDate"));
  date_->setRequired(true);
  date_->setValue(session.today());
  note_ = new QLineEdit;
  note_->setObjectName(QStringLiteral("allowanceNote"));
  addField(QStringLiteral("amount"), tr("Money given back, tax apart"), amount_);
  addField(QStringLiteral("sales_tax"), tr("Sales tax that went back with it"), tax_);
  addField(QStringLiteral("date"), tr("Day"), date_);
  addField(QStringLiteral("note"), tr("What for"), note_);
  onSave([this] { return save(); });
}

std::optional<Problem> AllowanceForm::save() {
  return session_.perform(give_allowance(*session_.shop(), {.machine = machine_,
                                                            .date = *date_->value(),
                                                            .amount = *amount_->value(),
                                                            .sales_tax = tax_->value().value_or(Money{}),
                                                            .note = note_->text().trimmed().toStdString()}));
}

}  // namespace secondpull::app
