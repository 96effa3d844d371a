#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/learning/knowledge.h"

namespace secondpull::learning {

/// Where an entry of the knowledge base comes from. At least one of the two says something.
struct Origin {
  std::vector<std::string> sources;  ///< ids of KnowledgeBase::sources
  std::string note;                  ///< what they do not cover: "common practice, no source", "from memory"
};

/// What stands beside a symptom, cause, test or repair for the person who reads it.
struct EntryText {
  Origin origin;
  std::string says;  ///< a cause: what gives it away; a test: how it is done; a repair: what to know of it
  std::string ask;   ///< of a test that the seller can answer over the telephone: the question. Else empty
};

/// A danger, and what to do about it where a step has it.
struct Caution {
  std::string id;
  std::string name;
  std::string danger;
  std::string care;
  bool stops_the_way = false;      ///< it can kill or maim: the step waits until this was acknowledged
  std::vector<std::string> steps;  ///< ids of tests and repairs
  Origin origin;
};

/// A published figure, to stand beside a reading. Absent: not published; then `rule` says what is.
struct Measurement {
  std::string id;
  std::string name;
  std::vector<MachineKind> kinds;  ///< empty: any
  std::string unit;
  std::optional<double> low;
  std::optional<double> nominal;
  std::optional<double> high;
  std::string rule;
  std::vector<std::string> tests;  ///< ids of the tests in which it is read
  Origin origin;
};

/// What is looked at before a machine is offered for sale.
struct SaleCheck {
  std::string id;
  std::string name;
  std::vector<MachineKind> kinds;  ///< empty: any
  bool must = false;               ///< a machine that fails it is not offered as running
  Origin origin;
};

/// A publication that entries refer to.
struct Publication {
  std::string title;
  std::string where;
};

/// The knowledge base as a person meets it: what the planner computes with, and the words around it.
struct KnowledgeBase {
  Knowledge knowledge;
  std::map<std::string, EntryText>
      texts;  ///< by id of a symptom, cause, test, repair, piece of known work or part to pull
  std::vector<Caution> cautions;
  std::vector<Measurement> measurements;
  std::vector<SaleCheck> checks;
  std::map<std::string, Publication> sources;
};

}  // namespace secondpull::learning
