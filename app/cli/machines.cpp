#include <iterator>
#include <memory>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "app/cli/call.h"
#include "app/cli/text_table.h"
#include "core/books/books.h"
#include "core/shop/words.h"
#include "db/rates/published_rates.h"

namespace secondpull::cli {
namespace {

std::string quoted(const std::string& plain_text) {
  return '"' + plain_text + '"';
}

template <class Value, class Show>
std::string or_null(const std::optional<Value>& value, Show&& show) {
  return value ? show(*value) : "null";
}

/// A line of `machines --json`, with the keys in the order that the exchange format names. Written out here
/// and not built as a value first: there may be a hundred thousand of them, and the tag alone is a text in
/// which something has to be escaped.
void add_json(std::string& out, const Machine& machine, const MachineFigures& figures,
              const Currency& currency) {
  const auto money = [&](Money amount) { return quoted(plain(amount, currency)); };
  const auto day = [](Date date) { return quoted(iso(date)); };
  fmt::format_to(
      std::back_inserter(out),
      R"({{"tag":{},"kind":"{}","stage":"{}","acquired":{},"sold":{},"cost_basis":{},"net_proceeds":{},)"
      R"("gross_profit":{},"running_costs":{},"profit":{},"hours":"{}","pay_per_hour":{},"days_held":{}}})",
      nlohmann::json(machine.tag).dump(), word(machine.kind), word(figures.stage), day(figures.acquired),
      or_null(figures.sold, day), money(figures.cost_basis), or_null(figures.net_proceeds, money),
      or_null(figures.gross_profit, money), money(figures.running_costs), or_null(figures.profit, money),
      decimal_hours(figures.minutes), or_null(figures.pay_per_hour, money),
      or_null(figures.days_held, [](int days) { return std::to_string(days); }));
}

std::string json_of(const Books& books) {
  const Shop& shop = books.shop();
  std::string out = "[";
  for (const MachineFigures& figures : books.machines()) {
    out += out.size() == 1 ? "\n" : ",\n";
    add_json(out, *shop.find(figures.machine), figures, shop.settings.currency);
  }
  return out + "\n]\n";
}

std::string table_of(const Books& books) {
  using enum TextTable::Side;
  const Shop& shop = books.shop();
  const auto money = [&](Money amount) { return plain(amount, shop.settings.currency); };
  const auto shown_if = [](const auto& value, auto&& show) {
    return value ? show(*value) : std::string{"-"};
  };
  TextTable table{{{"Tag", left},
                   {"Kind", left},
                   {"Stage", left},
                   {"Acquired", left},
                   {"Sold", left},
                   {"Cost basis", right},
                   {"Net proceeds", right},
                   {"Gross profit", right},
                   {"Running costs", right},
                   {"Profit", right},
                   {"Hours", right},
                   {"Pay per hour", right},
                   {"Days held", right}}};
  for (const MachineFigures& figures : books.machines()) {
    const Machine& machine = *shop.find(figures.machine);
    table.add({machine.tag, std::string{word(machine.kind)}, std::string{word(figures.stage)},
               iso(figures.acquired), shown_if(figures.sold, iso), money(figures.cost_basis),
               shown_if(figures.net_proceeds, money), shown_if(figures.gross_profit, money),
               money(figures.running_costs), shown_if(figures.profit, money), decimal_hours(figures.minutes),
               shown_if(figures.pay_per_hour, money),
               shown_if(figures.days_held, [](int days) { return std::to_string(days); })});
  }
  return table.text();
}

/// Every sum behind one machine's figures: they add up to its profit.
std::string explained(const Books& books, const Machine& machine) {
  using enum TextTable::Side;
  const Currency& currency = books.shop().settings.currency;
  TextTable table{{{"Date", left}, {"What", left}, {currency.code, right}}};
  Money sum;
  for (const FigureLine& line : books.lines(machine.id)) {
    table.add({iso(line.date), line.what, plain(line.amount, currency)});
    sum += line.amount;
  }
  const MachineFigures& figures = *books.machine(machine.id);
  const std::string_view end = figures.profit                 ? "profit"
                               : figures.stage == Stage::kept ? "kept for own use: what it cost"
                                                              : "so far";
  table.add({"", std::string{end}, plain(sum, currency)});
  return fmt::format("#{}\n{}", machine.tag, table.text());
}

Exit explain(const Books& books, const std::string& tag) {
  for (const Machine& machine : books.shop().all<Machine>())
    if (machine.tag == tag) return put(explained(books, machine));
  return tell({fmt::format("There is no machine with the tag \"{}\".", tag), "explain", tag}, Exit::refused);
}

Exit machines(const Call& call, bool json, const std::string& tag) {
  const auto store = db::Store::open(call.shop, db::Access::read, call.now());
  if (!store) return tell(store.error(), Exit::refused);
  const auto books = Books::of(store->shop(), db::published_mileage_rates());
  if (!books) return tell(books.error(), Exit::not_in_order);
  if (!tag.empty()) return explain(*books, tag);
  return put(json ? json_of(*books) : table_of(*books));
}

}  // namespace

void add_machines(CLI::App& app, Call& call) {
  const auto json = std::make_shared<bool>(false);
  const auto tag = std::make_shared<std::string>();
  CLI::App* command = add_command(app, call, "machines", "What each machine cost and earned",
                                  [=, &call] { return machines(call, *json, *tag); });
  CLI::Option* const as_json = command->add_flag("--json", *json, "One JSON value instead of a table");
  command->add_option("--explain", *tag, "What one machine's profit is made of, line by line")
      ->type_name("TAG")
      ->excludes(as_json);
}

}  // namespace secondpull::cli
