#include "core/planning/case_numbers.h"

#include <algorithm>

#include "core/diagnosis/belief.h"

namespace secondpull::planning {
namespace {

using What = CaseNumber::What;
using decision::Move;

class Collector {
 public:
  Collector(const Situation& situation, const learning::MachineCase& asked)
      : situation_{situation}, asked_{asked}, knowledge_{situation.base().knowledge} {}

  void add(What what, std::string path, std::optional<learning::Share> share = {}, std::string of = {}) {
    const auto value = learning::number_at(asked_.of, path);
    if (!value) return;
    CaseNumber number{
        .what = what, .path = std::move(path), .of = std::move(of), .value = *value, .share = share};
    for (const learning::SaidNumber& said : asked_.said)
      if (said.path == number.path) number.computed = said.computed;
    numbers_.push_back(std::move(number));
  }

  void add_sale() {
    add(What::price, "revived.price");  // of that very machine: no count of sales says whose it is
    add(What::days_to_sell, "revived.days");
    add(What::hours_to_sell, "revived.hours");
    add(What::comeback, "revived.comeback_chance");
  }

  void add_test(const std::string& id) {
    const learning::Test* const test = knowledge_.test(id);
    if (test != nullptr)
      add(What::step_minutes, "tests." + id + ".minutes", share_of_minutes(id, test->minutes));
    add(What::step_cost, "tests." + id + ".cost");
  }

  void add_repair(const std::string& id) {
    const learning::Repair* const repair = knowledge_.repair(id);
    if (repair == nullptr) return;
    add(What::step_minutes, "repairs." + id + ".minutes", share_of_minutes(id, repair->minutes));
    add(What::step_cost, "repairs." + id + ".cost");
    if (const auto cause = likeliest_cured(id))
      add(What::cure, "repairs." + id + ".cures." + *cause,
          learning::share_of_cure(*repair, *cause, situation_.learned().tallies), *cause);
  }

  void add_stops() {
    for (const diagnosis::Stop& stop : asked_.of.stops)
      add(What::stop_value, "stops." + stop.id + ".value", {}, stop.id);
  }

  void add_causes() {
    double all = 0;
    std::vector<const diagnosis::Cause*> causes;
    for (const diagnosis::Cause& cause : asked_.of.causes) {
      all += cause.weight;
      causes.push_back(&cause);
    }
    std::stable_sort(causes.begin(), causes.end(),
                     [](const auto* a, const auto* b) { return a->weight > b->weight; });
    for (const diagnosis::Cause* cause : causes) {
      add(What::cause_share, "causes." + cause->id + ".weight", {}, cause->id);
      CaseNumber& number = numbers_.back();
      number.others = all - cause->weight;
      number.value = cause->weight / all;
      if (number.computed) number.computed = *number.computed / (number.others + *number.computed);
    }
  }

  std::vector<CaseNumber> numbers() && { return std::move(numbers_); }

 private:
  learning::Share share_of_minutes(const std::string& id, const learning::Range& known) const {
    return learning::share_of_minutes(id, known, situation_.learned().tallies);
  }

  std::optional<std::string> likeliest_cured(const std::string& id) const {
    const auto& repairs = asked_.of.repairs;
    const auto repair =
        std::find_if(repairs.begin(), repairs.end(), [&](const auto& each) { return each.id == id; });
    if (repair == repairs.end()) return std::nullopt;
    const std::vector<double> belief = diagnosis::posterior(asked_.of);
    std::optional<std::string> best;
    double most = 0;
    for (std::size_t i = 0; i < belief.size(); ++i)
      for (const auto& [cause, chance] : repair->cures)
        if (cause == asked_.of.causes[i].id && belief[i] * chance > most) {
          most = belief[i] * chance;
          best = cause;
        }
    return best;
  }

  const Situation& situation_;
  const learning::MachineCase& asked_;
  const learning::Knowledge& knowledge_;
  std::vector<CaseNumber> numbers_;
};

}  // namespace

std::vector<CaseNumber> case_numbers(const Situation& situation, const learning::MachineCase& asked,
                                     const std::optional<decision::NamedMove>& step) {
  Collector collector{situation, asked};
  collector.add_sale();
  if (step && step->kind == Move::Kind::test) collector.add_test(step->id);
  if (step && step->kind == Move::Kind::repair) collector.add_repair(step->id);
  collector.add_stops();
  collector.add_causes();
  return std::move(collector).numbers();
}

double weight_for_share(const CaseNumber& cause, double share) {
  return share / (1 - share) * cause.others;
}

}  // namespace secondpull::planning
