#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/shop/shop.h"

namespace secondpull {

enum class AccountKind { machines, parts, cash, sales, scrap, cost_of_goods, expense, sales_tax, owner };

/// An account of the shop. `machine` counts for `machines`, `name` for `expense` (category) and `sales_tax`
/// (place).
struct Account {
  AccountKind kind = AccountKind::cash;
  MachineId machine{};
  std::string name;
  friend auto operator<=>(const Account&, const Account&) = default;
};

/// One line of a balanced transaction; what comes into an account is positive.
struct Posting {
  Account account;
  std::optional<MachineId> about;  ///< the machine that it counts for
  Money amount;
};

/// What one event in the shop does to the accounts. The amounts of its postings add up to zero.
struct Transaction {
  Date date{};
  AnyId event;       ///< the record that caused it
  std::string what;  ///< "sold to Ruel Astby", "fitted 1 x carburettor"
  std::vector<Posting> postings;
};

}  // namespace secondpull
