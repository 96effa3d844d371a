#pragma once

#include "core/diagnosis/case.h"

namespace secondpull::test {

/// A case with every field in use and nothing wrong; tests break one thing in it.
inline diagnosis::Case sound_case() {
  diagnosis::Case sound;
  sound.hour_value = 20;
  sound.day_cost = 0.5;
  sound.causes = {{"leak", 3}, {"spark", 1}, {"unlisted", 0.5}};
  sound.tests = {
      {.id = "look",
       .cost = 1,
       .minutes = 5,
       .days = 0,
       .group = "fuel",
       .outcomes = {"wet", "dry"},
       .likelihood = {{"leak", {0.9, 0.1}}, {"spark", {0.2, 0.8}}},
       .otherwise = std::vector<double>{0.5, 0.5}},
      {.id = "bowl",
       .minutes = 10,
       .group = "fuel",
       .outcomes = {"full", "empty"},
       .likelihood = {{"leak", {1, 0}}}},
      {.id = "tester", .minutes = 3, .outcomes = {"spark", "none"}, .likelihood = {{"spark", {0, 1}}}}};
  sound.repairs = {{.id = "seat", .cost = 5, .minutes = 30, .days = 2, .tries = 2, .cures = {{"leak", 0.3}}},
                   {.id = "coil", .cost = 20, .minutes = 40, .cures = {{"spark", 1}}}};
  sound.revived = {.price = 100,
                   .spread = 0.25,
                   .fee_rate = 0.1,
                   .fee_fixed = 2,
                   .hours = 1,
                   .days = 14,
                   .comeback_chance = 0.05,
                   .comeback_cost = 30,
                   .known_work = {{.cost = 8, .minutes = 15}}};
  sound.stops = {{.id = "as-is", .value = 20, .hours = 0.5, .days = 3, .value_by_cause = {{"leak", 25}}},
                 {.id = "scrap", .value = -3}};
  sound.evidence = {diagnosis::TestShowed{"look", "wet"}, diagnosis::RepairFailed{"seat"}};
  sound.sunk = {.cash = 12, .hours = 0.5};
  return sound;
}

}  // namespace secondpull::test
