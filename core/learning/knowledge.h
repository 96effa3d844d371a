#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/diagnosis/case.h"
#include "core/learning/beta.h"
#include "core/learning/shrink.h"
#include "core/money/money.h"
#include "core/result.h"
#include "core/shop/words.h"

/// What the trade knows before a shop has a record of its own, and what a shop's record adds to it.
namespace secondpull::learning {

using diagnosis::ByCause;

/// What the engine does. `unknown`: the symptom says nothing about it.
enum class Engine { unknown, none, turns, runs };

/// What the engine must do for a test.
enum class Needs { nothing, turning, turning_but_not_starting, running };

/// Can a test that needs this be made while the engine does that? Where it is unknown, yes.
bool can_be_made(Needs needs, Engine engine);

// Every entry has an id, by which the others name it, a name for people, and further words that people use
// for it (`also`): the trade's phrases, and what this shop wrote before it chose from a list.

struct Symptom {
  std::string id;
  std::string name;
  std::vector<std::string> also;
  std::vector<MachineKind> kinds;  ///< empty: any
  Engine engine = Engine::unknown;
  ByCause<double> causes;  ///< how often, as counts of cases believed to have been seen; > 0
};

struct Cause {
  std::string id;
  std::string name;
  std::vector<std::string> also;
};

struct Outcome {
  std::string id;
  std::string name;
  std::vector<std::string> also;
};

/// The test is offered only after that one showed one of these outcomes, and its likelihoods hold given that.
struct After {
  std::string test;
  std::vector<std::string> outcomes;
};

struct Test {
  std::string id;
  std::string name;
  std::vector<std::string> also;
  std::vector<MachineKind> kinds;     ///< empty: any
  std::vector<std::string> symptoms;  ///< for which it is of use; empty: any
  Needs needs = Needs::nothing;
  std::vector<After> after;  ///< all of them
  std::string group;         ///< tests that look at the same thing; at most one of a group is made
  Range minutes;
  Money cost;
  std::vector<Outcome> outcomes;
  ByCause<std::vector<double>> likelihood;       ///< P(outcome | cause), a number per outcome
  std::optional<std::vector<double>> otherwise;  ///< the row of a cause without one; absent: equally likely
};

struct MoneyRange {
  Money low;
  Money typical;
  Money high;
  friend bool operator==(const MoneyRange&, const MoneyRange&) = default;
};

struct Repair {
  std::string id;
  std::string name;
  std::vector<std::string> also;
  std::vector<MachineKind> kinds;  ///< empty: any
  Range minutes;
  MoneyRange parts;                      ///< what its parts cost
  std::vector<std::string> parts_named;  ///< what its part is called; empty: it needs none to speak of
  double days = 0;                       ///< until parts that must be ordered are there
  int tries = 1;                         ///< at most so often on one fault
  ByCause<Beta> cures;
};

/// Work that a machine may need whatever its fault is, seen when it comes in: a dull blade, a flat tire.
struct PieceOfWork {
  std::string id;
  std::string name;  ///< as one says what is wrong: the words looked for in a machine's condition
  std::vector<std::string> also;   ///< likewise
  std::vector<MachineKind> kinds;  ///< empty: any
  MoneyRange cost;
  Range minutes;
};

/// A part that is worth taking off a machine that is not revived.
struct PartToPull {
  std::string id;
  std::string name;
  std::vector<MachineKind> kinds;       ///< empty: any
  MoneyRange price;                     ///< sold, or not having to buy one
  double chance = 0;                    ///< that it is sold or used within a year, [0, 1]
  Range minutes;                        ///< to pull, clean and sell it
  std::vector<std::string> spoiled_by;  ///< causes that make it worthless
  std::string
      goes_with;  ///< the part that it is sold on, and alone only where that one is spoiled; may be empty
};

/// What the trade pays and weighs, by kind of machine.
struct KindFigures {
  MachineKind kind = MachineKind::push;
  MoneyRange running_price;
  MoneyRange as_is_price;
  Range minutes_to_sell;  ///< photos, listing, messages, the showing
  Range days_to_sell;     ///< from the listing to the sale of a running machine, in the best months
  Range weight;           ///< pounds
};

/// A number for each month, from January on.
using MonthlyShares = std::array<double, 12>;
inline constexpr MonthlyShares kAllYear{1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1};

/// How the time of the year changes selling. Above 0.
struct Season {
  MonthlyShares price = kAllYear;  ///< what a running machine fetches, as a share of the year's mean
  MonthlyShares days = kAllYear;   ///< days to sell, as so many times those of the best months
};

struct Knowledge {
  std::vector<Symptom> symptoms;
  std::vector<Cause> causes;
  std::vector<Test> tests;
  std::vector<Repair> repairs;
  std::vector<PieceOfWork> known_work;
  std::vector<PartToPull> parts_to_pull;
  std::vector<KindFigures> kinds;
  Season season;
  MoneyRange scrap_per_pound;
  Beta comes_back;            ///< the chance that a machine sold running comes back
  Range minutes_of_comeback;  ///< the visit, when it happens

  // The entry that a text names: by its id, its name or another of its words, in either case of ASCII
  // letters, spaces at its ends apart. nullptr if none does. Good as long as this lives unchanged.
  const Symptom* symptom(std::string_view text) const;
  const Cause* cause(std::string_view text) const;
  const Test* test(std::string_view text) const;
  const Repair* repair(std::string_view text) const;
  const PieceOfWork* piece_of_work(std::string_view text) const;
  const KindFigures* figures(MachineKind kind) const;
};

/// The outcome of a test that a text names, likewise.
const Outcome* outcome(const Test& test, std::string_view text);

/// Of that kind, or of any? A machine of no kind of ours (`other`) fits everywhere: better one step too many
/// to choose from than none.
bool fits(const std::vector<MachineKind>& kinds, MachineKind kind);

/// The cause that is none of those listed: nothing on the list cures it. It needs no entry among the causes.
inline constexpr std::string_view kUnlisted = "unlisted";

/// How often it is none of those listed, as a share of how often it is one, where a symptom's causes do not
/// say. Common practice, no source.
inline constexpr double kUnlistedShare = 0.05;

/// What keeps this from being used, in the order of its fields; empty if nothing does: an id that is empty or
/// stands twice, a name that is no entry, a weight or a minute below 0, a range out of order, a Beta that is
/// none, chances that are no probabilities, likelihoods that do not add up to 1. `field` is the path, `value`
/// what stands there.
std::vector<Problem> problems_of(const Knowledge& knowledge);

}  // namespace secondpull::learning
