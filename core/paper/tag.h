#pragma once

#include <string>

#include "core/shop/stage.h"

namespace secondpull::paper {

/// What stands on the tag that is tied on a machine.
struct Tag {
  std::string number;   ///< "#14"
  std::string machine;  ///< "Tarnwick TW-2 self-propelled mower"
  std::string symptom;  ///< of its latest open fault, else what it came in with; empty: not said
  Date came{};          ///< the day it last came in
  std::string code;     ///< what a scanner types into the What-now line, which turns to the machine: "#14"
  friend bool operator==(const Tag&, const Tag&) = default;
};
/// Empty for an unknown machine.
Tag tag_of(const ByMachine::Lines& lines);

}  // namespace secondpull::paper
