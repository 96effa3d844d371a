#pragma once

#include <vector>

#include <QString>
#include <QStringView>

namespace secondpull::app {

/// What a piece of work can do to a person.
enum class Danger {
  blade,
  fuel,
  ultrasonic,
  spray,
  exhaust,
  lifting,
  recoil,
  blade_brake,
  battery,
  safety_switch,
  crankshaft
};

/// The dangers that the words of a step, part or kind of work point at, each once, in the order above. Words
/// are matched from their beginning and whatever their case: "Blades" points at the blade, "gasket" at no
/// gas.
std::vector<Danger> dangersOf(QStringView words);

/// The usual caution for one danger: one plain sentence.
QString caution(Danger danger);

/// All cautions for these words as one line that ends by deferring to the maker's manual; empty where the
/// words point at no danger.
QString cautionLine(QStringView words);

}  // namespace secondpull::app
