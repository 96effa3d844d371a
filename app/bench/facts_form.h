#pragma once

#include "core/shop/shop.h"

class QWidget;

namespace secondpull::app {

class Form;
class Session;

/// A form over the facts of a machine, filled with what is known; saving is one action. The caller shows it
/// with open() and lets it go once it is saved or left. Fields are named as the columns of machines.csv:
/// "fact.tag", "fact.kind", "fact.make"...
Form* factsForm(Session& session, MachineId machine, QWidget* parent);

/// The same for one line of the day book (fault, finding, hours, part fitted, material): "line.date"...
/// nullptr for a record that cannot be changed by itself.
Form* lineForm(Session& session, const AnyId& record, QWidget* parent);

}  // namespace secondpull::app
