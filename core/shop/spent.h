#pragma once

#include <optional>
#include <string>

#include "core/result.h"
#include "core/shop/shelf.h"

namespace secondpull {

/// The paper behind money that went out: a picture that is in the photo store already.
struct Paper {
  std::string sha256;
  std::string name;  ///< the file's name
};

/// Money that went out, and what for.
struct SpentEntry {
  enum class For { machine, order, shop };
  Date date{};
  Money amount;  ///< all of it, tax and freight included
  PersonChoice where;
  std::optional<Paper> paper;
  For what_for = For::shop;
  // for a machine: a material of it
  std::optional<MachineId> machine;
  std::string what;
  // an order of one part
  PartChoice part;
  std::int64_t quantity = 1;
  bool in_hand = true;  ///< bought over the counter; otherwise it is still to come
  // a cost of the shop
  std::string category;
  std::string note;
};

/// Writes it down as one change, with its paper. An order's price each is the amount over the pieces,
/// floored; what is left over is its freight, so that the order's landed cost is the amount. Where a material
/// or an expense was bought is kept in its words, not as a person. Problems: an amount of 0 or less
/// ("amount"), nothing said of what it was for ("machine", "what", "part", "quantity", "category"), and those
/// of place_order, add_material and add_expense.
Result<Change> write_spent(const Shop& shop, const SpentEntry& entry);

}  // namespace secondpull
