#pragma once

#include <random>
#include <span>

#include "core/result.h"
#include "core/shop/change.h"

namespace secondpull::db::testing {

/// What people of this shop write, and the contents of its pictures.
std::span<const char* const> phrases();

/// Something that the owner of a shop may do that day, picked at random among all kinds of actions, of a
/// record picked at random. Now and then it cannot be done: then the problem says why.
Result<Change> random_action(const Shop& shop, Date today, std::mt19937& random);

}  // namespace secondpull::db::testing
