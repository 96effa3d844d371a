#include <cstdlib>
#include <exception>

#include <fmt/format.h>

#include "app/cli/call.h"
#include "core/calendar/date.h"

namespace secondpull::cli {
namespace {

/// --today holds a day of the calendar.
std::string check_day(const std::string& text) {
  const auto day = parse_date(text, "today");
  return day ? std::string{} : day.error().sentence;
}

Exit run(int argc, char** argv) {
  CLI::App app{"Second Pull: the books, the bench and the plan of a one-person mower shop.",
               "secondpull-cli"};
  app.set_version_flag("--version", SECONDPULL_VERSION);
  app.require_subcommand(1);
  app.fallthrough();
  Call call;
  app.add_option("--today", call.today, "The day to work with, instead of the computer's")
      ->type_name("YYYY-MM-DD")
      ->check(CLI::Validator{check_day, "", "day"});
  for (const auto add : {add_import, add_export, add_machines, add_next, add_books, add_journal, add_verdict,
                         add_hours, add_check, add_backup, add_restore, add_demo})
    add(app, call);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == EXIT_SUCCESS ? Exit::done : Exit::refused;  // 0 for --help and --version
  }
  return call.action();
}

}  // namespace
}  // namespace secondpull::cli

int main(int argc, char** argv) {
  try {
    return static_cast<int>(secondpull::cli::run(argc, argv));
  } catch (const std::exception& error) {
    secondpull::cli::tell(
        fmt::format("This should not happen, and is a fault of the program: {}", error.what()));
    return static_cast<int>(secondpull::cli::Exit::refused);
  }
}
