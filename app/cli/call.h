#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include <CLI/CLI.hpp>

#include "core/result.h"
#include "db/store.h"

namespace secondpull::cli {

/// The exit status of the program.
enum class Exit {
  done = 0,
  not_in_order = 1,  ///< what was asked about
  refused = 2        ///< the call or its input is wrong; nothing was changed
};

/// What the command line says, and what is to be done for it. Each command's function adds its options to the
/// parser and, when it is the one called, sets `action`.
struct Call {
  std::string shop;   ///< the shop's folder
  std::string today;  ///< YYYY-MM-DD; empty: the computer's clock
  std::function<Exit()> action;

  /// Now, or noon (UTC) of the day that --today says.
  db::Instant now() const;
};

/// Adds a command that needs a shop.
CLI::App* add_command(CLI::App& app, Call& call, const std::string& name, const std::string& about,
                      std::function<Exit()> action);

// What goes out. Results go to standard output, messages to standard error.

/// Writes the result; `refused` with a message if standard output takes no more.
Exit put(std::string_view text);
void tell(std::string_view message);
/// Tells the problem and returns `status`.
Exit tell(const Problem& problem, Exit status);

void add_import(CLI::App& app, Call& call);
void add_export(CLI::App& app, Call& call);
void add_demo(CLI::App& app, Call& call);
void add_machines(CLI::App& app, Call& call);
void add_next(CLI::App& app, Call& call);
void add_books(CLI::App& app, Call& call);
void add_journal(CLI::App& app, Call& call);
void add_verdict(CLI::App& app, Call& call);
void add_hours(CLI::App& app, Call& call);
void add_check(CLI::App& app, Call& call);
void add_backup(CLI::App& app, Call& call);
void add_restore(CLI::App& app, Call& call);

}  // namespace secondpull::cli
