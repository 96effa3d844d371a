#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/result.h"
#include "core/shop/change.h"
#include "core/shop/stage.h"

namespace secondpull {

// Whether a machine is recalled by its maker: looked up by model and serial number before it is offered, and
// again before it is sold.

/// What a look-up is written down as where the knowledge base has no name for it.
inline constexpr std::string_view kRecallStep = "Safety check: recall look-up";

/// So many days after a look-up another one is due. Common practice, no source.
inline constexpr int kRecallHoldsDays = 30;

struct RecallLookup {
  Date date{};
  bool recalled = false;
  std::string words;  ///< what was written down of it: "passed", "failed", or the person's own words
};

/// The last time its recalls were looked up since it came in: the latest look before the sale (a finding that
/// `is_about_care`) that speaks of a recall. It says "recalled" if its outcome begins with "failed" or
/// "recalled".
std::optional<RecallLookup> recall_lookup(const ByMachine::Lines& lines);

/// Is a look-up due: none since it came in, or none within kRecallHoldsDays of that day?
bool recall_lookup_due(const std::optional<RecallLookup>& last, Date today);

/// Writes a look-up down: "#14: recalls looked up, none found". `step` is what it is called (kRecallStep, or
/// the knowledge base's look of that name, see check_step). One that found a recall ends the machine's
/// listing in the same action. Problems: those of record_check.
Result<Change> record_recall_lookup(const Shop& shop, MachineId machine, Date date, const std::string& step,
                                    bool recalled);

/// A problem, naming `recall`, if the machine's last look-up, before it last came in too, says that it is
/// recalled: then it may be neither offered nor sold, nor a deposit taken for it, as is no more than as
/// running (15 USC 2068(a)(2)). list_machine and sell (selling.h) ask this; a screen may, to say it
/// beforehand.
std::optional<Problem> against_recalled(const ByMachine::Lines& lines);

}  // namespace secondpull
