#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/decision/planner.h"
#include "core/planning/situation.h"

namespace secondpull::planning {

// A machine that could be bought is a case like any other, but for what it costs to have it here. Numbers
// that are no Money are in whole units of the currency.

/// A machine that could be bought, and what having it here takes.
struct Lead {
  learning::Described machine;  ///< a symptom that is empty or that nobody knows: nothing is known of it
  std::optional<Money> asking;  ///< absent: nothing is said of it
  Money pickup_cost;            ///< money that fetching takes, the driving included
  Minutes minutes;              ///< to fetch it
  Money margin;                 ///< that must be left over at least
};

/// What a lead is worth.
struct LeadWorth {
  std::string symptom;       ///< id; empty: nothing is known of it
  double value = 0;          ///< of the machine once it stands here: V of its case
  double most_to_offer = 0;  ///< 0 or less: not worth fetching for nothing
  /// How much less than that is asked; absent: nothing is said of the price.
  std::optional<double> gain_at_asking;
  double price = 0;  ///< what is asked, else the most to offer, 0 at least
  /// That no money is lost on it when it is bought at `price` and fetched; hours count for nothing here.
  double chance_of_gain = 0;
  double hours = 0;    ///< of own work that the plan takes in the mean, selling included, fetching not
  double money = 0;    ///< for tests, repairs and the work known to be needed, in the mean
  std::string ending;  ///< the likeliest: "revive" or a stop's id
  double chance_of_ending = 0;
  std::optional<decision::NamedMove> next;  ///< absent: nothing is known of it, so look what it does
  double gap = 0;                           ///< no plan is worth more than value + gap
};

/// The symptoms that a machine of that kind may have, in the knowledge base's order.
std::vector<const learning::Symptom*> symptoms_of(MachineKind kind, const learning::Knowledge& knowledge);

/// What to offer for a lead, and what to expect of it. Where nothing is known of what it does, it is each of
/// the symptoms for its kind (every chance 1 more than the machines of that kind that came with it, in
/// proportion), and that shows as soon as it is here: the value is the mean of the values. Answers count once
/// a symptom is known. Problems: those of learning::case_of_described; the symptom is none of them. `each` is
/// the budget of one solving. Method: decision::most_to_offer.
Result<LeadWorth> lead_worth(const Situation& situation, const Lead& lead, double hour_value,
                             const decision::Budget& each);

/// What a seller may say.
struct SellerAnswer {
  std::string outcome;  ///< id: an outcome of the test; or a symptom
  double chance = 0;
  double most_to_offer = 0;
};

/// A question for the telephone.
struct SellerQuestion {
  std::string test;  ///< id; empty: what it does, where nothing is known of that
  /// What the answer is worth for the decision to buy, in the mean: by how much more a purchase at `price`
  /// (see LeadWorth) pays when it is made only after the answers that make it pay. 0: the decision is the
  /// same whatever the answer.
  double worth = 0;
  std::vector<SellerAnswer>
      answers;  ///< those that can come, in the order of the test; symptoms likeliest first
};

/// So many states are enough to compare answers: a question has several, and each of them is a solving.
inline constexpr std::size_t kStatesToAsk = 1000;

/// What to ask before buying: the tests of the case that a seller can answer and that nothing said so far
/// has used up; where nothing is known, what it does. What is worth most comes first, else in the order of
/// the knowledge base. Problems as of lead_worth. Ends early, with the questions so far, when `each.go_on`
/// says so.
Result<std::vector<SellerQuestion>> seller_questions(const Situation& situation, const Lead& lead,
                                                     double hour_value, const decision::Budget& each);

}  // namespace secondpull::planning
