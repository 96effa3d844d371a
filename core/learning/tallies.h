#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/learning/dirichlet.h"
#include "core/learning/knowledge.h"
#include "core/shop/stage.h"

namespace secondpull::learning {

/// What a shop's record teaches, in the ids of the knowledge base.
struct Tallies {
  /// How often a repair was tried on faults whose cause turned out to be that one, and how often it mended
  /// them. Key: repair, cause.
  std::map<std::pair<std::string, std::string>, Tries> cures;
  /// The causes that were confirmed, by symptom.
  std::map<std::string, std::map<std::string, double>> causes;
  /// How long a step (test, repair, known work) took, each time that it was timed.
  std::map<std::string, std::vector<double>> minutes;
  /// Texts of ended faults that name no symptom or no cause of the knowledge base, so that they taught
  /// nothing, and how often they were written. Someone can say what they mean (`also` of the entry).
  std::map<std::string, int> unknown_symptoms;
  std::map<std::string, int> unknown_causes;

  Tries tries(const std::string& repair, const std::string& cause) const;
};

/// What the whole record teaches. A cause is confirmed when a fault ended, mended or given up, and names it:
/// a cause named while the fault is open is a guess, and a fault that was a mistake had none. Repairs of a
/// fault given up count as failed, so that the chances of cures are not those of the lucky ones alone.
Tallies tallies_of(const ByMachine& by_machine, const Shop& shop, const Knowledge& knowledge);

/// The chance that the repair cures that cause: the knowledge base's counts and own tries; Jeffreys' prior
/// and own tries where the knowledge base does not know that it can but the record has seen it; nothing if
/// neither has.
std::optional<Beta> cure(const Repair& repair, const std::string& cause, const Tallies& tallies);

/// How often each cause is behind a symptom: the weights of the knowledge base and own confirmed cases. That
/// it is none of those listed always has a count: its weight among the symptom's causes, or kUnlistedShare of
/// them all (1 if there are none), and own cases.
Dirichlet causes_of(const Symptom& symptom, const Tallies& tallies);

/// The expected minutes of a step (a test or a repair, by its id): own times drawn towards the knowledge's.
double minutes_of(const std::string& step, const Range& known, const Tallies& tallies);

}  // namespace secondpull::learning
