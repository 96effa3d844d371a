#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/diagnosis/case.h"
#include "core/learning/knowledge.h"
#include "core/learning/supply.h"
#include "core/learning/tallies.h"
#include "core/result.h"
#include "core/shop/stage.h"

namespace secondpull::learning {

/// A finding that could not be taken as evidence, and why. The screen says so, and somebody can mend it.
struct Unread {
  enum class Why {
    no_such_step,     ///< its step is no test and no repair of the knowledge base
    no_such_outcome,  ///< the test does not know that outcome
    out_of_place,     ///< the test says something only after another showed what it did not show here
    other_work        ///< a repair that cures none of the causes in question, known work that is not done
  };
  FindingId finding{};
  Why why = Why::no_such_step;
  friend bool operator==(const Unread&, const Unread&) = default;
};

/// What is asked about a machine: which fault it has, and what was seen so far.
struct Question {
  std::string symptom;  ///< id
  MachineKind kind = MachineKind::push;
  std::optional<Engine> engine;  ///< what the engine does today, if it is not what the symptom says
  std::vector<diagnosis::Evidence> evidence;  ///< in the ids of the knowledge base
  std::vector<std::string> left_out;          ///< causes that it cannot be, since they were mended
  std::vector<Unread> unread;
};

/// The question that an open fault asks, from the machine's record. Of a test made twice the last outcome
/// counts. Left out are the causes of the machine's other faults that were mended since it last came in,
/// unless they had the same symptom: then the repair may not have held. Problems: the fault has ended
/// ("ended"), the knowledge base has no such symptom ("symptom"), the last repair is said to have mended it
/// ("outcome").
Result<Question> question_about(const ByMachine::Lines& lines, const Fault& fault,
                                const Knowledge& knowledge);

/// What the answer depends on besides the fault. Amounts in whole units of the currency.
struct Circumstances {
  double hour_value = 0;
  double day_cost = 0;
  std::map<std::string, Supply> supply;  ///< by repair; absent: its parts' typical cost and its days
  diagnosis::Revived revived;
  std::vector<diagnosis::Stop> stops;
  diagnosis::Sunk sunk;
  Currency currency;
};

/// The case of a question, from the knowledge base and what the shop's record adds to it.
/// - Causes: see causes_of; that it is none of those listed is always among them.
/// - Tests: those in the evidence, and those for the symptom and kind that tell causes apart, that the engine
///   as it is allows, and whose earlier test, if they need one, has shown what they need.
/// - Repairs: those for the kind that can cure one of the causes, and those in the evidence. A repair that
///   failed more often than its tries has as many as it failed.
/// Evidence of repairs that cure none of the causes says nothing and is dropped. Problems: an unknown
/// symptom, and whatever else keeps it from being a case, evidence that cannot be seen under any of the
/// causes included.
Result<diagnosis::Case> make_case(const Knowledge& knowledge, const Tallies& tallies,
                                  const Question& question, const Circumstances& circumstances);

}  // namespace secondpull::learning
