// The figures of every machine and of a year, from a shop of 100,000 machines and a million lines, beside one
// SQL statement each that comes to the same sums.

#include <array>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <sstream>
#include <stdexcept>

#include <benchmark/benchmark.h>
#include <nlohmann/json.hpp>

#include "core/money/money.h"
#include "tests/bench/big_shop.h"
#include "tests/bench/ten_years.h"

namespace secondpull::bench {
namespace {

using Json = nlohmann::json;

constexpr std::size_t kMachines = 100'000;

const std::string kCli = SECONDPULL_BIN_DIR "/secondpull-cli";

/// The shop, made once for all measurements.
class ImportedShop {
 public:
  ImportedShop() { make_shop_folder(scratch_ / "shop", ten_years(kMachines)); }
  std::string ours(const std::string& command) const {
    return kCli + " " + command + " --json --shop '" + (scratch_ / "shop").string() + "'";
  }
  std::string in_sqlite(const std::string& statement) const {
    return "sqlite3 -readonly '" + (scratch_ / "shop/shop.sqlite").string() +
           "' < '" SECONDPULL_SOURCE_DIR "/tests/bench/" + statement + "'";
  }
  static const ImportedShop& get() {
    static const ImportedShop shop;
    return shop;
  }

 private:
  ScratchFolder scratch_;
};

std::string answer(const std::string& command) {
  std::FILE* const pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot run: " + command);
  std::string said;
  std::array<char, 65536> block{};
  for (std::size_t read = 0; (read = std::fread(block.data(), 1, block.size(), pipe)) > 0;)
    said.append(block.data(), read);
  if (pclose(pipe) != 0) throw std::runtime_error("failed: " + command);
  return said;
}

/// "12.34" in cents; nothing for null.
std::string cents(const Json& amount) {
  if (amount.is_null()) return {};
  return std::to_string(parse_amount(amount.get<std::string>(), Currency{}, "amount").value().minor());
}

/// What a sum of the statement has as cents, ours has in hundredths of an hour.
std::string hours(const std::string& minutes) {
  return std::to_string((std::stoll(minutes) * 100 + 30) / 60);
}

std::vector<std::string> cells(const std::string& line) {
  std::vector<std::string> all{""};
  for (const char c : line)
    if (c == '|')
      all.emplace_back();
    else
      all.back() += c;
  return all;
}

void expect_same(const std::vector<std::string>& ours, const std::vector<std::string>& theirs) {
  if (ours == theirs) return;
  std::string sentence = "The program and the statement differ:";
  for (const auto& side : {ours, theirs}) {
    sentence += "\n ";
    for (const std::string& cell : side)
      sentence += " " + cell;
  }
  throw std::runtime_error(sentence);
}

void compare_machines(const ImportedShop& shop) {
  std::istringstream lines{answer(shop.in_sqlite("machines.sql"))};
  for (const Json& one : Json::parse(answer(shop.ours("machines")))) {
    std::string line;
    std::getline(lines, line);
    std::vector<std::string> theirs = cells(line);
    theirs.back() = hours(theirs.back());
    expect_same({one["tag"], cents(one["cost_basis"]), cents(one["net_proceeds"]),
                 cents(one["running_costs"]), cents(one["profit"]), cents(one["hours"])},
                theirs);
  }
}

void compare_year(const ImportedShop& shop) {
  const Json year = Json::parse(answer(shop.ours("books 2025")));
  Money expenses;
  for (const Json& amount : year["expenses"])
    expenses += parse_amount(amount.get<std::string>(), Currency{}, "amount").value();
  std::string line = answer(shop.in_sqlite("books.sql"));
  line.pop_back();
  std::vector<std::string> theirs = cells(line);
  theirs[12] = hours(theirs[12]);
  const std::string miles = year["miles"];
  expect_same(
      {cents(year["gross_receipts"]), cents(year["returns"]), cents(year["opening_inventory"]),
       cents(year["purchases"]), cents(year["materials"]), cents(year["other_costs"]),
       cents(year["closing_inventory"]), std::to_string(expenses.minor()), cents(year["car_and_truck"]),
       cents(year["sales_tax_owed"]["Norrin County"]), miles.substr(0, miles.size() - 2) + miles.back(),
       std::to_string(year["machines_sold"].get<int>()), cents(year["hours"]),
       cents(year["cost_of_goods_sold"])},
      theirs);
}

void run(benchmark::State& state, const std::string& command) {
  for (auto _ : state)
    run_or_throw(command);
}

void BM_MachinesOfTenYears(benchmark::State& state) {
  run(state, ImportedShop::get().ours("machines"));
}
void BM_MachinesInSql(benchmark::State& state) {
  run(state, ImportedShop::get().in_sqlite("machines.sql"));
}
void BM_YearOfTenYears(benchmark::State& state) {
  run(state, ImportedShop::get().ours("books 2025"));
}
void BM_YearInSql(benchmark::State& state) {
  run(state, ImportedShop::get().in_sqlite("books.sql"));
}
BENCHMARK(BM_MachinesOfTenYears)->Unit(benchmark::kMillisecond)->UseRealTime()->MinTime(5);
BENCHMARK(BM_MachinesInSql)->Unit(benchmark::kMillisecond)->UseRealTime()->MinTime(5);
BENCHMARK(BM_YearOfTenYears)->Unit(benchmark::kMillisecond)->UseRealTime()->MinTime(5);
BENCHMARK(BM_YearInSql)->Unit(benchmark::kMillisecond)->UseRealTime()->MinTime(5);

}  // namespace
}  // namespace secondpull::bench

int main(int argc, char** argv) {
  using namespace secondpull::bench;
  benchmark::Initialize(&argc, argv);
  try {
    compare_machines(ImportedShop::get());
    compare_year(ImportedShop::get());
  } catch (const std::exception& wrong) {
    std::cerr << wrong.what() << '\n';
    return 1;
  }
  benchmark::RunSpecifiedBenchmarks();
}
