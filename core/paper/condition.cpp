#include "core/paper/condition.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/learning/known_work.h"
#include "core/learning/tries.h"
#include "core/market/features.h"
#include "core/paper/machine_words.h"
#include "core/planning/finishing.h"
#include "core/shop/recall.h"
#include "core/shop/steps.h"
#include "core/typed_words.h"

namespace secondpull::paper {
namespace {

/// Looks before the sale that are about the seller's duties and not about the machine.
bool is_about_the_machine(const learning::SaleCheck& check) {
  return check.id != "recall" && check.id != "law" && check.id != "manual";
}

std::string with_cause(const Fault& fault) {
  return fault.cause.empty() ? fault.symptom : fmt::format("{} ({})", fault.symptom, fault.cause);
}

/// "kept in a shed", "no rust": what speaks for a machine.
bool is_praise(std::string_view phrase) {
  const auto grade = market::grade_of(phrase);
  return grade == market::Grade::like_new || grade == market::Grade::good || begins_alike(phrase, "no ") ||
         begins_alike(phrase, "not ");
}

class Looking {
 public:
  Looking(const Shop& shop, const ByMachine::Lines& lines, const learning::KnowledgeBase& base, Date day)
      : shop_{shop}, lines_{lines}, base_{base}, day_{day} {}

  Condition seen() {
    faults();
    parts();
    work();
    test_run();
    looks();
    recall();
    return std::move(condition_);
  }

 private:
  bool is_open(const Fault& fault) const { return !fault.ended || *fault.ended > day_; }
  bool was_mended_later(const Fault& fault) const {
    return std::any_of(lines_.faults.begin(), lines_.faults.end(), [&](const Fault* other) {
      return other->date >= fault.date && other->how == FaultEnd::mended && !is_open(*other) &&
             same_word(trimmed(other->symptom), trimmed(fault.symptom));
    });
  }

  void faults() {
    for (const Fault* fault : lines_.faults) {
      if (is_open(*fault))
        condition_.wrong.push_back(fault->cause.empty()
                                       ? fault->symptom
                                       : fmt::format("{} (perhaps: {})", fault->symptom, fault->cause));
      else if (fault->how == FaultEnd::given_up && !was_mended_later(*fault))
        condition_.wrong.push_back(with_cause(*fault) + ", not mended");
      else if (fault->how == FaultEnd::mended)
        condition_.mended.push_back(mending_of(*fault));
    }
    if (lines_.faults.empty() && !lines_.machine->symptom.empty())
      condition_.wrong.push_back(
          fmt::format("came in with: {}; nobody looked into it here", lines_.machine->symptom));
  }
  std::string mending_of(const Fault& fault) const {
    std::vector<std::string> steps;
    for (const Finding* finding : learning::findings_of(lines_, fault))
      if (same_word(trimmed(finding->outcome), learning::kSaysMended) &&
          std::find(steps.begin(), steps.end(), finding->step) == steps.end())
        steps.push_back(finding->step);
    return joined({with_cause(fault), joined(steps, ", ")}, ": ");
  }

  void parts() {
    struct Count {
      const Part* part;
      bool used;
      std::int64_t quantity;
    };
    std::vector<Count> counts;
    for (const Fitted* line : lines_.fitted) {
      const Part* const part = shop_.find(line->part);
      if (part == nullptr) continue;
      const bool used = line->from_donor.has_value();
      const auto same = std::find_if(counts.begin(), counts.end(), [&](const Count& each) {
        return each.part == part && each.used == used;
      });
      if (same == counts.end())
        counts.push_back({part, used, line->quantity});
      else
        same->quantity += line->quantity;
    }
    for (const Count& each : counts)
      condition_.fitted.push_back(fmt::format("{}{}{}",
                                              each.quantity > 1 ? fmt::format("{} x ", each.quantity) : "",
                                              each.part->name, each.used ? " (used)" : ""));
  }

