#pragma once

#include <optional>
#include <vector>

#include <QString>

#include "core/decision/planner.h"
#include "core/learning/knowledge_base.h"
#include "core/learning/repair_parts.h"

/// How the Bench puts a plan into words.
namespace secondpull::app {

/// An expected amount in whole units: "$62", with a true minus sign. What is expected has no cents.
QString wholeMoney(double amount, const Currency& currency);
/// "1.5 h", "20 min"
QString hoursWords(double hours);

/// "12 min", "40 min, $12, 3 days"; nothing for a stop.
QString costWords(const decision::NamedMove& step, const diagnosis::Case& of, const Currency& currency);

// A stop of the case: as a heading, what it means, and what its button does.
QString stopTitle(const std::string& stop);
QString stopSays(const std::string& stop);
QString stopDeed(const std::string& stop);

/// "62 %, then: Clean bowl and main jet". `outcome`: its place among the test's; absent: the repair did not
/// help. Empty if that cannot happen.
QString leadsTo(const decision::PlanNode& from, std::optional<std::size_t> outcome,
                const decision::Answer& answer, const diagnosis::Case& of,
                const learning::Knowledge& knowledge);

/// What it costs to take another step than the plan's.
QString otherWords(const decision::NamedMove& step, const decision::Answer& answer, const Currency& currency);

/// "published: 60 to 80 psi", and, of a number that was read, whether it is below, within or above.
QString limitWords(const learning::Measurement& measurement, const QString& reading);

/// Where the part of a repair comes from: "on the shelf", "ordered, 2 days", "to be ordered: about $12, 5
/// days".
QString partWords(const learning::RepairPart& part, const Currency& currency);

}  // namespace secondpull::app
