#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/planning/scout.h"

namespace secondpull::planning {

/// The most to pay for machines of which no more is known than what they are and do.
struct PocketCard {
  struct Row {
    std::string symptom;  ///< id; empty: not tried
    /// By kind of the card, 0: leave it. Absent: machines of that kind do not have it, or there is no figure.
    std::vector<std::optional<Money>> most_to_pay;
  };
  std::vector<MachineKind> kinds;  ///< those of which the knowledge base has figures, in its order
  std::vector<Row> rows;           ///< not tried, then the symptoms in the knowledge base's order
};

/// What fetching takes for a card: half an hour, on a way that is made anyway. Common practice, no source.
inline constexpr Minutes kUsualFetch{30};

/// The card for the pocket: by kind and symptom what to pay at most, in whole units rounded down, when
/// fetching takes kUsualFetch and no money. `each` is the budget of one solving; when its `go_on` says so the
/// card ends early, with the kinds so far.
PocketCard pocket_card(const Situation& situation, double hour_value, Money margin,
                       const decision::Budget& each);

}  // namespace secondpull::planning
