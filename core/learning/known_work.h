#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/learning/knowledge.h"
#include "core/learning/tallies.h"
#include "core/shop/stage.h"

namespace secondpull::learning {

/// What a finding says of work that is done.
inline constexpr std::string_view kSaysDone = "done";

/// A piece of known work that a machine's condition names.
struct TickedWork {
  std::string work;               ///< id in Knowledge::known_work
  std::optional<FindingId> done;  ///< the first finding since the machine came in that says so; absent: to do
  friend bool operator==(const TickedWork&, const TickedWork&) = default;
};

/// Does the finding say that a piece of known work is done? Its step names the piece, its outcome says "done"
/// or "mended".
bool says_done(const Finding& finding, const Knowledge& knowledge);

/// The work named in the condition that the machine came in with, of its kind, in the knowledge base's order.
/// A name or phrase counts where it stands in whole words; each piece is listed once.
std::vector<TickedWork> known_work_of(const ByMachine::Lines& lines, const Knowledge& knowledge);

/// What a case reckons for the work that is still to do, in the same order: its typical cost, and its minutes
/// (own times drawn towards the knowledge's).
std::vector<diagnosis::KnownWork> work_to_do(const std::vector<TickedWork>& ticked,
                                             const Knowledge& knowledge, const Tallies& tallies,
                                             const Currency& currency);

}  // namespace secondpull::learning
