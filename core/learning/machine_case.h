#pragma once

#include <optional>
#include <vector>

#include "core/learning/case_maker.h"
#include "core/learning/known_work.h"
#include "core/learning/own_numbers.h"
#include "core/learning/own_sales.h"
#include "core/learning/repair_parts.h"

namespace secondpull::learning {

/// What a shop's record teaches the planner, worked out once for all its machines.
struct Learned {
  Date today{};
  Tallies tallies;
  std::vector<OwnSale> sales;
  std::vector<diagnosis::KnownWork> further_work;  ///< a row for each machine sold running
  PartsAtHand parts;
};
Learned learned_from(const ByMachine& by_machine, const Shop& shop, const Knowledge& knowledge, Date today);

/// What is forecast of this very machine's sale, where more is known than its kind.
struct SaleForecast {
  std::optional<PriceBelief> price;  ///< running
  std::optional<double> days;        ///< until it is sold running, on average
  std::optional<double> days_as_is;
};

/// What the owner says, or what was worked out for all machines. In whole units of the currency.
struct Terms {
  double hour_value = 0;
  double day_cost = 0;
  diagnosis::Sunk sunk;  ///< what the machine has cost so far
  SaleForecast sale;
  std::vector<OwnNumberLine> said;  ///< numbers said for this machine in the place of those worked out
};

/// A number that the owner said, beside the one worked out.
struct SaidNumber {
  std::string path;  ///< see own_numbers.h
  double computed = 0;
  double said = 0;
  friend bool operator==(const SaidNumber&, const SaidNumber&) = default;
};

/// A machine's question and the case it makes.
struct MachineCase {
  std::optional<FaultId> fault;  ///< absent: none was opened yet, it is asked about what it came with
  Question question;
  diagnosis::Case of;
  std::vector<RepairPart> parts;   ///< where the parts come from of repairs in the case that name one
  std::vector<TickedWork> work;    ///< known work of its condition, to do and done
  std::vector<SaidNumber> said;    ///< one a path, in the order first said
  std::vector<Problem> not_taken;  ///< numbers said that the case cannot have
};

/// The case of a machine that is here: of its latest open fault, or of the symptom that it came with as long
/// as no fault was ever opened.
/// - Price and days to sell are those of `terms.sale`, else the shop's own of that kind drawn towards the
///   knowledge base's. Comeback and the work that such machines usually need besides (the last row of
///   revived.known_work, after the work of its condition that is still to do) are the shop's own drawn
///   towards the knowledge base's.
/// - A day costs what `terms` say and what the price loses in the season, together 0 at least.
/// - It may be sold as it is, parted out or scrapped instead (stops_of).
/// - Parts come from the shelf, from orders under way, or are to be ordered (repair_parts).
/// - Numbers said take the place of all these.
/// Problems: an unknown machine ("machine"), one that has gone ("machine"), no open fault ("fault"), a kind
/// of which the knowledge base has no figures ("kind"), and those of question_about and make_case.
Result<MachineCase> case_of_machine(const Shop& shop, const ByMachine& by_machine, MachineId machine,
                                    const Knowledge& knowledge, const Learned& learned, const Terms& terms);

/// A machine that the shop does not have, as somebody tells of it.
struct Described {
  /// What came of a test that needs no hands.
  struct Answer {
    std::string test;
    std::string outcome;
  };
  MachineKind kind = MachineKind::push;
  std::string make;
  std::string model;
  std::optional<int> year;  ///< built
  std::string symptom;
  std::vector<Answer> answers;  ///< a later one to the same test takes the place of an earlier one
};

/// The case that a described machine would be if it stood here with that as its fault and the answers as its
/// findings, for which only what the shop has on the shelf or has ordered for no machine counts as parts.
/// `question.unread` tells of answers by their place from 1 on. Problems as of case_of_machine: the kind
/// ("kind"), the symptom ("symptom"), and those of make_case.
Result<MachineCase> case_of_described(const Shop& shop, const Described& machine, const Knowledge& knowledge,
                                      const Learned& learned, const Terms& terms);

}  // namespace secondpull::learning
