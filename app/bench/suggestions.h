#pragma once

#include <QStringList>

#include "core/shop/shop.h"

namespace secondpull::app {

// What this shop wrote before, for completing what is typed now. Each text once, the most frequent first,
// later ones before earlier ones at the same count; at most kMostSuggestions. Behind them the words of the
// knowledge base for the same, so that what is written down can be read by the planner.

constexpr std::size_t kMostSuggestions = 400;

QStringList stepsBefore(const Shop& shop);
/// Outcomes of this step first, then those that the knowledge base lists for it, then those of any other.
QStringList outcomesBefore(const Shop& shop, const QString& step);
QStringList symptomsBefore(const Shop& shop);  ///< of faults and of machines as they came
QStringList causesBefore(const Shop& shop);
QStringList materialsBefore(const Shop& shop);

}  // namespace secondpull::app
