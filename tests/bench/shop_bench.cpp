// One saved action, the import of many lines, and the list of many machines.

#include <chrono>

#include <benchmark/benchmark.h>

#include "core/books/books.h"
#include "core/shop/bench.h"
#include "core/shop/rules.h"
#include "db/exchange/exchange.h"
#include "db/store.h"
#include "tests/bench/big_shop.h"

namespace secondpull::bench {
namespace {

constexpr std::size_t kManyMachines = 10'000;
constexpr std::size_t kVeryManyMachines = 100'000;
constexpr std::size_t kManyLines = 100'000;

const std::string kCli = SECONDPULL_BIN_DIR "/secondpull-cli";

std::string quoted(const std::filesystem::path& path) {
  return "'" + path.string() + "'";
}

db::Instant now() {
  return std::chrono::time_point_cast<std::chrono::milliseconds>(std::chrono::system_clock::now());
}

/// A click to the row on disk: rules checked, one transaction, one history entry.
void BM_SavedAction(benchmark::State& state) {
  const ScratchFolder scratch;
  const Shop content =
      big_shop(static_cast<std::size_t>(state.range(0)), static_cast<std::size_t>(state.range(0)));
  make_shop_folder(scratch / "shop", content);
  auto store = db::Store::open(scratch / "shop", db::Access::write, now());
  if (!store) return state.SkipWithError(store.error().sentence.c_str());
  const MachineId machine = store->shop()->all<Machine>().begin()->id;
  const auto save_one = [&]() -> std::optional<Problem> {
    const auto change = log_labour(*store->shop(), machine,
                                   Date{std::chrono::year{2026}, std::chrono::November, std::chrono::day{2}},
                                   Minutes{20}, Work::comeback, "");
    if (!change) return change.error();
    const auto done = store->perform(*change, now());
    return done ? std::nullopt : std::optional{done.error()};
  };
  // The first of a day makes the day's backup as well, which is not what is measured.
  std::optional<Problem> wrong = save_one();
  for (auto _ : state)
    if (!wrong) wrong = save_one();
  if (wrong) state.SkipWithError(wrong->sentence.c_str());
}
BENCHMARK(BM_SavedAction)->Arg(60)->Arg(kManyMachines)->Unit(benchmark::kMillisecond)->UseRealTime();

/// secondpull-cli import of an exchange folder whose labour.csv has 100,000 lines, into a new shop.
void BM_ImportLabour(benchmark::State& state) {
  const ScratchFolder scratch;
  if (const auto written = db::write_folder(big_shop(1'000, kManyLines), scratch / "exchange"); !written)
    return state.SkipWithError(written.error().sentence.c_str());
  int round = 0;
  for (auto _ : state)
    run_or_throw(kCli + " import " + quoted(scratch / "exchange") + " --shop " +
                 quoted(scratch / ("shop" + std::to_string(++round))));
}
BENCHMARK(BM_ImportLabour)->Unit(benchmark::kMillisecond)->UseRealTime();

/// The measure to hold it against: the sqlite3 program reading the same labour.csv into a table of text.
void BM_SqliteImportLabour(benchmark::State& state) {
  const ScratchFolder scratch;
  if (const auto written = db::write_folder(big_shop(1'000, kManyLines), scratch / "exchange"); !written)
    return state.SkipWithError(written.error().sentence.c_str());
  int round = 0;
  for (auto _ : state)
    run_or_throw("sqlite3 " + quoted(scratch / ("file" + std::to_string(++round))) + " '.import --csv " +
                 (scratch / "exchange").string() + "/labour.csv labour'");
}
BENCHMARK(BM_SqliteImportLabour)->Unit(benchmark::kMillisecond)->UseRealTime();

/// secondpull-cli machines --json on a shop of 100,000 machines.
void BM_MachinesOfBigShop(benchmark::State& state) {
  const ScratchFolder scratch;
  make_shop_folder(scratch / "shop", big_shop(kVeryManyMachines, kVeryManyMachines));
  for (auto _ : state)
    run_or_throw(kCli + " machines --json --shop " + quoted(scratch / "shop"));
}
BENCHMARK(BM_MachinesOfBigShop)->Unit(benchmark::kMillisecond)->UseRealTime();

/// What of it is arithmetic: the rules, and the books.
void BM_RulesOfBigShop(benchmark::State& state) {
  const Shop shop =
      big_shop(static_cast<std::size_t>(state.range(0)), static_cast<std::size_t>(state.range(0)));
  for (auto _ : state)
    benchmark::DoNotOptimize(broken_rules(shop));
}
BENCHMARK(BM_RulesOfBigShop)->Arg(kManyMachines)->Arg(kVeryManyMachines)->Unit(benchmark::kMillisecond);

void BM_BooksOfBigShop(benchmark::State& state) {
  const auto shop = std::make_shared<const Shop>(
      big_shop(static_cast<std::size_t>(state.range(0)), static_cast<std::size_t>(state.range(0))));
  const auto rates =
      MileageRates::make({{.from = Date{std::chrono::year{2025}, std::chrono::January, std::chrono::day{1}},
                           .to = Date{std::chrono::year{2026}, std::chrono::December, std::chrono::day{31}},
                           .tenths_of_cent_a_mile = 700,
                           .source = "made up for the measurement"}});
  for (auto _ : state)
    benchmark::DoNotOptimize(Books::of(shop, *rates));
}
BENCHMARK(BM_BooksOfBigShop)->Arg(kManyMachines)->Arg(kVeryManyMachines)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace secondpull::bench
