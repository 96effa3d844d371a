#include "core/shop/bench.h"

#include <fmt/format.h>

#include "core/shop/checks.h"
#include "core/shop/codes.h"
#include "core/shop/describe.h"
#include "core/shop/stage.h"
#include "core/typed_words.h"

namespace secondpull {
namespace {

Result<Change> use_part(const Shop& shop, const Fitted& use, std::string_view verb) {
  Objection objection = first_of({check_quantity(use.quantity), check_day(use.date, "date")});
  if (!objection && use.machine) objection = check_machine(shop, *use.machine, use.date);
  const Part* const part = shop.find(use.part);
  if (!objection && part == nullptr)
    objection = Problem{"That part is not in the shop's records any more: choose another one.", "part", ""};
  if (!objection && use.from_order && use.from_donor)
    objection = Problem{"A part comes from an order or from a donor, not from both: name one.", "from", ""};
  if (!objection && use.from_order && shop.find(*use.from_order) == nullptr)
    objection = Problem{"That order is not in the shop's records any more: choose another one.", "from", ""};
  if (!objection && use.from_donor && shop.find(*use.from_donor) == nullptr)
    objection = Problem{"That donor is not in the shop's records any more: choose another one.", "from", ""};
  if (objection) return tl::unexpected(*objection);
  Change change{shop, fmt::format("{} {} x {}{}", verb, use.quantity, part->name,
                                  use.machine ? " to " + called(shop, *use.machine) : "")};
  change.add(use);
  if (const Objection lacking = check_stock(shop, change, use.part)) return tl::unexpected(*lacking);
  return change;
}

}  // namespace

Result<Change> open_fault(const Shop& shop, MachineId machine, Date date, const std::string& symptom,
                          const std::string& cause, const std::string& note) {
  if (const Objection objection =
          first_of({check_machine(shop, machine, date), check_said(symptom, "symptom")}))
    return tl::unexpected(*objection);
  Change change{shop, fmt::format("New fault on {}: {}", called(shop, machine), trimmed(symptom))};
  change.add(Fault{.code = next_fault_code(shop),
                   .machine = machine,
                   .date = date,
                   .symptom = std::string{trimmed(symptom)},
                   .cause = cause,
                   .note = note});
  return change;
}

Result<Change> end_fault(const Shop& shop, FaultId id, Date date, FaultEnd how, const std::string& cause) {
  const Fault* const fault = shop.find(id);
  if (fault == nullptr) return problem("That fault is not in the shop's records any more.", "fault");
  if (fault->ended)
    return problem(fmt::format("The fault \"{}\" ended on {} already.", fault->symptom, shown(*fault->ended)),
                   "ended", iso(date));
  if (const Objection objection = check_day(date, "ended")) return tl::unexpected(*objection);
  if (date < fault->date)
    return problem(fmt::format("The fault \"{}\" was opened on {}: it cannot have ended on {}.",
                               fault->symptom, shown(fault->date), shown(date)),
                   "ended", iso(date));
  Change change{shop,
                fmt::format("Fault on {} {}: {}", called(shop, fault->machine), word(how), fault->symptom)};
  Fault ended = *fault;
  ended.ended = date;
  ended.how = how;
  if (!trimmed(cause).empty()) ended.cause = cause;
  change.replace(ended);
  return change;
}

Result<Change> record_finding(const Shop& shop, const NewFinding& finding) {
  Objection objection =
      first_of({check_machine(shop, finding.machine, finding.date), check_said(finding.step, "step"),
                check_said(finding.outcome, "outcome"), check_amount(finding.cost, shop, "cost")});
  if (!objection && finding.minutes) objection = check_minutes(*finding.minutes, "minutes");
  if (!objection && finding.labour) objection = check_minutes(*finding.labour, "minutes");
  if (objection) return tl::unexpected(*objection);
  if (finding.fault) {
    const Fault* const fault = shop.find(*finding.fault);
    if (fault == nullptr || fault->machine != finding.machine)
      return problem(
          fmt::format("That fault is none of {}: choose one of its own.", called(shop, finding.machine)),
          "fault", fault != nullptr ? fault->code : "");
  }
  Change change{shop, fmt::format("Found on {}: {}, {}", called(shop, finding.machine), trimmed(finding.step),
                                  trimmed(finding.outcome))};
  change.add(Finding{.machine = finding.machine,
                     .date = finding.date,
                     .step = std::string{trimmed(finding.step)},
                     .outcome = std::string{trimmed(finding.outcome)},
                     .fault = finding.fault,
                     .minutes = finding.minutes,
                     .cost = finding.cost,
                     .reading = finding.reading,
                     .unit = finding.unit,
                     .note = finding.note});
  if (finding.labour && finding.labour->count > 0)
    change.add(Labour{
        .machine = finding.machine, .date = finding.date, .minutes = *finding.labour, .work = finding.work});
  return change;
}

Result<Change> log_labour(const Shop& shop, std::optional<MachineId> machine, Date date, Minutes minutes,
                          Work work, const std::string& note) {
  Objection objection = first_of({check_day(date, "date"), check_minutes(minutes, "minutes")});
  if (!objection && machine) objection = check_machine(shop, *machine, date);
  if (!objection && minutes.count == 0)
    objection = Problem{"No minutes were given: say how long it took.", "minutes", "0"};
  if (objection) return tl::unexpected(*objection);
  const Labour labour{.machine = machine, .date = date, .minutes = minutes, .work = work, .note = note};
  Change change{shop, "Logged " + described(shop, AnyRecord{labour})};
  change.add(labour);
  return change;
}

Result<Change> fit_part(const Shop& shop, MachineId machine, Date date, PartId part, std::int64_t quantity,
                        std::optional<OrderId> from_order, std::optional<MachineId> from_donor) {
  return use_part(shop,
                  Fitted{.machine = machine,
                         .date = date,
                         .part = part,
                         .quantity = quantity,
                         .from_order = from_order,
                         .from_donor = from_donor},
                  "Fitted");
}

Result<Change> fit_found_part(const Shop& shop, MachineId machine, Date date, const PartChoice& part,
                              std::int64_t quantity, Money cost_each) {
  if (const Objection objection = first_of({check_machine(shop, machine, date), check_quantity(quantity),
                                            check_amount(cost_each, shop, "price")}))
    return tl::unexpected(*objection);
  Change change{shop, ""};
  PartChooser parts{shop, change};
  const auto id = parts.choose(part);
  if (!id) return tl::unexpected(id.error());
  change.set_title(
      fmt::format("Found and fitted {} x {} to {}", quantity, parts.name(*id), called(shop, machine)));
  const OrderId order = change.add(Order{.code = next_order_code(shop), .date = date, .arrived = date});
  change.add(OrderLine{
      .order = order, .part = *id, .quantity = quantity, .price = cost_each, .for_machine = machine});
  change.add(
      Fitted{.machine = machine, .date = date, .part = *id, .quantity = quantity, .from_order = order});
  return change;
}

Result<Change> write_off_part(const Shop& shop, Date date, PartId part, std::int64_t quantity) {
  return use_part(shop, Fitted{.date = date, .part = part, .quantity = quantity}, "Wrote off");
}

Result<Change> add_material(const Shop& shop, MachineId machine, Date date, const std::string& what,
                            Money cost) {
  if (const Objection objection = first_of(
          {check_machine(shop, machine, date), check_said(what, "what"), check_amount(cost, shop, "cost")}))
    return tl::unexpected(*objection);
  const Material material{.machine = machine, .date = date, .what = std::string{trimmed(what)}, .cost = cost};
  Change change{shop, "Used " + described(shop, AnyRecord{material})};
  change.add(material);
  return change;
}

Result<Change> set_stage(const Shop& shop, MachineId id, std::optional<Stage> stage) {
  const Machine* const machine = shop.find(id);
  if (machine == nullptr) return problem("That machine is not in the shop's records any more.", "stage");
  if (stage == Stage::in_the_yard) stage.reset();
  if (stage && *stage != Stage::on_the_bench && *stage != Stage::waiting_on_parts &&
      *stage != Stage::test_run)
    return problem(fmt::format("\"{}\" follows from what happened: list, sell or part out {} instead.",
                               word(*stage), called(*machine)),
                   "stage", std::string{word(*stage)});
  const Stage now = stage_of(lines_of(shop, id));
  if (!is_here(now))
    return problem(fmt::format("{} is not here: it is {}.", called(*machine), word(now)), "stage",
                   std::string{stage ? word(*stage) : ""});
  if (now == Stage::for_sale && stage)
    return problem(fmt::format("{} is for sale: end its listing first.", called(*machine)), "stage",
                   std::string{word(*stage)});
  Change change{shop, stage ? fmt::format("{}: {}", called(*machine), word(*stage))
                            : fmt::format("{}: back to the yard", called(*machine))};
  if (machine->stage != stage) {
    Machine moved = *machine;
    moved.stage = stage;
    change.replace(moved);
  }
  return change;
}

Result<Change> add_photo(const Shop& shop, const Photo& photo) {
  Objection objection = check_said(photo.sha256, "photo");
  if (!objection && photo.machine && shop.find(*photo.machine) == nullptr)
    objection =
        Problem{"That machine is not in the shop's records any more: choose another one.", "machine", ""};
  if (!objection && photo.order && shop.find(*photo.order) == nullptr)
    objection = Problem{"That order is not in the shop's records any more: choose another one.", "order", ""};
  if (!objection && photo.expense && shop.find(*photo.expense) == nullptr)
    objection =
        Problem{"That expense is not in the shop's records any more: choose another one.", "expense", ""};
  if (objection) return tl::unexpected(*objection);
  Change change{shop, photo.machine ? fmt::format("Added a photo of {}", called(shop, *photo.machine))
                                    : "Added a photo"};
  change.add(photo);
  return change;
}

}  // namespace secondpull
