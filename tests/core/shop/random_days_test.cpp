#include <gmock/gmock.h>
#include <rapidcheck.h>

#include "core/shop/bench.h"
#include "core/shop/finds.h"
#include "core/shop/intake.h"
#include "core/shop/knowledge_edits.h"
#include "core/shop/own_numbers.h"
#include "core/shop/selling.h"
#include "core/shop/shelf.h"
#include "core/shop/stage.h"
#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;

/// Any of the ids of a table, or one that is not there.
template <class Record>
decltype(Record::id) any_of(const Shop& shop) {
  const auto& table = shop.all<Record>();
  const auto at = *rc::gen::inRange<std::size_t>(0, table.size() + 1);
  return at == table.size() ? decltype(Record::id){}
                            : std::next(table.begin(), static_cast<std::ptrdiff_t>(at))->id;
}

Date any_day() {
  return plus_days(day("2026-02-20"), *rc::gen::inRange(0, 60));
}
Money any_amount() {
  return Money::from_minor(*rc::gen::inRange<std::int64_t>(-50, 30'000));
}
std::int64_t any_quantity() {
  return *rc::gen::inRange<std::int64_t>(0, 4);
}

/// One of the things a person may try, sensible or not.
Result<Change> anything(const Shop& shop) {
  const MachineId machine = any_of<Machine>(shop);
  const Date date = any_day();
  switch (*rc::gen::inRange(0, 26)) {
    case 0: {
      NewAcquisition found{.date = date, .price = any_amount(), .miles = Tenths{30}};
      found.machines.resize(*rc::gen::inRange<std::size_t>(1, 4));
      return log_acquisition(shop, found);
    }
    case 1:
      return open_fault(shop, machine, date, "smokes", "", "");
    case 2:
      return end_fault(shop, any_of<Fault>(shop), date, FaultEnd::mended, "");
    case 3:
      return record_finding(shop, {.machine = machine,
                                   .date = date,
                                   .step = "spark test",
                                   .outcome = "none",
                                   .labour = Minutes{5},
                                   .cost = any_amount()});
    case 4:
      return log_labour(shop, machine, date, Minutes{30}, Work::repair, "");
    case 5:
      return fit_part(shop, machine, date, any_of<Part>(shop), any_quantity(), {}, {});
    case 6:
      return fit_part(shop, machine, date, any_of<Part>(shop), any_quantity(), any_of<Order>(shop), {});
    case 7:
      return fit_found_part(shop, machine, date, {.new_name = "cord"}, any_quantity(), any_amount());
    case 8:
      return write_off_part(shop, date, any_of<Part>(shop), any_quantity());
    case 9:
      return set_stage(shop, machine,
                       *rc::gen::elementOf(std::vector<Stage>{Stage::waiting_on_parts, Stage::test_run,
                                                              Stage::on_the_bench, Stage::sold}));
    case 10:
      return list_machine(shop, machine, date, "", any_amount(), {});
    case 11:
      return sell(shop,
                  {.machine = machine, .date = date, .buyer = {.new_name = "Ruel"}, .price = any_amount()});
    case 12:
      return take_back(shop, machine, date, any_amount(), "");
    case 13:
      return dispose(shop, machine, date, *rc::gen::element(DisposalKind::scrapped, DisposalKind::kept),
                     any_amount());
    case 14:
      return part_out(shop, machine, date, {{.part = {.new_name = "chute"}, .quantity = any_quantity()}},
                      any_amount(), {}, {}, *rc::gen::arbitrary<bool>());
    case 15: {
      NewOrder order{.date = date, .arrived = any_day()};
      order.lines.push_back(
          {.part = {.new_name = "belt"}, .quantity = any_quantity(), .price = any_amount()});
      return place_order(shop, order);
    }
    case 16:
      return receive_order(shop, any_of<Order>(shop), date, any_amount(), {});
    case 17:
      return note_find(shop, {.date = date, .symptom = "smokes", .asking = any_amount()});
    case 18: {
      const Find* const find = shop.find(any_of<Find>(shop));
      if (find == nullptr) return problem("No find.");
      Find changed = *find;
      changed.date = date;
      changed.how = *rc::gen::element<std::optional<FindEnd>>(std::nullopt, FindEnd::gone, FindEnd::bought);
      if (*rc::gen::arbitrary<bool>()) changed.ended = any_day();
      return change_find(shop, changed);
    }
    case 19:
      return answer_find(shop, any_of<Find>(shop), date, "smokes", *rc::gen::element("", "blue", "white"));
    case 20:
      return pass_on_find(shop, any_of<Find>(shop), date,
                          *rc::gen::element(FindEnd::passed_on, FindEnd::bought), "");
    case 21:
      return buy_find(shop, any_of<Find>(shop), {.date = date, .price = any_amount()});
    case 22:
      return set_own_number(shop, machine, "revived.price", *rc::gen::arbitrary<double>());
    case 23:
      return clear_own_number(shop, machine, "revived.price");
    case 24:
      return *rc::gen::arbitrary<bool>() ? keep_entry(shop, "causes", "leak", *rc::gen::element("{}", "[]"))
                                         : drop_entry(shop, "causes", "leak");
    default: {
      const std::vector<AnyId> ids{machine,
                                   any_of<Find>(shop),
                                   any_of<FindAnswer>(shop),
                                   any_of<Sale>(shop),
                                   any_of<Return>(shop),
                                   any_of<Order>(shop),
                                   any_of<OrderLine>(shop),
                                   any_of<Disposal>(shop),
                                   any_of<Fitted>(shop),
                                   any_of<Listing>(shop)};
      return remove_line(shop, *rc::gen::elementOf(ids));
    }
  }
}

TEST(RandomDays, OfActionsBreakNoRuleAndEveryRefusalSaysWhy) {
  EXPECT_TRUE(rc::check("whatever is tried, the shop stays in order", [] {
    SmallShop s;
    for (int step = 0; step < 40; ++step) {
      const auto change = anything(s.shop);
      if (!change) {
        RC_ASSERT(!change.error().sentence.empty());
        continue;
      }
      RC_ASSERT(!change->title().empty());
      const auto after = apply(s.shop, *change);
      RC_ASSERT(after.has_value());
      RC_ASSERT(test::told(broken_rules(*after)) == "");
      s.shop = *after;
    }
  }));
}

}  // namespace
}  // namespace secondpull
