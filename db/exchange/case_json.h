#pragma once

#include <string_view>

#include "core/decision/hours.h"
#include "core/diagnosis/case.h"
#include "core/result.h"

namespace secondpull::db {

/// Reads a case (JSON, the fields of the decision model). What is absent is 0 or empty. Refused, with the
/// path of the field and its value: text that is no JSON, a field that a case does not have or that stands
/// twice, a value of the wrong kind, and every case that cannot be (diagnosis::problems_of).
Result<diagnosis::Case> read_case(std::string_view json);

/// Reads a backlog: {"hours": H, "cases": [{"id": ..., "case": {...}}]}. Errors as for read_case.
Result<decision::Backlog> read_backlog(std::string_view json);

}  // namespace secondpull::db
