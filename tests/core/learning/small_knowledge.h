#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include "core/calendar/date.h"
#include "core/learning/knowledge.h"
#include "core/shop/shop.h"

namespace secondpull::test {

inline Date day(std::string_view text) {
  const auto date = parse_date(text, "date");
  if (!date) throw std::invalid_argument{date.error().sentence};
  return *date;
}
inline Money cents(std::int64_t count) {
  return Money::from_minor(count);
}

/// A trade of two symptoms, four causes, five tests and four repairs, its figures invented.
inline learning::Knowledge small_knowledge() {
  using namespace learning;
  const auto range = [](std::int64_t low, std::int64_t typical, std::int64_t high) {
    return MoneyRange{cents(low), cents(typical), cents(high)};
  };
  Knowledge k;
  k.symptoms = {
      {.id = "no-start",
       .name = "Pulls over, does not start",
       .also = {"won't pop"},
       .engine = Engine::turns,
       .causes = {{"jet", 60}, {"plug", 20}, {"key", 20}}},
      {.id = "surges", .name = "Surges", .engine = Engine::runs, .causes = {{"jet", 50}, {"leak", 50}}}};
  k.causes = {{"jet", "Main jet clogged", {"carb gummed"}},
              {"plug", "Plug fouled", {}},
              {"key", "Flywheel key sheared", {}},
              {"leak", "Intake leak", {}}};
  k.tests = {{.id = "prime",
              .name = "Prime at the intake",
              .symptoms = {"no-start"},
              .needs = Needs::turning_but_not_starting,
              .minutes = about(3),
              .cost = cents(10),
              .outcomes = {{"dies", "Runs, then dies", {}}, {"nothing", "Nothing", {}}},
              .likelihood = {{"jet", {0.9, 0.1}}, {"plug", {0, 1}}, {"key", {0, 1}}},
              .otherwise = {{0.5, 0.5}}},
             {.id = "spark",
              .name = "Spark tester",
              .symptoms = {"no-start"},
              .needs = Needs::turning,
              .minutes = about(4),
              .outcomes = {{"strong", "Strong", {}}, {"none", "None", {"no spark"}}},
              .likelihood = {{"plug", {0.25, 0.75}}},
              .otherwise = {{1, 0}}},
             {.id = "kill-off",
              .name = "Spark with the stop wire off",
              .symptoms = {"no-start"},
              .needs = Needs::turning,
              .after = {{"spark", {"none"}}},
              .minutes = about(10),
              .outcomes = {{"back", "Comes back", {}}, {"still-none", "Still none", {}}},
              .likelihood = {{"plug", {0.1, 0.9}}}},
             {.id = "mist",
              .name = "Mist the intake joints",
              .needs = Needs::running,
              .minutes = about(5),
              .outcomes = {{"changes", "Changes", {}}, {"same", "No change", {}}},
              .likelihood = {{"leak", {0.9, 0.1}}},
              .otherwise = {{0.1, 0.9}}},
             {.id = "tyres",
              .name = "Look at the tyres",
              .minutes = about(1),
              .outcomes = {{"flat", "Flat", {}}, {"round", "Round", {}}}}};
  k.repairs = {{.id = "clean",
                .name = "Carburettor cleaned",
                .minutes = {40, 60, 120},
                .parts = range(300, 900, 1500),
                .cures = {{"jet", {12, 4}}}},
               {.id = "new-plug",
                .name = "New plug",
                .minutes = {4, 5, 8},
                .parts = range(250, 400, 800),
                .days = 2,
                .cures = {{"plug", {18, 2}}}},
               {.id = "new-key",
                .name = "New key",
                .minutes = {25, 40, 70},
                .parts = range(100, 300, 800),
                .cures = {{"key", {19, 1}}}},
               {.id = "blade",
                .name = "Blade sharpened",
                .minutes = {10, 15, 20},
                .parts = range(0, 0, 0),
                .cures = {}}};
  k.parts_to_pull = {{.id = "engine",
                      .name = "Engine",
                      .kinds = {MachineKind::push},
                      .price = range(4'000, 6'000, 9'000),
                      .chance = 0.5,
                      .minutes = {40, 60, 100},
                      .spoiled_by = {"key"}},
                     {.id = "carburettor",
                      .name = "Carburettor",
                      .price = range(800, 1'000, 2'000),
                      .chance = 0.5,
                      .minutes = {20, 30, 45},
                      .spoiled_by = {"jet"},
                      .goes_with = "engine"},
                     {.id = "seat",
                      .name = "Seat",
                      .kinds = {MachineKind::lawn_tractor},
                      .price = range(2'000, 3'500, 5'000),
                      .chance = 0.5,
                      .minutes = {15, 25, 40}}};
  k.kinds = {{.kind = MachineKind::push,
              .running_price = range(5'000, 10'000, 20'000),
              .as_is_price = range(500, 1'000, 2'000),
              .minutes_to_sell = {20, 60, 90},
              .weight = {55, 65, 85}}};
  k.scrap_per_pound = range(5, 8, 12);
  k.comes_back = {2, 18};
  k.minutes_of_comeback = {30, 60, 120};
  return k;
}

/// A shop to which records are added one by one.
struct BareShop {
  Shop shop;
  AcquisitionId curb = add(Acquisition{.code = "A1", .date = day("2026-03-01")});

  template <class Record>
  decltype(Record::id) add(Record record) {
    record.id = static_cast<decltype(record.id)>(shop.next_id++);
    record.entered = number(record.id);
    shop.all<Record>().insert(record);
    return record.id;
  }
  MachineId machine(MachineKind kind = MachineKind::push) {
    return add(Machine{.tag = std::to_string(shop.next_id), .acquisition = curb, .kind = kind});
  }
  /// A fault of 2 March; `ended` empty: open.
  FaultId fault(MachineId machine, std::string symptom, std::string cause = "", std::string_view ended = "",
                std::optional<FaultEnd> how = FaultEnd::mended) {
    Fault record{.machine = machine,
                 .date = day("2026-03-02"),
                 .symptom = std::move(symptom),
                 .cause = std::move(cause)};
    if (!ended.empty()) {
      record.ended = day(ended);
      record.how = how;
    }
    return add(record);
  }
  FindingId finding(MachineId machine, std::string_view date, std::string step, std::string outcome,
                    std::optional<FaultId> fault = {}, std::optional<Minutes> minutes = {}) {
    return add(Finding{.machine = machine,
                       .date = day(date),
                       .step = std::move(step),
                       .outcome = std::move(outcome),
                       .fault = fault,
                       .minutes = minutes});
  }
};

}  // namespace secondpull::test
