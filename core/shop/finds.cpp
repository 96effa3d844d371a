#include "core/shop/finds.h"

#include <algorithm>
#include <string_view>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "core/shop/checks.h"
#include "core/shop/codes.h"
#include "core/shop/describe.h"
#include "core/shop/fields_changed.h"
#include "core/typed_words.h"

namespace secondpull {
namespace {

constexpr const char* kNotThere = "That find is not in the shop's records any more: choose another one.";

/// The cells of a find, noted or changed.
template <class AFind>
Objection check_find(const Shop& shop, const AFind& find) {
  Objection objection = first_of({check_day(find.date, "date"), check_amount(find.asking, shop, "asking"),
                                  check_amount(find.pickup_cost, shop, "pickup_cost")});
  if (!objection && find.year) objection = check_year(*find.year);
  if (!objection && find.miles) objection = check_miles(*find.miles);
  if (!objection && find.minutes) objection = check_minutes(*find.minutes, "minutes");
  return objection;
}

Objection check_not_bought(const Find& find) {
  if (find.how != FindEnd::bought) return std::nullopt;
  return Problem{fmt::format("{} was bought on {} already.", called(find), shown(*find.ended)), "find", ""};
}

/// `then` is a day of the calendar, and not before the find was seen.
Objection check_not_before_seen(const Find& find, Date then, std::string_view field) {
  if (const Objection objection = check_day(then, field)) return objection;
  if (then >= find.date) return std::nullopt;
  return Problem{fmt::format("{} was seen on {}: nothing can have come of it on {}.", called(find),
                             shown(find.date), shown(then)),
                 std::string{field}, iso(then)};
}

/// What came of a find that was not bought, as an edit of it has it.
Objection check_end(const Find& after) {
  if (after.how == FindEnd::bought)
    return Problem{
        fmt::format("Buy {} to say that it was bought: then its machine is logged.", called(after)), "how",
        std::string{word(*after.how)}};
  if (after.how.has_value() != after.ended.has_value())
    return Problem{fmt::format("Say both when and how {} ended, or neither.", called(after)),
                   after.how ? "ended" : "how", ""};
  return after.ended ? check_not_before_seen(after, *after.ended, "ended") : std::nullopt;
}

const FindAnswer* answer_to(const Shop& shop, FindId find, std::string_view test) {
  const auto& answers = shop.all<FindAnswer>();
  const auto at = std::find_if(answers.begin(), answers.end(), [&](const FindAnswer& answer) {
    return answer.find == find && answer.test == test;
  });
  return at != answers.end() ? &*at : nullptr;
}

std::string joined(const std::string& note, std::string_view more) {
  const std::string_view added = trimmed(more);
  if (note.empty() || added.empty()) return note + std::string{added};
  return fmt::format("{}; {}", note, added);
}

/// The machine that the change logs.
const Machine& machine_in(const Change& logged) {
  const auto at = std::find_if(logged.edits().begin(), logged.edits().end(),
                               [](const Edit& edit) { return std::holds_alternative<Machine>(edit.record); });
  return std::get<Machine>(at->record);
}

NewAcquisition acquisition_of(const Find& find, const BuyFind& bought) {
  return {.date = bought.date,
          .source = bought.source,
          .from = bought.from,
          .price = bought.price,
          .pickup_cost = bought.pickup_cost,
          .giver_basis = bought.giver_basis,
          .miles = bought.miles,
          .destination = find.place,
          .minutes = bought.minutes,
          .note = bought.note,
          .machines = {{.tag = bought.tag,
                        .kind = find.kind,
                        .make = find.make,
                        .model = find.model,
                        .year = find.year,
                        .symptom = find.symptom,
                        .note = find.note}}};
}

/// The fault that the find showed, if it is known what, and what its seller said as findings about it.
void tell_of_fault(const Shop& shop, Change& change, const Find& find, MachineId machine, Date date) {
  std::optional<FaultId> fault;
  if (!trimmed(find.symptom).empty())
    fault = change.add(Fault{.code = next_fault_code(shop),
                             .machine = machine,
                             .date = date,
                             .symptom = std::string{trimmed(find.symptom)}});
  for (const FindAnswer& answer : shop.all<FindAnswer>())
    if (answer.find == find.id)
      change.add(Finding{.machine = machine,
                         .date = date,
                         .step = answer.test,
                         .outcome = answer.outcome,
                         .fault = fault,
                         .note = "said by the seller"});
}

}  // namespace

Result<Change> note_find(const Shop& shop, const NewFind& find) {
  if (const Objection objection = check_find(shop, find)) return tl::unexpected(*objection);
  const Find noted{.date = find.date,
                   .kind = find.kind,
                   .make = std::string{trimmed(find.make)},
                   .model = std::string{trimmed(find.model)},
                   .year = find.year,
                   .symptom = std::string{trimmed(find.symptom)},
                   .asking = find.asking,
                   .miles = find.miles,
                   .minutes = find.minutes,
                   .pickup_cost = find.pickup_cost,
                   .place = find.place,
                   .note = find.note};
  Change change{shop, noted.asking.is_zero()
                          ? fmt::format("Noted {}, free", called(noted))
                          : fmt::format("Noted {}, asking {}", called(noted),
                                        shown_short(noted.asking, shop.settings.currency))};
  const FindId id = change.add(noted);
  for (const SellerSaid& line : find.said) {
    if (const Objection objection =
            first_of({check_said(line.test, "test"), check_said(line.outcome, "outcome")}))
      return tl::unexpected(*objection);
    change.add(FindAnswer{.find = id,
                          .date = find.date,
                          .test = std::string{trimmed(line.test)},
                          .outcome = std::string{trimmed(line.outcome)}});
  }
  return change;
}

Result<Change> change_find(const Shop& shop, const Find& changed) {
  const Find* const before = shop.find(changed.id);
  if (before == nullptr) return problem(kNotThere, "find");
  Find after = changed;
  after.entered = before->entered;
  after.machine = before->machine;
  const bool bought = before->how == FindEnd::bought;
  if (bought) {
    after.how = before->how;
    after.ended = before->ended;
  }
  Objection objection = check_find(shop, after);
  if (!objection) objection = bought ? check_not_before_seen(after, *after.ended, "date") : check_end(after);
  if (objection) return tl::unexpected(*objection);

  FieldsChanged fields;
  fields.compare(before->date, after.date, "date");
  fields.compare(before->kind, after.kind, "kind");
  fields.compare(before->make, after.make, "make");
  fields.compare(before->model, after.model, "model");
  fields.compare(before->year, after.year, "year");
  fields.compare(before->symptom, after.symptom, "symptom");
  fields.compare(before->asking, after.asking, "asking price");
  fields.compare(before->miles, after.miles, "miles");
  fields.compare(before->minutes, after.minutes, "minutes");
  fields.compare(before->pickup_cost, after.pickup_cost, "pickup cost");
  fields.compare(before->place, after.place, "place");
  fields.compare(before->ended, after.ended, "end");
  fields.compare(before->how, after.how, "how it ended");
  fields.compare(before->note, after.note, "note");
  Change change{shop, fields.title("the find " + called(*before))};
  if (!fields.empty()) change.replace(after);
  return change;
}

Result<Change> answer_find(const Shop& shop, FindId id, Date date, const std::string& test,
                           const std::string& outcome) {
  const Find* const find = shop.find(id);
  if (find == nullptr) return problem(kNotThere, "find");
  if (const Objection objection =
          first_of({check_not_bought(*find), check_day(date, "date"), check_said(test, "test")}))
    return tl::unexpected(*objection);
  const std::string asked{trimmed(test)};
  const std::string said{trimmed(outcome)};
  const FindAnswer* const before = answer_to(shop, id, asked);
  if (said.empty()) {
    Change change{shop, fmt::format("Took back what was said of {}: {}", called(*find), asked)};
    if (before != nullptr) change.remove(*before);
    return change;
  }
  Change change{shop, fmt::format("Said of {}: {}, {}", called(*find), asked, said)};
  if (before == nullptr) {
    change.add(FindAnswer{.find = id, .date = date, .test = asked, .outcome = said});
  } else if (before->outcome != said) {
    FindAnswer after = *before;
    after.date = date;
    after.outcome = said;
    change.replace(after);
  }
  return change;
}

Result<Change> pass_on_find(const Shop& shop, FindId id, Date date, FindEnd how, const std::string& note) {
  const Find* const find = shop.find(id);
  if (find == nullptr) return problem(kNotThere, "find");
  Find after = *find;
  after.ended = date;
  after.how = how;
  after.note = joined(find->note, note);
  if (const Objection objection = first_of({check_not_bought(*find), check_end(after)}))
    return tl::unexpected(*objection);
  Change change{shop, fmt::format("{}: {}", how == FindEnd::gone ? "Gone" : "Passed on", called(*find))};
  if (after != *find) change.replace(after);
  return change;
}

Result<Change> buy_find(const Shop& shop, FindId id, const BuyFind& bought) {
  const Find* const find = shop.find(id);
  if (find == nullptr) return problem(kNotThere, "find");
  if (const Objection objection =
          first_of({check_not_bought(*find), check_not_before_seen(*find, bought.date, "date")}))
    return tl::unexpected(*objection);
  auto change = log_acquisition(shop, acquisition_of(*find, bought));
  if (!change) return change;
  const MachineId machine = machine_in(*change).id;
  const std::string as = fmt::format("{} as {}", called(*find), called(machine_in(*change)));
  change->set_title(bought.price.is_zero() ? fmt::format("Got {} for nothing", as)
                                           : fmt::format("Bought {} for {}", as,
                                                         shown_short(bought.price, shop.settings.currency)));
  Find after = *find;
  after.ended = bought.date;
  after.how = FindEnd::bought;
  after.machine = machine;
  change->replace(after);
  tell_of_fault(shop, *change, *find, machine, bought.date);
  return change;
}

}  // namespace secondpull
