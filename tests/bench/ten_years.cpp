#include "tests/bench/ten_years.h"

#include <map>
#include <stdexcept>
#include <string>
#include <tuple>
#include <vector>

#include "db/rates/published_rates.h"

namespace secondpull::bench {

namespace {

using namespace std::chrono_literals;

constexpr int kFirstYear = 2016;
constexpr int kLastYear = 2025;
constexpr int kFirstRatedYear = 2018;  ///< trips before it have no published rate
constexpr std::size_t kDays = 3650;
constexpr std::size_t kMachinesToAPart = 100;
constexpr std::int64_t kOverheadAMinute = 3;  ///< cents

Money cents(std::size_t amount) {
  return Money::from_minor(static_cast<std::int64_t>(amount));
}

int year_of(Date date) {
  return static_cast<int>(date.year());
}

/// Gathers the rows of each table, numbered in order.
class Rows {
 public:
  template <class Record>
  auto add(Record record) {
    record.id = static_cast<decltype(record.id)>(next_);
    record.entered = next_++;
    auto& rows = std::get<std::vector<Record>>(rows_);
    rows.push_back(std::move(record));
    return rows.back().id;
  }
  void put_into(Shop& shop) && {
    std::apply([&](auto&... rows) { (put(shop, rows), ...); }, rows_);
    shop.next_id = next_;
  }

 private:
  template <class Record>
  static void put(Shop& shop, std::vector<Record>& rows) {
    shop.all<Record>().assign(std::move(rows));
  }

  std::int64_t next_ = 1;
  std::tuple<std::vector<Acquisition>, std::vector<Machine>, std::vector<Finding>, std::vector<Labour>,
             std::vector<Part>, std::vector<Order>, std::vector<OrderLine>, std::vector<Fitted>,
             std::vector<Material>, std::vector<Listing>, std::vector<Sale>, std::vector<Return>,
             std::vector<Allowance>, std::vector<TaxPaid>, std::vector<Disposal>, std::vector<Trip>,
             std::vector<Expense>>
      rows_;
};

class Trade {
 public:
  Shop of(std::size_t machines) {
    for (std::size_t i = 0; i < machines; ++i)
      deal(i, machines);
    for (int year = kFirstYear; year <= kLastYear; ++year)
      run(year);
    Shop shop;
    shop.settings.name = "Ten Years Garage";
    std::move(rows_).put_into(shop);
    return shop;
  }

 private:
  /// A part and its order for the next machines.
  void stock_up(std::size_t number, Date day) {
    part_ = rows_.add(Part{.code = "P" + std::to_string(number), .name = "carburettor kit"});
    const OrderId order = rows_.add(Order{.code = "O" + std::to_string(number),
                                          .date = day,
                                          .arrived = day,
                                          .freight = cents(kMachinesToAPart * 2 * (number % 50))});
    rows_.add(OrderLine{.order = order,
                        .part = part_,
                        .quantity = static_cast<std::int64_t>(kMachinesToAPart * 2),
                        .price = cents(500 + number % 1500)});
  }

  void deal(std::size_t i, std::size_t machines) {
    const Date came = plus_days(Date{2016y, std::chrono::January, std::chrono::day{1}},
                                static_cast<int>(i * kDays / machines));
    if (i % kMachinesToAPart == 0) stock_up(i / kMachinesToAPart, came);
    const AcquisitionId in = rows_.add(Acquisition{.code = "A" + std::to_string(i + 1),
                                                   .date = came,
                                                   .source = Source::private_sale,
                                                   .price = cents(i % 9000),
                                                   .pickup_cost = cents(i % 7 * 100)});
    const MachineId machine = rows_.add(Machine{.tag = std::to_string(i + 1),
                                                .acquisition = in,
                                                .kind = MachineKind::self_propelled,
                                                .make = "Ostrel",
                                                .model = "Meadow " + std::to_string(18 + i % 6),
                                                .model_number = "OM-" + std::to_string(10000 + i),
                                                .symptom = "pulls over, does not start"});
    repair(machine, came, i);
    rows_.add(Listing{.machine = machine,
                      .date = plus_days(came, 10),
                      .channel = "notice board",
                      .asking = cents(15000 + i % 5000)});
    if (year_of(came) >= kFirstRatedYear && i % 2 == 0)
      rows_.add(Trip{.date = came,
                     .miles = {static_cast<std::int64_t>(50 + i % 400)},
                     .purpose = "fetch",
                     .destination = "Quell",
                     .machine = machine});
    if (i % 10 != 0)
      sell(machine, came, i);
    else if (i % 50 == 0)
      rows_.add(Disposal{.machine = machine,
                         .date = plus_days(came, 25),
                         .how = DisposalKind::scrapped,
                         .proceeds = cents(i % 800)});
  }

