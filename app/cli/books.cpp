#include <algorithm>
#include <memory>

#include <fmt/format.h>

#include "app/cli/books_json.h"
#include "app/cli/books_words.h"
#include "app/cli/call.h"
#include "db/exchange/journal.h"
#include "db/rates/published_rates.h"

namespace secondpull::cli {
namespace {

constexpr int kFirstYear = 1900;
constexpr int kLastYear = 9999;
constexpr const char* kEverything = "all";  // --explain without a figure

struct Asked {
  int year = 0;
  bool json = false;
  std::string explain;  ///< empty: nothing; a figure's key, or kEverything
};

/// The figures that are to be explained, each category and place by itself.
Result<std::vector<std::pair<YearSize, YearWhy>>> explained(const Books& books, const YearFigures& figures,
                                                            const std::string& which) {
  const auto& rates = db::published_self_employment_rates();
  const std::optional<YearLine> only = year_line(which);
  if (!only && which != kEverything) {
    std::string known;
    for (const YearLine line : all_year_lines())
      known += fmt::format("{}{}", known.empty() ? "" : ", ", word(line));
    return problem(fmt::format("There is no figure \"{}\" to explain. There are: {}.", which, known),
                   "explain", which);
  }
  // Every figure that there is, and those that are not given, to say why.
  std::vector<YearSize> asked = sizes(figures);
  for (const YearLine line : all_year_lines())
    if (!has_names(line) &&
        std::none_of(asked.begin(), asked.end(), [line](const YearSize& one) { return one.line == line; }))
      asked.push_back({line, {}, 0});
  if (only) std::erase_if(asked, [only](const YearSize& one) { return one.line != *only; });
  std::vector<std::pair<YearSize, YearWhy>> whys;
  for (const YearSize& figure : asked)
    whys.emplace_back(figure, books.why(figures, figure.line, figure.name, rates));
  return whys;
}

Exit books(const Call& call, const Asked& asked) {
  if (asked.year < kFirstYear || asked.year > kLastYear)
    return tell({fmt::format("The year {} is not one from {} to {}.", asked.year, kFirstYear, kLastYear),
                 "year", std::to_string(asked.year)},
                Exit::refused);
  const auto store = db::Store::open(call.shop, db::Access::read, call.now());
  if (!store) return tell(store.error(), Exit::refused);
  const auto books = Books::without_unrated_trips(store->shop(), db::published_mileage_rates());
  if (!books) return tell(books.error(), Exit::not_in_order);
  const auto figures = books->year(asked.year, db::published_self_employment_rates());
  if (!figures) return tell(figures.error(), Exit::not_in_order);

  const Currency& currency = store->shop()->settings.currency;
  if (asked.explain.empty())
    return put(asked.json ? books_json(*figures, currency)
                          : books_words(*books, *figures, db::published_form_lines()));
  const auto whys = explained(*books, *figures, asked.explain);
  if (!whys) return tell(whys.error(), Exit::refused);
  if (asked.json) return put(explained_json(*store->shop(), *figures, *whys));
  if (whys->empty()) return put(fmt::format("There is nothing to explain: no {}.\n", asked.explain));
  std::string text;
  for (const auto& [figure, why] : *whys)
    text += why_words(figure, why, currency);
  return put(text);
}

Exit journal(const Call& call) {
  const auto store = db::Store::open(call.shop, db::Access::read, call.now());
  if (!store) return tell(store.error(), Exit::refused);
  const auto books = Books::of(store->shop(), db::published_mileage_rates());
  if (!books) return tell(books.error(), Exit::not_in_order);
  return put(db::journal(*books));
}

}  // namespace

void add_books(CLI::App& app, Call& call) {
  const auto asked = std::make_shared<Asked>();
  CLI::App* command = add_command(app, call, "books", "The figures of a year (no tax advice)",
                                  [=, &call] { return books(call, *asked); });
  command->add_option("year", asked->year, "The calendar year")->required()->type_name("YEAR");
  command->add_flag("--json", asked->json, "One JSON value instead of a table");
  command
      ->add_option("--explain", asked->explain,
                   "What a figure is made of, by its key (net_profit); without one, every figure")
      ->expected(0, 1)
      ->default_str(kEverything)
      ->type_name("FIGURE");
}

void add_journal(CLI::App& app, Call& call) {
  add_command(app, call, "journal", "The postings as a journal for hledger and ledger",
              [&call] { return journal(call); });
}

}  // namespace secondpull::cli
