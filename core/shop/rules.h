#pragma once

#include <string>
#include <vector>

#include "core/result.h"
#include "core/shop/shop.h"

namespace secondpull {

/// A record that breaks a rule. `problem.field` is the exchange column to look at ("date", "quantity",
/// "hulk_gone"..., as exchange.md names it for each rule), `problem.value` what stands there.
struct RuleBreak {
  AnyId record;
  Problem problem;
};

/// Every rule of the records that one record alone or several together break: references to nothing,
/// identifiers used twice, values out of range, sales, returns and disposals out of turn, costs dated before
/// the machine came in, parts used that are not in stock on that day, a stage given that does not agree, and
/// the rest of exchange.md's list. Empty: the shop is in order. Order of the result: by table, then by order
/// entered.
std::vector<RuleBreak> broken_rules(const Shop& shop);

/// Those of them that a record breaks by itself, whatever the other records are: values out of range, and
/// cells that exclude each other. In the same order.
std::vector<RuleBreak> broken_by_one_record(const Shop& shop);

}  // namespace secondpull
