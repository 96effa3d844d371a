// The command next: what to do next with every machine that waits, and which one pays best.
#include <algorithm>
#include <chrono>
#include <memory>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "app/cli/call.h"
#include "app/cli/text_table.h"
#include "core/books/books.h"
#include "core/planning/backlog_plan.h"
#include "core/planning/names.h"
#include "db/exchange/knowledge_json.h"
#include "db/rates/published_rates.h"

namespace secondpull::cli {
namespace {

using planning::BacklogPlan;
using planning::Waiting;

std::string worth_of(const decision::Answer& answer) {
  return answer.worth_per_hour.value ? fmt::format("{:.2f}", *answer.worth_per_hour.value)
                                     : fmt::format("over {:.0f}", decision::highest_hour_value);
}

std::string table_of(const Shop& shop, const BacklogPlan& plan) {
  using enum TextTable::Side;
  TextTable table{{{"Tag", left},
                   {"Kind", left},
                   {"Next", left},
                   {"Worth per hour", right},
                   {"Hours", right},
                   {"Gain", right},
                   {"Runs", right}}};
  std::string unplanned;
  for (const Waiting& waiting : plan.machines) {
    const Machine& machine = *shop.find(waiting.machine);
    if (!waiting.answer) {
      unplanned += fmt::format("#{}: {}\n", machine.tag, waiting.problem->sentence);
      continue;
    }
    const decision::Answer& answer = *waiting.answer;
    table.add({machine.tag, std::string{word(machine.kind)},
               planning::called(answer.next, db::published_knowledge().knowledge), worth_of(answer),
               fmt::format("{:.2f}", answer.expected.hours), fmt::format("{:.2f}", answer.gain),
               fmt::format("{:.0f} %", 100 * answer.expected.revived)});
  }
  std::string out = fmt::format("An hour is worth {:.2f} {}.\n{}", plan.hour_value.value,
                                shop.settings.currency.code, table.text());
  return unplanned.empty() ? out : out + "\nNo plan:\n" + unplanned;
}

std::string json_of(const Shop& shop, const BacklogPlan& plan) {
  nlohmann::ordered_json machines = nlohmann::ordered_json::array();
  for (const Waiting& waiting : plan.machines) {
    const Machine& machine = *shop.find(waiting.machine);
    nlohmann::ordered_json line{{"tag", machine.tag}, {"kind", word(machine.kind)}};
    if (waiting.answer) {
      const decision::Answer& answer = *waiting.answer;
      line["next"] = {{"kind", decision::word(answer.next.kind)}, {"id", answer.next.id}};
      line["name"] = planning::called(answer.next, db::published_knowledge().knowledge);
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
  return nlohmann::ordered_json{{"hour_value", plan.hour_value.value}, {"machines", machines}}.dump(2) + "\n";
}

Exit next(const Call& call, bool json) {
  const auto store = db::Store::open(call.shop, db::Access::read, call.now());
  if (!store) return tell(store.error(), Exit::refused);
  const auto books = Books::of(store->shop(), db::published_mileage_rates());
  if (!books) return tell(books.error(), Exit::not_in_order);
  const Date today{std::chrono::floor<std::chrono::days>(call.now())};
  const auto base = std::make_shared<const learning::KnowledgeBase>(db::published_knowledge());
  const planning::Situation situation{std::make_shared<const Books>(*books), base, today};
  decision::Budget each;
  each.states = planning::kStatesEach;
  const auto plan = planning::plan_backlog(situation, each);
  if (!plan) return tell(plan.error(), Exit::refused);
  return put(json ? json_of(*store->shop(), *plan) : table_of(*store->shop(), *plan));
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
