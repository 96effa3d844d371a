// The command next: what to do next with every machine that waits, and which one pays best.
#include <algorithm>
#include <chrono>
#include <memory>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "app/cli/call.h"
#include "app/cli/text_table.h"
#include "core/books/books.h"
#include "core/decision/hours.h"
#include "core/learning/machine_case.h"
#include "core/learning/stops.h"
#include "core/learning/units.h"
#include "db/exchange/knowledge_json.h"
#include "db/rates/published_rates.h"

namespace secondpull::cli {
namespace {

/// How many states a machine's plan may take: the same answer on any machine, and a Yard in seconds.
constexpr std::size_t kStatesEach = 4000;
/// For how many weeks of work machines compete where the owner says no hour value. Common practice, no
/// source.
constexpr double kWeeksAhead = 4;

/// A machine that waits, and what is said of it.
struct Waiting {
  const Machine* machine = nullptr;
  std::optional<Problem> problem;  ///< why there is no plan
  diagnosis::Case of;
  std::optional<decision::Answer> answer;
};

double sunk_hours(const MachineFigures& figures) {
  return static_cast<double>(figures.minutes.count) / learning::kMinutesOfHour;
}

std::vector<Waiting> cases_of(const Shop& shop, const Books& books, Date today) {
  const learning::Knowledge& knowledge = db::published_knowledge().knowledge;
  const ByMachine& by_machine = books.by_machine();
  const learning::Learned learned = learning::learned_from(by_machine, shop, knowledge, today);
  const Currency& currency = shop.settings.currency;
  std::vector<Waiting> all;
  for (const Machine& machine : shop.all<Machine>()) {
    const auto& lines = by_machine.of(machine.id);
    const Stage stage = stage_of(lines);
    if (!is_here(stage) || stage == Stage::for_sale) continue;
    learning::Terms terms{.day_cost = learning::in_units(shop.settings.day_cost.value_or(Money{}), currency)};
    if (const MachineFigures* figures = books.machine(machine.id))
      terms.sunk = {learning::in_units(figures->cost_basis, currency), sunk_hours(*figures)};
    Waiting& waiting = all.emplace_back(Waiting{&machine});
    auto made = learning::case_of_machine(shop, by_machine, machine.id, knowledge, learned, terms);
    if (made)
      waiting.of = std::move(made->of);
    else
      waiting.problem = std::move(made.error());
  }
  return all;
}

/// What the owner says an hour is worth (0 if he says neither that nor his hours a week), or what the waiting
/// machines make of it.
Result<double> hour_value_of(const Shop& shop, const std::vector<Waiting>& all) {
  if (shop.settings.hour_value) return learning::in_units(*shop.settings.hour_value, shop.settings.currency);
  decision::Backlog backlog;
  backlog.hours = kWeeksAhead * static_cast<double>(shop.settings.hours_a_week.value_or(Tenths{}).count) / 10;
  if (backlog.hours <= 0) return 0;
  for (const Waiting& waiting : all)
    if (!waiting.problem) backlog.cases.push_back({waiting.machine->tag, waiting.of});
  decision::Budget budget;
  budget.states = kStatesEach;
  return decision::hours(backlog, budget).map([](const decision::HoursAnswer& answer) {
    return answer.hour_value;
  });
}

void plan(std::vector<Waiting>& all, double hour_value) {
  for (Waiting& waiting : all) {
    if (waiting.problem) continue;
    waiting.of.hour_value = hour_value;
    decision::Budget budget;
    budget.states = kStatesEach;
    auto answer = decision::verdict(waiting.of, budget);
    if (answer)
      waiting.answer = *std::move(answer);
    else
      waiting.problem = std::move(answer.error());
  }
  // What earns most per hour of work is what to work on next; what has no plan comes last.
  const auto worth = [](const Waiting& waiting) {
    if (!waiting.answer) return -1.0;
    return waiting.answer->worth_per_hour.value.value_or(decision::highest_hour_value);
  };
  std::stable_sort(all.begin(), all.end(),
                   [&](const Waiting& a, const Waiting& b) { return worth(a) > worth(b); });
}

/// A step or a stop as a person calls it.
std::string called(const decision::NamedMove& move) {
  const learning::Knowledge& knowledge = db::published_knowledge().knowledge;
  if (const auto* test = knowledge.test(move.id)) return test->name;
  if (const auto* repair = knowledge.repair(move.id)) return repair->name;
  if (move.id == learning::kSellAsIs) return "sell as is";
  return move.id == learning::kPartOut ? "part out" : move.id;
}

std::string worth_of(const decision::Answer& answer) {
  return answer.worth_per_hour.value ? fmt::format("{:.2f}", *answer.worth_per_hour.value)
                                     : fmt::format("over {:.0f}", decision::highest_hour_value);
}

std::string table_of(const std::vector<Waiting>& all, double hour_value, const Currency& currency) {
  using enum TextTable::Side;
  TextTable table{{{"Tag", left},
                   {"Kind", left},
                   {"Next", left},
                   {"Worth per hour", right},
                   {"Hours", right},
                   {"Gain", right},
                   {"Runs", right}}};
  std::string unplanned;
  for (const Waiting& waiting : all) {
    if (!waiting.answer) {
      unplanned += fmt::format("#{}: {}\n", waiting.machine->tag, waiting.problem->sentence);
      continue;
    }
    const decision::Answer& answer = *waiting.answer;
    table.add({waiting.machine->tag, std::string{word(waiting.machine->kind)}, called(answer.next),
               worth_of(answer), fmt::format("{:.2f}", answer.expected.hours),
               fmt::format("{:.2f}", answer.gain), fmt::format("{:.0f} %", 100 * answer.expected.revived)});
  }
  std::string out = fmt::format("An hour is worth {:.2f} {}.\n{}", hour_value, currency.code, table.text());
  return unplanned.empty() ? out : out + "\nNo plan:\n" + unplanned;
}

std::string json_of(const std::vector<Waiting>& all, double hour_value) {
  nlohmann::ordered_json machines = nlohmann::ordered_json::array();
  for (const Waiting& waiting : all) {
    nlohmann::ordered_json line{{"tag", waiting.machine->tag}, {"kind", word(waiting.machine->kind)}};
    if (waiting.answer) {
      const decision::Answer& answer = *waiting.answer;
      line["next"] = {{"kind", decision::word(answer.next.kind)}, {"id", answer.next.id}};
      line["name"] = called(answer.next);
      line["verdict"] = answer.verdict;
      line["worth_per_hour"] = answer.worth_per_hour.value
                                   ? nlohmann::ordered_json(*answer.worth_per_hour.value)
                                   : nlohmann::ordered_json(nullptr);
      line["expected_hours"] = answer.expected.hours;
      line["gain"] = answer.gain;
      line["gap"] = answer.gap;
      line["chance_revived"] = answer.expected.revived;
    } else {
      line["problem"] = waiting.problem->sentence;
    }
    machines.push_back(std::move(line));
  }
  return nlohmann::ordered_json{{"hour_value", hour_value}, {"machines", machines}}.dump(2) + "\n";
}

Exit next(const Call& call, bool json) {
  const auto store = db::Store::open(call.shop, db::Access::read, call.now());
  if (!store) return tell(store.error(), Exit::refused);
  const auto books = Books::of(store->shop(), db::published_mileage_rates());
  if (!books) return tell(books.error(), Exit::not_in_order);
  const Shop& shop = *store->shop();
  const Date today{std::chrono::floor<std::chrono::days>(call.now())};
  std::vector<Waiting> all = cases_of(shop, *books, today);
  const auto hour_value = hour_value_of(shop, all);
  if (!hour_value) return tell(hour_value.error(), Exit::refused);
  plan(all, *hour_value);
  return put(json ? json_of(all, *hour_value) : table_of(all, *hour_value, shop.settings.currency));
}

}  // namespace

void add_next(CLI::App& app, Call& call) {
  const auto json = std::make_shared<bool>(false);
  CLI::App* command = add_command(
      app, call, "next", "What to do next with every machine that waits, the one that pays best first",
      [=, &call] { return next(call, *json); });
  command->add_flag("--json", *json, "One JSON value instead of a table");
}

}  // namespace secondpull::cli
