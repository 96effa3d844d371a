#include "core/lessons/rates.h"

#include <algorithm>
#include <map>

namespace secondpull::lessons {
namespace {

using learning::Beta;
using learning::Knowledge;
using learning::Repair;
using learning::Tries;

CureRate rate_of(const Repair& repair, const std::string& cause, Tries own) {
  CureRate rate{.cause = cause, .own = own, .known = learning::kJeffreys};
  const auto listed = std::find_if(repair.cures.begin(), repair.cures.end(),
                                   [&](const auto& row) { return row.first == cause; });
  if (listed != repair.cures.end()) {
    rate.known = listed->second;
    rate.usually = rate.known.mean();
    rate.differs = differs(own, *rate.usually);
  }
  rate.now = rate.known.updated(own);
  return rate;
}

/// All causes that the repair was tried on, together.
CureRate together(const std::vector<CureRate>& by_cause) {
  CureRate all{.known = {0, 0}};
  double usual_cures = 0;
  std::int64_t usual_tries = 0;
  for (const CureRate& rate : by_cause) {
    all.own.tried += rate.own.tried;
    all.own.cured += rate.own.cured;
    if (!rate.usually) continue;
    usual_cures += static_cast<double>(rate.own.tried) * *rate.usually;
    usual_tries += rate.own.tried;
  }
  for (const CureRate& rate : by_cause) {
    const double part = static_cast<double>(rate.own.tried) / static_cast<double>(all.own.tried);
    all.known.a += part * rate.known.a;
    all.known.b += part * rate.known.b;
  }
  // Where it was also tried on causes that it is not known to cure, nothing is usual for the mix.
  if (usual_tries == all.own.tried) {
    all.usually = usual_cures / static_cast<double>(usual_tries);
    all.differs = differs(all.own, *all.usually);
  }
  all.now = all.known.updated(all.own);
  return all;
}

bool more_tried(Tries a, Tries b) {
  return a.tried > b.tried;
}

}  // namespace

Differs differs(Tries own, double usually) {
  if (own.tried < static_cast<std::int64_t>(kLeastCases)) return Differs::no;
  const Interval within = learning::jeffreys_interval(own, kSayingLevel);
  if (within.high < usually) return Differs::lower;
  return within.low > usually ? Differs::higher : Differs::no;
}

std::vector<RepairRate> repair_rates(const Knowledge& knowledge, const learning::Tallies& tallies) {
  std::map<std::string, std::vector<CureRate>> tried;
  for (const auto& [pair, own] : tallies.cures) {
    const Repair* const repair = knowledge.repair(pair.first);
    if (repair != nullptr && own.tried > 0) tried[pair.first].push_back(rate_of(*repair, pair.second, own));
  }
  std::vector<RepairRate> rates;
  for (auto& [repair, by_cause] : tried) {
    std::stable_sort(by_cause.begin(), by_cause.end(),
                     [](const CureRate& a, const CureRate& b) { return more_tried(a.own, b.own); });
    const CureRate all = by_cause.size() == 1 ? by_cause.front() : together(by_cause);
    rates.push_back({.repair = repair, .all = all, .by_cause = std::move(by_cause)});
    rates.back().all.cause.clear();
  }
  std::stable_sort(rates.begin(), rates.end(),
                   [](const RepairRate& a, const RepairRate& b) { return more_tried(a.all.own, b.all.own); });
  return rates;
}

}  // namespace secondpull::lessons
