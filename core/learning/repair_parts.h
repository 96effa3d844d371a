#pragma once

#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "core/learning/knowledge.h"
#include "core/learning/supply.h"
#include "core/shop/stage.h"

namespace secondpull::learning {

// Where the parts of repairs come from. The knowledge base names the part of a repair in words; the shop has
// parts of its own with names like "carburetor, side float". A part is taken for the repair's if its name, up
// to the first comma or bracket, is those words, and it is known to fit: it was ordered for this very
// machine, ordered for or fitted to one of the same make and model, or its name is those words and no more.

enum class ComesFrom { shelf, ordered, to_order };

/// Where the part of a repair comes from.
struct RepairPart {
  std::string repair;  ///< id
  ComesFrom from = ComesFrom::to_order;
  std::optional<PartId> part;  ///< absent: the shop has none that is known to fit
  Supply supply;
  friend bool operator==(const RepairPart&, const RepairPart&) = default;
};

/// What a shop has and has ordered of the parts that repairs name, worked out once for all its machines.
struct PartsAtHand {
  struct Known {
    bool plainly_named = false;  ///< its name is the words of a repair and no more
    std::int64_t in_stock = 0;
    std::optional<double> worth;     ///< what using up a piece gives away (see from_shelf)
    std::optional<double> replaced;  ///< what a piece cost when it was last ordered, freight and tax included
    std::optional<double> days;      ///< from order to arrival, of one with a supplier (see days_to_arrive)
  };
  struct OnOrder {
    PartId part{};
    std::optional<MachineId> for_machine;
    Date ordered{};
    std::optional<Date> arrives;  ///< known beforehand
    std::optional<double> days;   ///< how long that supplier's orders took
  };
  using Model = std::pair<std::string, std::string>;  ///< make and model

  std::map<std::string, std::vector<PartId>> of_repair;  ///< by id of the repair; in order of id
  std::map<PartId, Known> known;
  std::vector<OnOrder> on_order;  ///< in order of id of the lines
  std::map<Model, std::set<PartId>> fits;
  std::optional<double> days;  ///< from order to arrival, over all suppliers
};
PartsAtHand parts_at_hand(const Shop& shop, const ByMachine& by_machine, const Knowledge& knowledge,
                          Date today);

/// Where the parts come from of the repairs that name one and fit the machine's kind, in the knowledge base's
/// order: a part in stock costs what using it up gives away and no days; one on order for this machine or for
/// none likewise (its price is spent), and the days that are left; one to be ordered costs what it did last,
/// and the days that its supplier's orders took, or all orders, unless the knowledge base says that nobody
/// sends for it. The knowledge base's cost and days stand where the record says nothing.
std::vector<RepairPart> repair_parts(const PartsAtHand& at_hand, const ByMachine::Lines& lines,
                                     const Knowledge& knowledge, const Currency& currency, Date today);

}  // namespace secondpull::learning
