#include "tests/bench/big_shop.h"

#include <cstdlib>
#include <stdexcept>
#include <vector>

#include "db/exchange/exchange.h"

namespace secondpull::bench {

namespace {

constexpr int kDaysOfTrade = 700;  ///< the lines are spread over so many days, from the first day on

Date on_day(std::size_t number) {
  return plus_days(Date{std::chrono::year{2025}, std::chrono::January, std::chrono::day{1}},
                   static_cast<int>(number % kDaysOfTrade));
}

}  // namespace

Shop big_shop(std::size_t machines, std::size_t labour_lines) {
  Shop shop;
  shop.settings.name = "Big shop";
  std::int64_t next = 1;
  const auto numbered = [&next](auto record) {
    record.id = static_cast<decltype(record.id)>(next);
    record.entered = next++;
    return record;
  };
  std::vector<Acquisition> acquisitions;
  std::vector<Machine> rows;
  std::vector<Sale> sales;
  std::vector<Trip> trips;
  std::vector<Fitted> fitted;
  std::vector<Labour> labour;
  const Part plug = numbered(Part{.code = "plug", .name = "spark plug"});
  const Order order = numbered(
      Order{.code = "O1", .date = on_day(0), .arrived = on_day(0), .freight = Money::from_minor(1234)});
  const OrderLine line = numbered(OrderLine{.order = order.id,
                                            .part = plug.id,
                                            .quantity = static_cast<std::int64_t>(machines / 10 + 1),
                                            .price = Money::from_minor(349)});
  for (std::size_t i = 0; i < machines; ++i) {
    const Date came = on_day(i);
    acquisitions.push_back(
        numbered(Acquisition{.code = "A" + std::to_string(i + 1),
                             .date = came,
                             .source = Source::private_sale,
                             .price = Money::from_minor(static_cast<std::int64_t>(i % 9000))}));
    rows.push_back(numbered(Machine{.tag = std::to_string(i + 1),
                                    .acquisition = acquisitions.back().id,
                                    .kind = i % 3 == 0 ? MachineKind::self_propelled : MachineKind::push,
                                    .make = "Ostrel",
                                    .model = "Meadow " + std::to_string(18 + i % 6),
                                    .model_number = "OM-" + std::to_string(10000 + i),
                                    .symptom = "pulls over, does not start"}));
    const MachineId id = rows.back().id;
    if (i % 10 == 0) fitted.push_back(numbered(Fitted{.machine = id, .date = came, .part = plug.id}));
    if (i % 5 == 0)
      trips.push_back(numbered(Trip{
          .date = came, .miles = Tenths{123}, .purpose = "fetch", .acquisition = acquisitions.back().id}));
    if (i % 2 == 0)
      sales.push_back(numbered(Sale{.machine = id,
                                    .date = plus_days(came, 20),
                                    .price = Money::from_minor(12000 + static_cast<std::int64_t>(i % 5000)),
                                    .fee = Money::from_minor(275)}));
  }
  for (std::size_t i = 0; i < labour_lines; ++i) {
    const std::size_t which = i % machines;
    labour.push_back(numbered(Labour{.machine = rows[which].id,
                                     .date = plus_days(on_day(which), static_cast<int>(i % 20)),
                                     .minutes = Minutes{static_cast<std::int64_t>(5 + i % 90)},
                                     .work = Work::repair,
                                     .note = "line " + std::to_string(i)}));
  }
  shop.all<Acquisition>().assign(std::move(acquisitions));
  shop.all<Machine>().assign(std::move(rows));
  shop.all<Part>().insert(plug);
  shop.all<Order>().insert(order);
  shop.all<OrderLine>().insert(line);
  shop.all<Fitted>().assign(std::move(fitted));
  shop.all<Trip>().assign(std::move(trips));
  shop.all<Sale>().assign(std::move(sales));
  shop.all<Labour>().assign(std::move(labour));
  shop.next_id = next;
  return shop;
}

ScratchFolder::ScratchFolder() {
  std::string pattern = (std::filesystem::temp_directory_path() / "secondpull-bench-XXXXXX").string();
  if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no scratch folder could be made");
  path_ = pattern;
}

ScratchFolder::~ScratchFolder() {
  std::error_code ignored;  // a scratch folder left behind harms nobody
  std::filesystem::remove_all(path_, ignored);
}

void run_or_throw(const std::string& command) {
  if (std::system((command + " >/dev/null").c_str()) != 0) throw std::runtime_error("failed: " + command);
}

void make_shop_folder(const std::filesystem::path& shop, const Shop& content) {
  const std::filesystem::path exchange = shop.string() + "-exchange";
  if (const auto written = db::write_folder(content, exchange); !written)
    throw std::runtime_error(written.error().sentence);
  run_or_throw(SECONDPULL_BIN_DIR "/secondpull-cli import '" + exchange.string() + "' --shop '" +
               shop.string() + "'");
}

}  // namespace secondpull::bench
