#pragma once

#include "core/books/rates.h"
#include "core/books/tax_rates.h"

namespace secondpull::db {

// The tables of resources/rates, which are built into the program. Each entry carries its source and how sure
// it is; what a table does not have is refused or left out, never guessed.

const MileageRates& published_mileage_rates();
const SelfEmploymentRates& published_self_employment_rates();
const FormLines& published_form_lines();

}  // namespace secondpull::db
