#pragma once

#include <vector>

#include "core/diagnosis/case.h"
#include "core/shop/stage.h"

namespace secondpull::learning {

/// What each machine that was sold running turned out to need besides the fault it came with, a row a machine
/// in order of id, in whole units of the currency and minutes: the findings about faults that were opened on
/// a later day than its first one, up to that first sale, with their minutes and the outside work paid for;
/// and the parts (at what the last order of them cost) and materials used on days when such a fault was the
/// only one open. What was seen on the first day is not further work: it is known. A fault that was a mistake
/// counts for its minutes alone.
std::vector<diagnosis::KnownWork> further_work(const ByMachine& by_machine, const Shop& shop);

/// What a machine may be expected to need besides: the mean of the record, drawn towards what is believed
/// beforehand (see shrunk_mean; to the cent). "And usually something else."
diagnosis::KnownWork usual_further_work(const diagnosis::KnownWork& believed,
                                        const std::vector<diagnosis::KnownWork>& own,
                                        const Currency& currency);

}  // namespace secondpull::learning
