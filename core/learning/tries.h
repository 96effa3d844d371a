#pragma once

#include <vector>

#include "core/learning/knowledge.h"
#include "core/shop/stage.h"

namespace secondpull::learning {

// Reading a machine's findings in the words of the knowledge base.

/// Was it the only fault of the machine that was open on that day? Its first and last day are included.
bool only_open(const ByMachine::Lines& lines, const Fault& fault, Date day);

/// The findings about a fault, in order: those that name it, and those that name none while it was the only
/// one open.
std::vector<const Finding*> findings_of(const ByMachine::Lines& lines, const Fault& fault);

/// Did the repair mend the fault?
enum class Came { mended, failed, untold };

/// A repair made on a fault.
struct Try {
  const Finding* finding = nullptr;
  const Repair* repair = nullptr;
  Came came = Came::untold;
};

/// The repairs among the findings about a fault whose cause is known, or is one of several (`causes`: a
/// repair that lists none of them and is not said to have mended it is other work, and no try), and what came
/// of them:
/// - a try that others followed has failed, whatever was written down: the fault went on;
/// - the last one mended the fault if it says "mended" and the fault did not end otherwise;
/// - of a fault given up, all have failed;
/// - the last one of an open fault has failed unless it says "mended";
/// - the last one of a fault that ended mended, but which says neither "mended" nor "failed", tells nothing;
/// - two that both say "mended", on the last day, tell nothing either: nobody knows which one did it.
/// Of a fault that was a mistake there are none.
std::vector<Try> tries_of(const ByMachine::Lines& lines, const Fault& fault, const Knowledge& knowledge,
                          const std::vector<std::string>& causes);

/// What a finding says of a repair that mended the fault, and of one that did not.
inline constexpr std::string_view kSaysMended = "mended";
inline constexpr std::string_view kSaysFailed = "failed";

}  // namespace secondpull::learning
