#pragma once

#include "core/result.h"
#include "core/shop/stage.h"

namespace secondpull {

/// The safety check that stands against a machine: its latest finding since it came in whose step speaks of
/// safety ("safety check", "blade stop, safety"), if its outcome says that it failed ("failed", "does not
/// stop: fail"). nullptr: none failed, or a later one was passed.
const Finding* failed_safety_check(const ByMachine::Lines& lines);

/// A problem, naming `sold_as`, if the machine must not be offered or sold as running because a safety check
/// failed. As is, and with nothing said, it may be. list_machine and sell (selling.h) ask this; a screen may,
/// to say it beforehand.
std::optional<Problem> against_running(const ByMachine::Lines& lines, std::optional<SoldAs> sold_as);

}  // namespace secondpull
