#include "app/print/machine_papers.h"

#include <QCoreApplication>

#include "app/frame/session.h"
#include "app/planning/planning.h"
#include "app/print/bench_sheet_paper.h"
#include "app/print/tag_paper.h"
#include "core/learning/knowledge_base.h"
#include "core/planning/bench_moment.h"

namespace secondpull::app {
namespace {

QString say(const char* text) {
  return QCoreApplication::translate("Paper", text);
}

/// The machine's records as they are now, whatever the books make of them.
ByMachine::Lines linesOf(const Session& session, MachineId machine) {
  return lines_of(*session.shop(), machine);
}

}  // namespace

paper::BenchSheet benchSheetOf(Session& session, MachineId machine) {
  const auto shop = session.shop();
  const auto base = session.knowledge();
  const ByMachine::Lines lines = lines_of(*shop, machine);
  const auto moment = planning::bench_moment(lines, base->knowledge);
  if (moment.what == planning::BenchMoment::What::step) {
    const MachinePlan plan = session.planning().now(machine);
    if (plan.asked != nullptr && plan.answer != nullptr)
      return paper::bench_sheet(*shop, lines, *base, *plan.asked, *plan.answer, session.today());
  }
  return paper::blank_sheet(lines, session.today());
}

std::vector<PaperChoice> machinePapers(Session& session, std::function<std::optional<MachineId>()> machine) {
  const auto about = [machine = std::move(machine)](auto make) {
    return [machine, make]() -> std::optional<Sheet> {
      const std::optional<MachineId> id = machine();
      return id ? std::optional<Sheet>{make(*id)} : std::nullopt;
    };
  };
  return {{.name = QStringLiteral("tag"),
           .print = say("print the tag"),
           .pdf = say("tag as PDF"),
           .make = about([&session](MachineId id) {
             return tagSheet({paper::tag_of(linesOf(session, id))},
                             QStringLiteral("tag-%1").arg(session.tagOf(id)));
           })},
          {.name = QStringLiteral("label"),
           .print = say("print the tag as a label"),
           .pdf = say("label as PDF"),
           .make = about([&session](MachineId id) { return tagLabel(paper::tag_of(linesOf(session, id))); })},
          {.name = QStringLiteral("benchSheet"),
           .print = say("print the bench sheet"),
           .pdf = say("bench sheet as PDF"),
           .make = about([&session](MachineId id) { return benchSheet(benchSheetOf(session, id)); })}};
}

PaperChoice tagsOfAllHere(Session& session) {
  return {.name = QStringLiteral("allTags"),
          .print = say("print the tags of all that are here"),
          .pdf = say("all tags as PDF"),
          .make = [&session]() -> std::optional<Sheet> {
            const auto shop = session.shop();
            const ByMachine by_machine{*shop};
            std::vector<paper::Tag> tags;
            for (const Machine& machine : shop->all<Machine>())
              if (is_here(stage_of(by_machine.of(machine.id))))
                tags.push_back(paper::tag_of(by_machine.of(machine.id)));
            if (tags.empty()) return std::nullopt;
            return tagSheet(tags, QStringLiteral("tags"));
          }};
}

}  // namespace secondpull::app
