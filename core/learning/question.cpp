#include <algorithm>

#include <fmt/format.h>

#include "core/calendar/date.h"
#include "core/learning/case_maker.h"
#include "core/learning/known_work.h"
#include "core/learning/tries.h"
#include "core/shop/steps.h"

namespace secondpull::learning {
namespace {

using diagnosis::Evidence;
using diagnosis::RepairFailed;
using diagnosis::TestShowed;

/// A line of evidence and the finding behind it.
struct Read {
  const Finding* finding = nullptr;
  Evidence evidence;
};

bool showed_one_of(const std::vector<Read>& lines, const After& after) {
  return std::any_of(lines.begin(), lines.end(), [&](const Read& line) {
    const auto* const showed = std::get_if<TestShowed>(&line.evidence);
    return showed != nullptr && showed->test == after.test &&
           std::find(after.outcomes.begin(), after.outcomes.end(), showed->outcome) != after.outcomes.end();
  });
}

bool in_place(const Read& line, const std::vector<Read>& lines, const Knowledge& knowledge) {
  const auto* const showed = std::get_if<TestShowed>(&line.evidence);
  if (showed == nullptr) return true;
  const auto& needed = knowledge.test(showed->test)->after;
  return std::all_of(needed.begin(), needed.end(),
                     [&](const After& after) { return showed_one_of(lines, after); });
}

bool is_of_test(const Read& line, const std::string& test) {
  const auto* const showed = std::get_if<TestShowed>(&line.evidence);
  return showed != nullptr && showed->test == test;
}

/// Reads the findings about a fault one by one.
class Reader {
 public:
  Reader(const Knowledge& knowledge, std::vector<Try> tries)
      : knowledge_{knowledge}, tries_{std::move(tries)} {}

  void read(const Finding& finding) {
    if (is_about_care(finding.step)) return;
    if (const Test* const test = knowledge_.test(finding.step)) {
      const Outcome* const shown = outcome(*test, finding.outcome);
      if (shown == nullptr) return leave(finding, Unread::Why::no_such_outcome);
      std::erase_if(lines_, [&](const Read& line) { return is_of_test(line, test->id); });
      lines_.push_back({&finding, TestShowed{test->id, shown->id}});
    } else if (const Repair* const repair = knowledge_.repair(finding.step)) {
      const bool tried = std::any_of(tries_.begin(), tries_.end(),
                                     [&](const Try& each) { return each.finding == &finding; });
      if (!tried) return leave_other_work(finding);
      lines_.push_back({&finding, RepairFailed{repair->id}});
    } else if (knowledge_.piece_of_work(finding.step) != nullptr) {
      leave_other_work(finding);
    } else {
      leave(finding, Unread::Why::no_such_step);
    }
  }

  void finish(Question& question) {
    // Taking one out may leave another without the test before it.
    for (bool again = true; again;) {
      const auto out = std::find_if(lines_.begin(), lines_.end(),
                                    [&](const Read& line) { return !in_place(line, lines_, knowledge_); });
      again = out != lines_.end();
      if (!again) break;
      leave(*out->finding, Unread::Why::out_of_place);
      lines_.erase(out);
    }
    for (const Read& line : lines_)
      question.evidence.push_back(line.evidence);
    question.unread = std::move(unread_);
  }

 private:
  /// Known work that is done says nothing of the fault, and is read elsewhere.
  void leave_other_work(const Finding& finding) {
    if (!says_done(finding, knowledge_)) leave(finding, Unread::Why::other_work);
  }
  void leave(const Finding& finding, Unread::Why why) { unread_.push_back({finding.id, why}); }

  const Knowledge& knowledge_;
  std::vector<Try> tries_;
  std::vector<Read> lines_;
  std::vector<Unread> unread_;
};

std::vector<std::string> mended_causes(const ByMachine::Lines& lines, const Fault& fault,
                                       const Symptom& symptom, const Knowledge& knowledge) {
  std::vector<std::string> mended;
  const Date since = here_since(lines);
  for (const Fault* other : lines.faults) {
    if (other->id == fault.id || other->how != FaultEnd::mended || !other->ended || *other->ended < since)
      continue;
    const Symptom* const its = knowledge.symptom(other->symptom);
    const Cause* const cause = knowledge.cause(other->cause);
    if (cause != nullptr && (its == nullptr || its->id != symptom.id)) mended.push_back(cause->id);
  }
  return mended;
}

}  // namespace

Result<Question> question_about(const ByMachine::Lines& lines, const Fault& fault,
                                const Knowledge& knowledge) {
  if (fault.ended)
    return problem(fmt::format("The fault \"{}\" ended on {}: there is nothing to find out any more.",
                               fault.symptom, shown(*fault.ended)),
                   "ended", iso(*fault.ended));
  const Symptom* const symptom = knowledge.symptom(fault.symptom);
  if (symptom == nullptr)
    return problem(
        fmt::format("No symptom of the knowledge base is called \"{}\": choose the one that is meant.",
                    fault.symptom),
        "symptom", fault.symptom);

  std::vector<std::string> causes;
  for (const auto& [cause, weight] : symptom->causes)
    causes.push_back(cause);
  std::vector<Try> tries = tries_of(lines, fault, knowledge, causes);
  if (!tries.empty() && tries.back().came != Came::failed)
    return problem(fmt::format("\"{}\" is said to have mended \"{}\": end the fault, or say that the repair "
                               "failed.",
                               tries.back().finding->step, fault.symptom),
                   "outcome", tries.back().finding->outcome);

  Question question{.symptom = symptom->id,
                    .kind = lines.machine != nullptr ? lines.machine->kind : MachineKind::other,
                    .left_out = mended_causes(lines, fault, *symptom, knowledge)};
  Reader reader{knowledge, std::move(tries)};
  for (const Finding* finding : findings_of(lines, fault))
    reader.read(*finding);
  reader.finish(question);
  return question;
}

}  // namespace secondpull::learning