  void repair(MachineId machine, Date came, std::size_t i) {
    constexpr std::array kKinds{Work::diagnose, Work::repair, Work::test_run, Work::list};
    for (std::size_t k = 0; k < kKinds.size(); ++k) {
      const Date day = plus_days(came, static_cast<int>(2 * k + i % 3));
      const auto minutes = static_cast<std::int64_t>(5 + (7 * i + 11 * k) % 60);
      rows_.add(Labour{.machine = machine, .date = day, .minutes = {minutes}, .work = kKinds[k]});
      minutes_[year_of(day)] += minutes;
    }
    rows_.add(Finding{.machine = machine,
                      .date = plus_days(came, 2),
                      .step = "spark test",
                      .outcome = "good",
                      .minutes = Minutes{5},
                      .cost = cents(i % 10 == 3 ? 1500 : 0)});
    rows_.add(Fitted{.machine = machine, .date = plus_days(came, 3), .part = part_, .quantity = 1});
    if (i % 5 == 0)
      rows_.add(Fitted{.machine = machine, .date = plus_days(came, 4), .part = part_, .quantity = 1});
    if (i % 2 == 1)
      rows_.add(Material{
          .machine = machine, .date = plus_days(came, 4), .what = "oil", .cost = cents(200 + i % 300)});
  }

  void sell(MachineId machine, Date came, std::size_t i) {
    const Date day = plus_days(came, 20 + static_cast<int>(i % 10));
    const Money price = cents(12000 + i % 5000);
    const bool in_county = i % 3 == 0;
    rows_.add(Sale{.machine = machine,
                   .date = day,
                   .price = price,
                   .sales_tax = in_county ? scale(price, 6, 100) : Money{},
                   .fee = scale(price, 25, 1000),
                   .delivery = cents(i % 8 == 1 ? 1500 : 0),
                   .payment = i % 2 == 0 ? "cash" : "card",
                   .place = in_county ? "Norrin County" : ""});
    if (i % 100 == 7) rows_.add(Return{.machine = machine, .date = plus_days(day, 5), .refunded = price});
    if (i % 100 == 9)
      rows_.add(Allowance{.machine = machine, .date = plus_days(day, 5), .amount = cents(500)});
  }

  /// Trips, expenses and taxes of the shop.
  void run(int year) {
    const Date first{std::chrono::year{year}, std::chrono::January, std::chrono::day{1}};
    Money spent;
    for (int week = 0; year >= kFirstRatedYear && week < 52; ++week) {
      const Trip trip{.date = plus_days(first, 7 * week),
                      .miles = {120 + week},
                      .purpose = "errand",
                      .destination = "Norrin"};
      const auto cost = db::published_mileage_rates().cost(trip);
      if (!cost) throw std::runtime_error(cost.error().sentence);
      spent += *cost;
      rows_.add(trip);
    }
    const auto spend = [&](Date day, const char* category, Money amount) {
      spent += amount;
      rows_.add(Expense{.date = day, .category = category, .amount = amount});
    };
    for (unsigned month = 1; month <= 12; ++month) {
      const Date day = first.year() / std::chrono::month{month} / 15;
      spend(day, "rent", cents(45000));
      spend(day, "insurance", cents(6100 + month));
      spend(day, "supplies", cents(3000 + 7 * month));
    }
    // What is left makes the year's overheads divide by its minutes.
    const Date last = first.year() / std::chrono::December / 31;
    spend(last, "utilities", Money::from_minor(kOverheadAMinute * minutes_[year]) - spent);
    rows_.add(TaxPaid{.date = last, .place = "Norrin County", .amount = cents(100000)});
  }

  Rows rows_;
  PartId part_{};
  std::map<int, std::int64_t> minutes_;
};

}  // namespace

Shop ten_years(std::size_t machines) {
  return Trade{}.of(machines);
}

}  // namespace secondpull::bench
