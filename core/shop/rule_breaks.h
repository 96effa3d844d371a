#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/shop/rules.h"

namespace secondpull {

/// Gathers what is wrong while the rules are gone through.
class RuleBreaks {
 public:
  template <class Id>
  void add(Id record, std::string field, std::string value, std::string sentence) {
    breaks_.push_back({AnyId{record}, {std::move(sentence), std::move(field), std::move(value)}});
  }
  std::vector<RuleBreak>& all() { return breaks_; }

 private:
  std::vector<RuleBreak> breaks_;
};

// The rules, by subject. Each goes once over the tables that it is about.

void check_cells(const Shop& shop, RuleBreaks& breaks);          ///< what one cell may hold
void check_identifiers(const Shop& shop, RuleBreaks& breaks);    ///< none used twice
void check_references(const Shop& shop, RuleBreaks& breaks);     ///< none to nothing
void check_order_of_days(const Shop& shop, RuleBreaks& breaks);  ///< too early, out of turn, not here
void check_disposals(const Shop& shop, RuleBreaks& breaks);      ///< hulks, what is kept
void check_donors(const Shop& shop, RuleBreaks& breaks);         ///< parted out before parts are taken
void check_stock_and_lots(const Shop& shop,
                          RuleBreaks& breaks);  ///< stock, empty orders, opening lines, totals

}  // namespace secondpull
