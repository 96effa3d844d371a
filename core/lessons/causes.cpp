#include "core/lessons/causes.h"

#include <algorithm>
#include <cmath>

#include "core/lessons/rates.h"

namespace secondpull::lessons {
namespace {

using learning::Beta;
using learning::Dirichlet;
using learning::Symptom;

Interval range_of(double count, double total) {
  const Beta alone{count, total - count};
  return alone.is_proper() ? alone.central(kShownLevel) : Interval{count / total, count / total};
}

SymptomCauses causes_behind(const Symptom& symptom, const std::map<std::string, double>& own,
                            const learning::Tallies& tallies) {
  SymptomCauses lesson{.symptom = symptom.id};
  for (const auto& [cause, cases] : own)
    lesson.cases += std::llround(cases);
  const Dirichlet usually = learning::causes_of(symptom, {});
  const Dirichlet now = learning::causes_of(symptom, tallies);
  for (const auto& [cause, count] : now.counts()) {
    const auto confirmed = own.find(cause);
    CauseShare share{.cause = cause,
                     .own = confirmed == own.end() ? 0 : std::llround(confirmed->second),
                     .usually = usually.mean(cause),
                     .now = now.mean(cause),
                     .range = range_of(count, now.total())};
    share.differs = differs({.tried = lesson.cases, .cured = share.own}, share.usually);
    lesson.causes.push_back(std::move(share));
  }
  std::stable_sort(lesson.causes.begin(), lesson.causes.end(), [](const CauseShare& a, const CauseShare& b) {
    return a.own != b.own ? a.own > b.own : a.now > b.now;
  });
  return lesson;
}

}  // namespace

std::vector<SymptomCauses> confirmed_causes(const learning::Knowledge& knowledge,
                                            const learning::Tallies& tallies) {
  std::vector<SymptomCauses> lessons;
  for (const auto& [id, own] : tallies.causes)
    if (const Symptom* const symptom = knowledge.symptom(id))
      lessons.push_back(causes_behind(*symptom, own, tallies));
  std::stable_sort(lessons.begin(), lessons.end(),
                   [](const SymptomCauses& a, const SymptomCauses& b) { return a.cases > b.cases; });
  return lessons;
}

}  // namespace secondpull::lessons
