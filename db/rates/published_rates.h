#pragma once

#include "core/books/rates.h"

namespace secondpull::db {

/// The standard mileage rates of resources/rates/us-mileage.json, which is built into the program. Each rate
/// carries its source; a day without one is refused by MileageRates::cost, never guessed.
const MileageRates& published_mileage_rates();

}  // namespace secondpull::db
