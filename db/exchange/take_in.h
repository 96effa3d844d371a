#pragma once

#include "db/exchange/exchange.h"
#include "db/store.h"

namespace secondpull::db {

/// Puts what read_folder made of the records of this open shop into it: one action with one history entry. An
/// empty shop takes the settings that were read as well (settings are no entry: taking the import back leaves
/// them). On a problem nothing is changed.
Result<Done> take_in(Store& store, const Shop& read, Instant now);

}  // namespace secondpull::db
