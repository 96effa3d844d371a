#pragma once

#include "core/learning/knowledge_base.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::test {

/// The small trade with a few looks before the sale, cautions, figures and a piece of known work.
inline learning::KnowledgeBase paper_base() {
  learning::KnowledgeBase base;
  base.knowledge = small_knowledge();
  base.knowledge.known_work = {
      {.id = "dull", .name = "Dull blade", .also = {"blade dull"}},
      {.id = "oil", .name = "Old oil", .also = {"black oil"}},
  };
  base.checks = {
      {.id = "stop", .name = "Blade stops within 3 s", .kinds = {MachineKind::push}, .must = true},
      {.id = "clean", .name = "Deck is clean"},
      {.id = "recall", .name = "Recall list checked", .must = true},
      {.id = "law", .name = "Permits and taxes seen to", .must = true},
  };
  base.texts["spark"].says = "Clip the tester to bare metal and pull.";
  base.cautions = {
      {.id = "shock",
       .name = "Ignition shock",
       .danger = "The lead gives a jolt.",
       .care = "Clip the tester on.",
       .steps = {"spark"}},
      {.id = "co",
       .name = "Carbon monoxide",
       .danger = "It kills.",
       .care = "Outdoors only.",
       .stops_the_way = true,
       .steps = {"spark", "prime"}},
  };
  base.measurements = {
      {.id = "gap",
       .name = "Tester gap",
       .unit = "in",
       .nominal = 0.166,
       .rule = "the jump counts",
       .tests = {"spark"}},
      {.id = "gap-tractor",
       .name = "Tester gap, tractors",
       .kinds = {MachineKind::lawn_tractor},
       .unit = "in",
       .nominal = 0.2,
       .tests = {"spark"}},
  };
  return base;
}

}  // namespace secondpull::test
