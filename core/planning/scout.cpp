#include "core/planning/scout.h"

#include <algorithm>
#include <map>
#include <utility>

#include "core/decision/hours.h"
#include "core/diagnosis/belief.h"
#include "core/learning/units.h"

namespace secondpull::planning {
namespace {

using decision::Answer;
using decision::Budget;
using decision::PlanNode;
using diagnosis::TestShowed;
using learning::in_units;
using learning::MachineCase;

constexpr std::string_view kRevive = "revive";

bool is_cancelled(const Budget& budget) {
  return budget.go_on && !budget.go_on({});
}

/// What a lead may be, and how likely.
struct May {
  double chance = 1;
  MachineCase asked;
};

/// How often machines of that kind came with each symptom (id); a machine counts for each once.
std::map<std::string, int> times_seen(MachineKind kind, const Situation& situation) {
  const learning::Knowledge& knowledge = situation.base().knowledge;
  std::map<std::string, int> times;
  for (const Machine& machine : situation.shop().all<Machine>()) {
    if (machine.kind != kind) continue;
    if (const learning::Symptom* const symptom = knowledge.symptom(machine.symptom)) ++times[symptom->id];
  }
  return times;
}

class Scout {
 public:
  Scout(const Situation& situation, const Lead& lead, double hour_value, const Budget& each)
      : situation_{situation},
        knowledge_{situation.base().knowledge},
        lead_{lead},
        hour_value_{hour_value},
        each_{each} {}

  bool is_known() const { return knowledge_.symptom(lead_.machine.symptom) != nullptr; }

  Result<MachineCase> case_of(learning::Described machine) const {
    const Currency& currency = situation_.shop().settings.currency;
    return learning::case_of_described(
        situation_.shop(), machine, knowledge_, situation_.learned(),
        {.hour_value = hour_value_,
         .day_cost = in_units(situation_.shop().settings.day_cost.value_or(Money{}), currency),
         .sale = situation_.sale_of(Machine{
             .kind = machine.kind, .make = machine.make, .model = machine.model, .year = machine.year})});
  }

  /// Everything that it may be, its symptom known: chances add up to 1.
  Result<std::vector<May>> all() const {
    std::vector<May> all;
    if (is_known()) {
      auto made = case_of(lead_.machine);
      if (!made) return tl::unexpected(std::move(made.error()));
      all.push_back({1, *std::move(made)});
      return all;
    }
    const auto seen = times_seen(lead_.machine.kind, situation_);
    double sum = 0;
    for (const learning::Symptom* symptom : symptoms_of(lead_.machine.kind, knowledge_)) {
      learning::Described machine = lead_.machine;
      machine.symptom = symptom->id;
      machine.answers.clear();
      auto made = case_of(std::move(machine));
      if (!made) return tl::unexpected(std::move(made.error()));
      const auto times = seen.find(symptom->id);
      all.push_back({times == seen.end() ? 1.0 : 1.0 + times->second, *std::move(made)});
      sum += all.back().chance;
    }
    if (all.empty()) return problem("The knowledge base has no symptom for that kind of machine.", "symptom");
    for (May& may : all)
      may.chance /= sum;
    return all;
  }

  double offer_for(double value) const {
    return decision::most_to_offer(value, hour_value_, money(lead_.pickup_cost),
                                   static_cast<double>(lead_.minutes.count) / learning::kMinutesOfHour,
                                   money(lead_.margin));
  }
  double price_at(double offer) const { return lead_.asking ? money(*lead_.asking) : std::max(0.0, offer); }
  double money(Money amount) const { return in_units(amount, situation_.shop().settings.currency); }

  Result<LeadWorth> worth() const;
  Result<std::vector<SellerQuestion>> questions() const;

 private:
  /// Puts the question's worth into it, once its answers are there.
  void weigh(SellerQuestion& question, double offer) const {
    const double price = price_at(offer);
    double choosing = 0;
    for (const SellerAnswer& answer : question.answers)
      choosing += answer.chance * std::max(0.0, answer.most_to_offer - price);
    question.worth = std::max(0.0, choosing - std::max(0.0, offer - price));
  }
  Result<SellerQuestion> what_it_does(const std::vector<May>& all) const;
  Result<SellerQuestion> about(const learning::Test& test, const MachineCase& asked, double offer) const;
  bool can_be_asked(const learning::Test& test, const diagnosis::Case& of) const;

