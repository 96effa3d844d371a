// The commands that plan: verdict and hours.
#include <chrono>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "app/cli/answer_json.h"
#include "app/cli/call.h"
#include "db/exchange/case_json.h"

namespace secondpull::cli {
namespace {

/// How long a question may take before the best plan so far is the answer.
constexpr double default_seconds = 20;

/// What the two commands are called with.
struct PlanCall {
  std::string file;
  double seconds = default_seconds;
  std::size_t states = 0;  ///< 0: no limit
  bool json = false;
  bool words = false;
  bool demand = false;
};

Result<std::string> text_of(const std::string& file) {
  std::error_code error;
  std::ifstream in{file, std::ios::binary};
  if (std::filesystem::is_directory(file, error) || !in)
    return problem(fmt::format("The file {} cannot be read.", file), "file", file);
  std::string text{std::istreambuf_iterator<char>{in}, {}};
  if (in.bad()) return problem(fmt::format("The file {} could not be read to its end.", file), "file", file);
  return text;
}

decision::Budget budget_of(const PlanCall& call) {
  using clock = std::chrono::steady_clock;
  decision::Budget budget;
  if (call.states > 0) budget.states = call.states;
  budget.time =
      std::chrono::duration_cast<std::chrono::nanoseconds>(std::chrono::duration<double>{call.seconds});
  budget.spent = [begin = clock::now()] { return clock::now() - begin; };
  return budget;
}

Exit verdict(const PlanCall& call) {
  const auto text = text_of(call.file);
  if (!text) return tell(text.error(), Exit::refused);
  const auto of = db::read_case(*text);
  if (!of) return tell(of.error(), Exit::refused);
  const auto answer = decision::verdict(*of, budget_of(call));
  if (!answer) return tell(answer.error(), Exit::refused);
  return put(call.words ? words_of(*answer, *of) : json_of(*answer, *of).dump(2) + "\n");
}

Exit hours(const PlanCall& call) {
  const auto text = text_of(call.file);
  if (!text) return tell(text.error(), Exit::refused);
  const auto backlog = db::read_backlog(*text);
  if (!backlog) return tell(backlog.error(), Exit::refused);
  const decision::Budget budget = budget_of(call);
  const auto answer = decision::hours(*backlog, budget);
  if (!answer) return tell(answer.error(), Exit::refused);
  auto json = json_of(*answer);
  if (call.demand) {
    const auto demand = decision::demand(*backlog, decision::highest_hour_value, budget);
    if (!demand) return tell(demand.error(), Exit::refused);
    json["demand"] = json_of(*demand);
  }
  if (answer->too_few_hours)
    tell(fmt::format(
        "Stopping all of these the quickest way takes {:.2f} hours, and there are {:.2f}: no hour value "
        "makes them fit. The figures are those at an hour value of {:.0f}.",
        answer->hours_asked, backlog->hours, answer->hour_value));
  return put(json.dump(2) + "\n");
}

CLI::App* add_plan_command(CLI::App& app, Call& call, const std::string& name, const std::string& about,
                           const std::string& file_name, Exit (*run)(const PlanCall&),
                           const std::shared_ptr<PlanCall>& asked) {
  CLI::App* command = app.add_subcommand(name, about);
  command->add_option(file_name, asked->file, "The file to answer")->required();
  command
      ->add_option("--seconds", asked->seconds,
                   "After so long the best plan found is the answer, with its proven gap (default 20)")
      ->check(CLI::Range(0.0, 1e6));
  command->add_option("--states", asked->states,
                      "The same after so many states: the same answer on any machine");
  command->add_flag("--json", asked->json, "Print JSON, as it does anyway");
  command->callback([&call, run, asked] { call.action = [run, asked] { return run(*asked); }; });
  return command;
}

}  // namespace

void add_verdict(CLI::App& app, Call& call) {
  const auto asked = std::make_shared<PlanCall>();
  CLI::App* command =
      add_plan_command(app, call, "verdict", "What to do next with a machine, what it is worth, when to stop",
                       "CASE", verdict, asked);
  command->add_flag("--words", asked->words, "Say it in words instead of JSON");
}

void add_hours(CLI::App& app, Call& call) {
  const auto asked = std::make_shared<PlanCall>();
  CLI::App* command = add_plan_command(app, call, "hours", "What an hour is worth and what to work on next",
                                       "BACKLOG", hours, asked);
  command->add_flag("--demand", asked->demand, "Add the hours that all plans ask for at each hour value");
}

}  // namespace secondpull::cli
