#include <memory>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "core/books/books.h"
#include "db/rates/published_rates.h"
#include "db/store.h"
#include "tests/db/exchange/folders.h"

namespace secondpull::db {
namespace {

namespace fs = std::filesystem;

const fs::path kData = fs::path{SECONDPULL_SOURCE_DIR} / "tests/db/exchange/data";

nlohmann::json money(const std::optional<Money>& amount) {
  return amount ? nlohmann::json(plain(*amount, Currency{})) : nlohmann::json(nullptr);
}

nlohmann::json figures(const Shop& shop) {
  nlohmann::json out = nlohmann::json::array();
  const auto books = Books::of(std::make_shared<const Shop>(shop), published_mileage_rates());
  if (!books) {
    ADD_FAILURE() << books.error().sentence;
    return out;
  }
  for (const MachineFigures& one : books->machines())
    out.push_back({{"tag", shop.find(one.machine)->tag},
                   {"kind", word(shop.find(one.machine)->kind)},
                   {"stage", word(one.stage)},
                   {"acquired", iso(one.acquired)},
                   {"sold", one.sold ? nlohmann::json(iso(*one.sold)) : nlohmann::json(nullptr)},
                   {"cost_basis", money(one.cost_basis)},
                   {"net_proceeds", money(one.net_proceeds)},
                   {"gross_profit", money(one.gross_profit)},
                   {"running_costs", money(one.running_costs)},
                   {"profit", money(one.profit)},
                   {"hours", decimal_hours(one.minutes)},
                   {"pay_per_hour", money(one.pay_per_hour)},
                   {"days_held", one.days_held ? nlohmann::json(*one.days_held) : nlohmann::json(nullptr)}});
  return out;
}

class WorkedMonth : public testing::TestWithParam<const char*> {};

// Expected: machines.json of the folder. "worked-month" is the money model's own month, worked to the cent
// there; "worked-month-basic" is the same without donor and trip, worked by hand in its README.md.
TEST_P(WorkedMonth, GivesItsFiguresToTheCent) {
  const fs::path folder = kData / GetParam();
  const ImportResult read = read_folder(folder, Shop{});
  for (const ImportError& error : read.errors)
    ADD_FAILURE() << shown(error);
  EXPECT_EQ(figures(read.shop), nlohmann::json::parse(read_text(folder / "machines.json")));
}

TEST_P(WorkedMonth, ComesBackFromAnExportWithTheSameDump) {
  const TempFolder work;
  const Instant now{std::chrono::sys_days{std::chrono::year{2026} / 4 / 1}};
  const auto dump = [&](const fs::path& folder, const char* name) {
    const ImportResult read = read_folder(folder, Shop{});
    EXPECT_TRUE(read.errors.empty());
    auto store = Store::create(work.path() / name, read.shop.settings, now);
    if (!store) throw std::runtime_error(store.error().sentence);
    const auto done = store->perform(import_change(Shop{}, read.shop), now);
    EXPECT_TRUE(done) << done.error().sentence;
    const auto written = write_folder(*store->shop(), work.path() / (std::string{name} + "-export"));
    EXPECT_TRUE(written) << written.error().sentence;
    return store->dump();
  };
  const std::string first = dump(kData / GetParam(), "first");
  EXPECT_EQ(dump(work.path() / "first-export", "second"), first);
}

INSTANTIATE_TEST_SUITE_P(WholeAndBasic, WorkedMonth, testing::Values("worked-month", "worked-month-basic"),
                         [](const auto& which) {
                           return std::string{which.param} == "worked-month" ? "Whole" : "Basic";
                         });

}  // namespace
}  // namespace secondpull::db
