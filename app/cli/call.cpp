#include "app/cli/call.h"

#include <cstdio>
#include <utility>

#include <fmt/format.h>

#include "core/calendar/date.h"

namespace secondpull::cli {

db::Instant Call::now() const {
  using namespace std::chrono;
  const auto day = parse_date(today, "today");
  if (day) return sys_days{*day} + hours{12};
  return floor<milliseconds>(system_clock::now());
}

CLI::App* add_command(CLI::App& app, Call& call, const std::string& name, const std::string& about,
                      std::function<Exit()> action) {
  CLI::App* command = app.add_subcommand(name, about);
  command->add_option("--shop", call.shop, "The shop's folder")->required()->type_name("FOLDER");
  command->final_callback([&call, action = std::move(action)] { call.action = action; });
  return command;
}

Exit put(std::string_view text) {
  if (std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0)
    return Exit::done;
  tell("The result could not be written to standard output.");
  return Exit::refused;
}

void tell(std::string_view message) {
  fmt::print(stderr, "{}\n", message);
}

Exit tell(const Problem& problem, Exit status) {
  tell(problem.sentence);
  return status;
}

}  // namespace secondpull::cli
