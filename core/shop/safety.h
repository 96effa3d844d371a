#pragma once

#include "core/result.h"
#include "core/shop/stage.h"

namespace secondpull {

/// The safety check that stands against a machine. Of each step that speaks of safety ("safety check", "blade
/// stop, safety"; in either case of ASCII letters) the latest finding since it came in counts, and stands
/// against it if its outcome says that it failed ("failed", "does not stop: fail"). Of several the latest;
/// nullptr: none failed, or each that did was passed later. Passing another check takes nothing back.
const Finding* failed_safety_check(const ByMachine::Lines& lines);

/// A problem, naming `sold_as`, if the machine must not be offered or sold as running because a safety check
/// failed. As is, and with nothing said, it may be. list_machine and sell (selling.h) ask this; a screen may,
/// to say it beforehand.
std::optional<Problem> against_running(const ByMachine::Lines& lines, std::optional<SoldAs> sold_as);

}  // namespace secondpull