  /// Its condition speaks in phrases; praise is no defect, and what says of work that it is needed is wrong
  /// no more once that is done.
  void work() {
    for (const std::string_view phrase : pieces(lines_.machine->condition, ",;\n")) {
      if (trimmed(phrase).empty() || is_praise(trimmed(phrase))) continue;
      Machine of_phrase = *lines_.machine;
      of_phrase.condition = std::string{phrase};
      ByMachine::Lines alone = lines_;
      alone.machine = &of_phrase;
      const auto ticked = learning::known_work_of(alone, base_.knowledge);
      const bool done = !ticked.empty() && std::all_of(ticked.begin(), ticked.end(), [](const auto& each) {
        return each.done.has_value();
      });
      if (!done) condition_.wrong.emplace_back(trimmed(phrase));
    }
    for (const Finding* finding : lines_.findings)
      if (learning::says_done(*finding, base_.knowledge)) {
        const std::string& name = base_.knowledge.piece_of_work(finding->step)->name;
        if (std::find(condition_.work.begin(), condition_.work.end(), name) == condition_.work.end())
          condition_.work.push_back(name);
      }
  }

  void test_run() {
    for (const planning::FinishItem& item : planning::finishing(lines_, base_)) {
      if (item.what != planning::FinishItem::What::test_run || item.outcome.empty()) continue;
      const Finding* const run = latest_of(lines_, kTestRun);
      condition_.ran_through = item.outcome == kRanThrough;
      condition_.test_run = fmt::format("{}{}, on {}", item.outcome,
                                        run->minutes ? ", " + shown(*run->minutes) : "", shown(run->date));
      if (!condition_.ran_through) condition_.wrong.push_back("test run: " + condition_.test_run);
    }
  }

  void looks() {
    for (const learning::SaleCheck& check : base_.checks) {
      if (!is_about_the_machine(check)) continue;
      const Finding* const look = latest_of(lines_, check_step(check.name, check.must));
      if (look == nullptr) continue;
      if (look->outcome == kPassed)
        condition_.passed.push_back(check.name);
      else
        condition_.wrong.push_back(fmt::format("{}: {}", check.name, look->outcome));
    }
  }

  void recall() {
    const auto last = recall_lookup(lines_);
    if (!last) return;
    condition_.recall = fmt::format("looked up on {}: {}", shown(last->date),
                                    last->recalled           ? "recalled by its maker"
                                    : last->words == kPassed ? "none found"
                                                             : last->words);
  }

  const Shop& shop_;
  const ByMachine::Lines& lines_;
  const learning::KnowledgeBase& base_;
  Date day_;
  Condition condition_;
};

}  // namespace

LinesThen before_sale(const ByMachine::Lines& lines, const Sale& sale) {
  LinesThen then{lines};
  ByMachine::Lines& kept = then.lines;
  const auto drop = [&](auto& records) {
    std::erase_if(records, [&](const auto* record) {
      return record->date > sale.date || (record->date == sale.date && number(record->id) >= number(sale.id));
    });
  };
  drop(kept.faults);
  drop(kept.findings);
  drop(kept.fitted);
  drop(kept.materials);
  drop(kept.listings);
  drop(kept.sales);
  drop(kept.returns);
  drop(kept.disposals);
  // How a fault ended after the sale, and what it turned out to be, nobody knew then.
  for (const Fault*& fault : kept.faults) {
    if (!fault->ended || *fault->ended <= sale.date) continue;
    Fault& open = then.faults.emplace_back(*fault);
    open.ended.reset();
    open.how.reset();
    open.cause.clear();
    fault = &open;
  }
  return then;
}

Condition condition_of(const Shop& shop, const ByMachine::Lines& lines, const learning::KnowledgeBase& base,
                       Date day) {
  if (lines.machine == nullptr) return {};
  return Looking{shop, lines, base, day}.seen();
}

}  // namespace secondpull::paper
