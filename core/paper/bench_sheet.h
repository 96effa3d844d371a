#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/decision/planner.h"
#include "core/learning/knowledge_base.h"
#include "core/learning/machine_case.h"
#include "core/paper/tag.h"

namespace secondpull::paper {

/// A published figure that stands beside a line for the reading.
struct ReadingLine {
  std::string name;
  std::string limits;  ///< "60 to 80 psi; rule"
  friend bool operator==(const ReadingLine&, const ReadingLine&) = default;
};
/// "60 to 80 psi", "at least 160 psi; cylinders no more than 15 % apart", or the rule where no figure is
/// published.
std::string limits_of(const learning::Measurement& measurement);

/// A test, repair or stop of the plan.
struct SheetStep {
  std::string when;   ///< "if Spark tester shows: Strong (90 %)"; empty for the first
  std::string title;  ///< "Spark tester"
  std::string takes;  ///< "12 min, about $4, 3 days"; empty for a stop
  std::string says;   ///< how it is done
  std::string why;
  std::vector<std::string> cautions;  ///< those that stop the way first
  std::vector<ReadingLine> readings;
  /// What may come of it, each with what it leads to: (outcome, "then: Carburettor cleaned").
  std::vector<std::pair<std::string, std::string>> outcomes;
};

/// One machine's card for the garage wall.
struct BenchSheet {
  Tag tag;
  std::string facts;  ///< "serial 66G84520, engine Vantrell 140"
  std::string came_with;
  Date made{};
  std::vector<std::pair<std::string, double>> causes;  ///< name and chance, likeliest first
  double other_causes = 0;                             ///< the chance of all that are not listed
  std::vector<SheetStep> steps;                        ///< none: a card to write on
  std::vector<std::string> stop_if;
  std::vector<std::string> seen;  ///< what was found about it so far, oldest first
};

/// How many steps of the plan are on it, and how many causes.
inline constexpr std::size_t kStepsOnSheet = 4;
inline constexpr std::size_t kCausesOnSheet = 6;

/// Without a plan: what the machine is, what was found so far, and room to write.
BenchSheet blank_sheet(const ByMachine::Lines& lines, Date today);

/// With the next steps: the plan's first, and after each step that of its likeliest outcome, as long as it is
/// no stop. `answer` answers `asked`.
BenchSheet bench_sheet(const Shop& shop, const ByMachine::Lines& lines, const learning::KnowledgeBase& base,
                       const learning::MachineCase& asked, const decision::Answer& answer, Date today);

}  // namespace secondpull::paper
