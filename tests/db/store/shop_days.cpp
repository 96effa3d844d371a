#include "tests/db/store/shop_days.h"

#include <array>
#include <functional>

#include "core/shop/bench.h"
#include "core/shop/finds.h"
#include "core/shop/intake.h"
#include "core/shop/knowledge_edits.h"
#include "core/shop/offers.h"
#include "core/shop/own_numbers.h"
#include "core/shop/selling.h"
#include "core/shop/shelf.h"
#include "db/files.h"

namespace secondpull::db::testing {

namespace {

constexpr std::array words{"seized piston", "sheared key",   "größer",    "50% \"off\"", "O'Marl & son",
                           "gasket 0.5 mm", "dirty, but it", "line\none", "火花塞",      "x"};

/// One day's owner: draws records and figures.
class Owner {
 public:
  Owner(const Shop& shop, Date today, std::mt19937& random) : shop_{shop}, today_{today}, random_{random} {}

  std::int64_t number(std::int64_t least, std::int64_t most) {
    return std::uniform_int_distribution<std::int64_t>{least, most}(random_);
  }
  bool toss() { return number(0, 1) == 1; }
  Money amount() { return Money::from_minor(number(0, 40'000)); }
  std::string text() { return words.at(static_cast<std::size_t>(number(0, std::ssize(words) - 1))); }
  template <class Record>
  decltype(Record::id) any() {
    const auto& table = shop_.all<Record>();
    if (table.empty()) return {};
    return table.begin()[number(0, static_cast<std::int64_t>(table.size()) - 1)].id;
  }
  PartChoice part() {
    if (toss() && !shop_.all<Part>().empty()) return {.known = any<Part>()};
    return {.new_name = "spark plug " + std::to_string(number(1, 9)), .new_number = text()};
  }
  PersonChoice person() {
    if (toss() && !shop_.all<Person>().empty()) return {.known = any<Person>()};
    return toss() ? PersonChoice{.new_name = "Ruel Ashby"} : PersonChoice{};
  }

  Result<Change> take_in() {
    NewAcquisition acquisition{
        .date = today_, .source = Source::auction, .from = person(), .price = amount()};
    acquisition.pickup_cost = amount();
    acquisition.note = text();
    if (toss()) acquisition.miles = Tenths{number(1, 900)};
    if (toss()) acquisition.minutes = Minutes{number(1, 90)};
    for (std::int64_t i = number(1, 3); i > 0; --i)
      acquisition.machines.push_back({.kind = MachineKind::zero_turn, .make = "Tarnwick", .symptom = text()});
    return log_acquisition(shop_, acquisition);
  }
  Result<Change> find() {
    NewFinding finding{.machine = any<Machine>(), .date = today_, .step = text(), .outcome = text()};
    if (toss()) finding.labour = Minutes{number(1, 90)};
    finding.cost = amount();
    return record_finding(shop_, finding);
  }
  Result<Change> order() {
    NewOrder order{.date = today_, .supplier = person(), .freight = amount(), .tax = amount()};
    if (toss()) order.arrived = today_;
    for (std::int64_t i = number(1, 3); i > 0; --i)
      order.lines.push_back({.part = part(), .quantity = number(1, 4), .price = amount()});
    return place_order(shop_, order);
  }
  Result<Change> part_out_one() {
    std::vector<HarvestLine> lines;
    for (std::int64_t i = number(1, 3); i > 0; --i)
      lines.push_back({.part = part(), .quantity = number(1, 2), .value = amount()});
    return part_out(shop_, any<Machine>(), today_, lines, std::nullopt, Money{}, std::nullopt, toss());
  }
  Result<Change> sell_one() {
    NewSale sale{
        .machine = any<Machine>(), .date = today_, .buyer = person(), .price = amount(), .fee = amount()};
    if (toss()) sale.labour = Minutes{number(1, 90)};
    return sell(shop_, sale);
  }
  Result<Change> rename() {
    const Machine* machine = shop_.find(any<Machine>());
    if (machine == nullptr) return problem("No machine yet.");
    Machine changed = *machine;
    changed.model = text();
    changed.note = text();
    return edit_machine(shop_, changed);
  }
  Result<Change> photograph() {
    const std::string content = text();
    Photo photo;
    photo.sha256 = sha256(std::as_bytes(std::span{content}));
    photo.name = text();
    photo.machine = any<Machine>();
    return add_photo(shop_, photo);
  }
  Result<Change> drive() {
    Trip trip;
    trip.date = today_;
    trip.miles = Tenths{number(1, 500)};
    trip.purpose = text();
    return add_trip(shop_, trip);
  }
  Result<Change> scout() {
    switch (number(0, 4)) {
      case 0:
        return answer_find(shop_, any<Find>(), today_, text(), text());
      case 1:
        return buy_find(shop_, any<Find>(), {.date = today_, .from = person(), .price = amount()});
      case 2:
        return toss() ? pass_on_find(shop_, any<Find>(), today_, FindEnd::passed_on, text())
                      : remove_line(shop_, any<Find>());
      default:
        return note_find(shop_, {.date = today_, .symptom = text(), .asking = amount(), .place = text()});
    }
  }
  Result<Change> know_better() {
    if (toss())
      return toss() ? keep_entry(shop_, "causes", "leak", text()) : drop_entry(shop_, "causes", "leak");
    if (toss()) return clear_own_number(shop_, any<Machine>(), "revived.price");
    const double value = std::uniform_real_distribution<double>{-300, 300}(random_);
    return set_own_number(shop_, any<Machine>(), "revived.price", value);
  }
  Result<Change> act() {
    switch (number(0, 25)) {
      case 0:
      case 1:
      case 2:
        return take_in();
      case 3:
        return open_fault(shop_, any<Machine>(), today_, text(), text(), text());
      case 4:
        return end_fault(shop_, any<Fault>(), today_, FaultEnd::mended, text());
      case 5:
        return find();
      case 6:
        return log_labour(shop_, any<Machine>(), today_, Minutes{number(1, 90)}, Work::repair, text());
      case 7:
        return order();
      case 8:
        return receive_order(shop_, any<Order>(), today_, amount(), amount());
      case 9:
        return fit_part(shop_, any<Machine>(), today_, any<Part>(), 1, std::nullopt, std::nullopt);
      case 10:
        return fit_found_part(shop_, any<Machine>(), today_, part(), number(1, 3), amount());
      case 11:
        return add_material(shop_, any<Machine>(), today_, text(), amount());
      case 12:
        return list_machine(shop_, any<Machine>(), today_, text(), amount(), SoldAs::running);
      case 13:
        return sell_one();
      case 14:
        return take_back(shop_, any<Machine>(), today_, Money{}, text());
      case 15:
        return dispose(shop_, any<Machine>(), today_, DisposalKind::scrapped, amount());
      case 16:
        return part_out_one();
      case 17:
        return add_expense(shop_, today_, "supplies", amount(), text());
      case 18:
        return drive();
      case 19:
        return rename();
      case 20:
        return toss() ? remove_machine(shop_, any<Machine>()) : remove_line(shop_, any<Labour>());
      case 21:
        return photograph();
      case 22:
        return know_better();
      default:
        return scout();
    }
  }

 private:
  const Shop& shop_;
  Date today_;
  std::mt19937& random_;
};

}  // namespace

std::span<const char* const> phrases() {
  return words;
}

Result<Change> random_action(const Shop& shop, Date today, std::mt19937& random) {
  return Owner{shop, today, random}.act();
}

}  // namespace secondpull::db::testing