  const Situation& situation_;
  const learning::Knowledge& knowledge_;
  const Lead& lead_;
  double hour_value_;
  const Budget& each_;
};

/// Money for tests and repairs on the ways through a plan, in the mean.
double money_for_steps(const PlanNode& at, const Answer& answer, const diagnosis::Case& of) {
  double money = 0;
  if (at.what == PlanNode::What::revived) {
    for (const diagnosis::KnownWork& work : of.revived.known_work)
      money += at.chance * work.cost;
  } else if (at.move.kind == decision::Move::Kind::test) {
    money += at.chance * of.tests[answer.model.tests[at.move.place].in_case].cost;
  } else if (at.move.kind == decision::Move::Kind::repair) {
    money += at.chance * of.repairs[answer.model.repairs[at.move.place].in_case].cost;
  }
  for (const PlanNode& child : at.children)
    money += money_for_steps(child, answer, of);
  return money;
}

double chance_of_loss(const Answer& answer, const diagnosis::Case& of, double paid) {
  const decision::Price price{.median = of.revived.price * (1 - of.revived.fee_rate),
                              .spread = of.revived.spread,
                              .deducted = answer.model.running.cash};
  return decision::profit_of(answer.plan.endings, price, paid).chance_of_loss;
}

Result<LeadWorth> Scout::worth() const {
  auto all = this->all();
  if (!all) return tl::unexpected(std::move(all.error()));
  LeadWorth worth;
  std::vector<Answer> answers;
  std::map<std::string, double> endings;
  for (const May& may : *all) {
    auto answer = decision::verdict(may.asked.of, each_);
    if (!answer) return tl::unexpected(std::move(answer.error()));
    worth.value += may.chance * answer->value;
    worth.gap += may.chance * answer->gap;
    worth.hours += may.chance * answer->expected.hours;
    worth.money += may.chance * money_for_steps(answer->plan.root, *answer, may.asked.of);
    endings[std::string{kRevive}] += may.chance * answer->expected.revived;
    for (std::size_t stop = 0; stop < may.asked.of.stops.size(); ++stop)
      endings[may.asked.of.stops[stop].id] += may.chance * answer->chance_of_stop[stop];
    answers.push_back(*std::move(answer));
  }
  worth.most_to_offer = offer_for(worth.value);
  if (lead_.asking) worth.gain_at_asking = worth.most_to_offer - money(*lead_.asking);
  worth.price = price_at(worth.most_to_offer);
  const double paid = worth.price + money(lead_.pickup_cost);
  for (std::size_t i = 0; i < answers.size(); ++i)
    worth.chance_of_gain += (*all)[i].chance * (1 - chance_of_loss(answers[i], (*all)[i].asked.of, paid));
  const auto likeliest = std::max_element(endings.begin(), endings.end(),
                                          [](const auto& a, const auto& b) { return a.second < b.second; });
  worth.ending = likeliest->first;
  worth.chance_of_ending = likeliest->second;
  if (is_known()) {
    worth.symptom = all->front().asked.question.symptom;
    worth.next = answers.front().next;
  }
  return worth;
}

Result<SellerQuestion> Scout::what_it_does(const std::vector<May>& all) const {
  SellerQuestion question;
  double offer = 0;
  for (const May& may : all) {
    auto value = decision::value_of(may.asked.of, each_);
    if (!value) return tl::unexpected(std::move(value.error()));
    question.answers.push_back({may.asked.question.symptom, may.chance, offer_for(*value)});
    offer += may.chance * question.answers.back().most_to_offer;
  }
  weigh(question, offer);
  std::stable_sort(question.answers.begin(), question.answers.end(),
                   [](const SellerAnswer& a, const SellerAnswer& b) { return a.chance > b.chance; });
  return question;
}

/// Is it in the case, and does no evidence stand in the place of its answer?
bool Scout::can_be_asked(const learning::Test& test, const diagnosis::Case& of) const {
  const auto text = situation_.base().texts.find(test.id);
  if (text == situation_.base().texts.end() || text->second.ask.empty()) return false;
  const auto in_case = [&](const std::string& id) {
    return std::find_if(of.tests.begin(), of.tests.end(),
                        [&](const diagnosis::Test& each) { return each.id == id; });
  };
  const auto listed = in_case(test.id);
  return listed != of.tests.end() &&
         std::none_of(of.evidence.begin(), of.evidence.end(), [&](const diagnosis::Evidence& line) {
           const auto* const showed = std::get_if<TestShowed>(&line);
           if (showed == nullptr) return false;
           return showed->test == test.id ||
                  (!listed->group.empty() && in_case(showed->test)->group == listed->group);
         });
}

Result<SellerQuestion> Scout::about(const learning::Test& test, const MachineCase& asked,
                                    double offer) const {
  SellerQuestion question{.test = test.id};
  const auto listed = std::find_if(asked.of.tests.begin(), asked.of.tests.end(),
                                   [&](const diagnosis::Test& each) { return each.id == test.id; });
  const std::vector<double> belief = diagnosis::posterior(asked.of);
  const auto chances = diagnosis::likelihood_table(*listed, asked.of.causes);
  for (std::size_t outcome = 0; outcome < chances.size(); ++outcome) {
    double chance = 0;
    for (std::size_t cause = 0; cause < belief.size(); ++cause)
      chance += belief[cause] * chances[outcome][cause];
    if (chance <= decision::negligible) continue;
    // From the description, as what is said may open tests that come after this one.
    learning::Described told = lead_.machine;
    told.answers.push_back({test.id, listed->outcomes[outcome]});
    const auto value = case_of(std::move(told)).and_then([&](const MachineCase& made) {
      return decision::value_of(made.of, each_);
    });
    if (!value) return tl::unexpected(value.error());
    question.answers.push_back({listed->outcomes[outcome], chance, offer_for(*value)});
  }
  weigh(question, offer);
  return question;
}

Result<std::vector<SellerQuestion>> Scout::questions() const {
  auto all = this->all();
  if (!all) return tl::unexpected(std::move(all.error()));
  std::vector<SellerQuestion> questions;
  if (!is_known()) {
    auto question = what_it_does(*all);
    if (!question) return tl::unexpected(std::move(question.error()));
    questions.push_back(*std::move(question));
    return questions;
  }
  const MachineCase& asked = all->front().asked;
  const auto value = decision::value_of(asked.of, each_);
  if (!value) return tl::unexpected(value.error());
  for (const learning::Test& test : knowledge_.tests) {
    if (!can_be_asked(test, asked.of)) continue;
    if (is_cancelled(each_)) break;
    auto question = about(test, asked, offer_for(*value));
    if (!question) return tl::unexpected(std::move(question.error()));
    questions.push_back(*std::move(question));
  }
  std::stable_sort(questions.begin(), questions.end(),
                   [](const SellerQuestion& a, const SellerQuestion& b) { return a.worth > b.worth; });
  return questions;
}

}  // namespace

std::vector<const learning::Symptom*> symptoms_of(MachineKind kind, const learning::Knowledge& knowledge) {
  std::vector<const learning::Symptom*> symptoms;
  for (const learning::Symptom& symptom : knowledge.symptoms)
    if (learning::fits(symptom.kinds, kind)) symptoms.push_back(&symptom);
  return symptoms;
}

Result<LeadWorth> lead_worth(const Situation& situation, const Lead& lead, double hour_value,
                             const Budget& each) {
  return Scout{situation, lead, hour_value, each}.worth();
}

Result<std::vector<SellerQuestion>> seller_questions(const Situation& situation, const Lead& lead,
                                                     double hour_value, const Budget& each) {
  return Scout{situation, lead, hour_value, each}.questions();
}

}  // namespace secondpull::planning
