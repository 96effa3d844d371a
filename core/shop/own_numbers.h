#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/result.h"
#include "core/shop/change.h"

namespace secondpull {

// Numbers that the owner says for one machine in the place of the computed ones. A path says which number:
// "revived.price", "repairs.mend-carb-clean.minutes", "stops.scrap.value". Which paths there are, and in what
// range and unit their numbers lie, is known where they are used.

/// The number for that path from now on; the same one again changes nothing. Refused: a machine that is not
/// there ("machine"), no path ("path"), a number that is not finite ("value").
Result<Change> set_own_number(const Shop& shop, MachineId machine, const std::string& path, double value);

/// The computed number again. Changes nothing where there was no own one.
Result<Change> clear_own_number(const Shop& shop, MachineId machine, const std::string& path);

/// The own numbers of a machine, path and value, in the order of their paths' bytes.
std::vector<std::pair<std::string, double>> own_numbers(const Shop& shop, MachineId machine);

}  // namespace secondpull
