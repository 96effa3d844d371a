#include <filesystem>
#include <memory>
#include <system_error>

#include <fmt/format.h>

#include "app/cli/call.h"
#include "core/books/closing.h"
#include "db/rates/published_rates.h"

namespace secondpull::cli {
namespace {

/// Does the cost of goods of every year come out the same by stock and by movements, and do closed years
/// still have the figures that they were closed with?
void check_years(const Books& books, std::vector<Problem>& found) {
  const auto& rates = db::published_self_employment_rates();
  const Currency& currency = books.shop().settings.currency;
  for (const int year : books.dated_years()) {
    const auto figures = books.year(year, rates);
    if (!figures)
      found.push_back(figures.error());
    else if (!figures->off().is_zero())
      found.push_back({fmt::format("The cost of goods of {} by its stock and by its movements differ by {}.",
                                   year, plain(figures->off(), currency)),
                       "year", std::to_string(year)});
  }
  for (const int year : closed_years(books.shop())) {
    const auto moved = drift(books, rates, year);
    if (!moved)
      found.push_back(moved.error());
    else if (!moved->empty())
      found.push_back(
          {fmt::format("The figures of the closed year {} are no longer those that it was closed with: {}.",
                       year, in_words(*moved, currency)),
           "year", std::to_string(year)});
  }
}

/// Do the books of these records exist, and does every transaction balance?
std::vector<Problem> check_books(const std::shared_ptr<const Shop>& shop) {
  const auto books = Books::of(shop, db::published_mileage_rates());
  if (!books) return {books.error()};
  std::vector<Problem> found;
  for (const Transaction& transaction : books->transactions()) {
    Money sum;
    for (const Posting& posting : transaction.postings)
      sum += posting.amount;
    if (!sum.is_zero())
      found.push_back({fmt::format("The books do not balance: \"{}\" of {} is off by {}.", transaction.what,
                                   iso(transaction.date), plain(sum, shop->settings.currency)),
                       "",
                       {}});
  }
  check_years(*books, found);
  return found;
}

Exit check(const Call& call) {
  const auto store = db::Store::open(call.shop, db::Access::read, call.now());
  if (!store) {
    // Of a shop that is there, that it cannot be opened is an answer.
    std::error_code error;
    const bool there = std::filesystem::exists(std::filesystem::path{call.shop} / "shop.sqlite", error);
    return tell(store.error(), there ? Exit::not_in_order : Exit::refused);
  }
  std::vector<Problem> found = store->check();
  const std::vector<Problem> in_books = check_books(store->shop());
  found.insert(found.end(), in_books.begin(), in_books.end());
  for (const Problem& problem : found)
    tell(problem.sentence);
  if (!found.empty()) return Exit::not_in_order;
  return put(
      fmt::format("In order: {} machines, and the books balance.\n", store->shop()->all<Machine>().size()));
}

Exit backup(const std::string& file, const Call& call) {
  const auto store = db::Store::open(call.shop, db::Access::read, call.now());
  if (!store) return tell(store.error(), Exit::refused);
  if (const auto made = store->backup_to(file); !made) return tell(made.error(), Exit::refused);
  return put(fmt::format("Backed up to {}.\n", file));
}

Exit restore(const std::string& file, const Call& call) {
  if (const auto made = db::Store::restore(file, call.shop); !made) return tell(made.error(), Exit::refused);
  return put(fmt::format("Restored to {}.\n", call.shop));
}

}  // namespace

void add_check(CLI::App& app, Call& call) {
  add_command(app, call, "check", "Looks whether the file, the records and the books are in order",
              [&call] { return check(call); });
}

void add_backup(CLI::App& app, Call& call) {
  const auto file = std::make_shared<std::string>();
  CLI::App* command = add_command(app, call, "backup", "Writes the shop with its photos into one file",
                                  [=, &call] { return backup(*file, call); });
  command->add_option("file", *file, "The file to write")->required()->type_name("");
}

void add_restore(CLI::App& app, Call& call) {
  const auto file = std::make_shared<std::string>();
  CLI::App* command = add_command(app, call, "restore", "Makes a new shop of such a file",
                                  [=, &call] { return restore(*file, call); });
  command->add_option("file", *file, "The file to read")->required()->type_name("");
}

}  // namespace secondpull::cli
