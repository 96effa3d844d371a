#include "core/lessons/step_times.h"

#include <algorithm>

namespace secondpull::lessons {

std::vector<StepTime> step_times(const learning::Knowledge& knowledge, const learning::Tallies& tallies) {
  std::vector<StepTime> times;
  for (const auto& [step, minutes] : tallies.minutes) {
    if (minutes.empty()) continue;
    StepTime time{.step = step, .own = mean_of(minutes)};
    if (const learning::Test* const test = knowledge.test(step)) {
      time.known = test->minutes;
    } else if (const learning::Repair* const repair = knowledge.repair(step)) {
      time.sort = StepTime::Sort::repair;
      time.known = repair->minutes;
    } else if (const learning::PieceOfWork* const work = knowledge.piece_of_work(step)) {
      time.sort = StepTime::Sort::work;
      time.known = work->minutes;
    } else {
      continue;
    }
    time.expected = learning::minutes_of(step, time.known, tallies);
    time.differs = differs(time.own, time.known.typical);
    times.push_back(std::move(time));
  }
  std::stable_sort(times.begin(), times.end(),
                   [](const StepTime& a, const StepTime& b) { return a.own.count > b.own.count; });
  return times;
}

}  // namespace secondpull::lessons
