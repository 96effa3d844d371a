#include "core/planning/stop_if.h"

#include <algorithm>

namespace secondpull::planning {
namespace {

using decision::Move;
using decision::PlanNode;

class Finder {
 public:
  Finder(const decision::Answer& answer, const diagnosis::Case& of) : answer_{answer}, case_{of} {}

  void look(const PlanNode& at) {
    if (at.what == PlanNode::What::revived || at.move.kind == Move::Kind::stop) return;
    const decision::NamedMove step = decision::named(case_, answer_.model, at.move);
    for (const PlanNode& child : at.children) {
      if (child.what == PlanNode::What::decide && child.move.kind == Move::Kind::stop)
        add({step, outcome_of(step, child), decision::named(case_, answer_.model, child.move), child.chance});
      look(child);
    }
  }
  std::vector<GivingUp> found() && {
    std::stable_sort(found_.begin(), found_.end(),
                     [](const GivingUp& a, const GivingUp& b) { return a.chance > b.chance; });
    return std::move(found_);
  }

 private:
  std::string outcome_of(const decision::NamedMove& step, const PlanNode& child) const {
    if (step.kind != Move::Kind::test || !child.outcome) return {};
    const auto test = std::find_if(case_.tests.begin(), case_.tests.end(),
                                   [&](const diagnosis::Test& each) { return each.id == step.id; });
    return test->outcomes[*child.outcome];
  }
  void add(GivingUp point) {
    const auto same = std::find_if(found_.begin(), found_.end(), [&](const GivingUp& each) {
      return each.after == point.after && each.outcome == point.outcome;
    });
    if (same == found_.end())
      found_.push_back(std::move(point));
    else
      same->chance += point.chance;
  }

  const decision::Answer& answer_;
  const diagnosis::Case& case_;
  std::vector<GivingUp> found_;
};

}  // namespace

std::vector<GivingUp> stop_if(const decision::Answer& answer, const diagnosis::Case& of) {
  Finder finder{answer, of};
  finder.look(answer.plan.root);
  return std::move(finder).found();
}

}  // namespace secondpull::planning
