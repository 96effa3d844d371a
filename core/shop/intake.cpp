#include "core/shop/intake.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/shop/checks.h"
#include "core/shop/codes.h"
#include "core/shop/describe.h"
#include "core/shop/fields_changed.h"
#include "core/shop/limits.h"
#include "core/shop/rules.h"
#include "core/typed_words.h"

namespace secondpull {
namespace {

constexpr std::size_t kLongestNumber = 18;  // digits that 64 bits surely hold
constexpr std::size_t kLongestList = 3;     // tags named one by one in a title

/// The tag as a whole number, if it is one.
std::optional<std::int64_t> as_number(std::string_view tag) {
  if (tag.empty() || tag.size() > kLongestNumber) return std::nullopt;
  std::int64_t number = 0;
  for (const char c : tag) {
    if (c < '0' || c > '9') return std::nullopt;
    number = number * 10 + (c - '0');
  }
  return number;
}

std::int64_t largest_number(const Shop& shop) {
  std::int64_t most = 0;
  for (const Machine& machine : shop.all<Machine>())
    most = std::max(most, as_number(machine.tag).value_or(0));
  return most;
}

Objection tag_taken(std::string_view tag) {
  return Problem{fmt::format("The tag {} is on another machine already: take another number.", tag), "tag",
                 std::string{tag}};
}

bool has_tag(const Shop& shop, std::string_view tag, std::optional<MachineId> but = std::nullopt) {
  return std::any_of(shop.all<Machine>().begin(), shop.all<Machine>().end(),
                     [&](const Machine& machine) { return machine.tag == tag && machine.id != but; });
}

/// The measures of a machine, logged or changed.
template <class AMachine>
Objection check_measures(const Shop& shop, const AMachine& machine) {
  if (machine.year)
    if (const Objection objection = check_year(*machine.year)) return objection;
  if (machine.deck_in && (*machine.deck_in < Tenths{} || *machine.deck_in > kLargestDeck))
    return Problem{fmt::format("The deck is not from 0 to {} inches.", kLargestDeck.count / 10), "deck_in",
                   std::to_string(machine.deck_in->count / 10)};
  return machine.value_then ? check_amount(*machine.value_then, shop, "value_then") : std::nullopt;
}

/// How the acquisition was paid for, logged or changed.
template <class AnAcquisition>
Objection check_terms(const Shop& shop, const AnAcquisition& acquisition) {
  if (const Objection objection =
          first_of({check_day(acquisition.date, "date"), check_amount(acquisition.price, shop, "price"),
                    check_amount(acquisition.pickup_cost, shop, "pickup_cost")}))
    return objection;
  if (acquisition.source == Source::gift && !acquisition.price.is_zero())
    return Problem{"A gift has no price: leave it empty, or say that it was bought.", "price",
                   plain(acquisition.price, shop.settings.currency)};
  if (!acquisition.giver_basis) return std::nullopt;
  if (acquisition.source != Source::gift && !acquisition.giver_basis->is_zero())
    return Problem{"Only of a gift does it count what the giver had in it: leave it empty.", "giver_basis",
                   plain(*acquisition.giver_basis, shop.settings.currency)};
  return check_amount(*acquisition.giver_basis, shop, "giver_basis");
}

/// Gives each machine that was logged without a tag the next free number.
Result<std::vector<std::string>> tags_for(const Shop& shop, const std::vector<NewMachine>& machines) {
  std::set<std::string> taken;
  std::int64_t next = largest_number(shop);
  for (const NewMachine& machine : machines) {
    const std::string tag{trimmed(machine.tag)};
    if (tag.empty()) continue;
    if (has_tag(shop, tag) || !taken.insert(tag).second) return tl::unexpected(*tag_taken(tag));
    next = std::max(next, as_number(tag).value_or(0));
  }
  std::vector<std::string> tags;
  for (const NewMachine& machine : machines) {
    const std::string tag{trimmed(machine.tag)};
    tags.push_back(tag.empty() ? std::to_string(++next) : tag);
  }
  return tags;
}

std::string logged(const std::vector<std::string>& tags) {
  if (tags.size() == 1) return "Logged #" + tags.front();
  std::string list;
  for (std::size_t i = 0; i + 1 < tags.size(); ++i) {
    const auto here = as_number(tags[i]);
    const auto next = as_number(tags[i + 1]);
    if (!here || !next || *next != *here + 1) {
      if (tags.size() > kLongestList)
        return fmt::format("Logged a lot of {}, #{} first", tags.size(), tags.front());
      for (const std::string& tag : tags)
        list += (list.empty() ? "#" : ", #") + tag;
      return fmt::format("Logged a lot of {}: {}", tags.size(), list);
    }
  }
  return fmt::format("Logged a lot of {}: #{} to #{}", tags.size(), tags.front(), tags.back());
}

template <class Record>
void remove_where(const Shop& shop, Change& change, auto&& belongs) {
  for (const Record& record : shop.all<Record>())
    if (belongs(record)) change.remove(record);
}

template <class... Records>
void remove_lines_of(const Shop& shop, Change& change, MachineId machine) {
  (remove_where<Records>(shop, change, [&](const Records& record) { return record.machine == machine; }),
   ...);
}

}  // namespace

std::string next_tag(const Shop& shop) {
  return std::to_string(largest_number(shop) + 1);
}

Result<Change> log_acquisition(const Shop& shop, const NewAcquisition& acquisition) {
  if (acquisition.machines.empty())
    return problem("No machine was named: an acquisition brings in at least one.", "acquisition");
  Objection objection = check_terms(shop, acquisition);
  if (!objection && acquisition.miles) objection = check_miles(*acquisition.miles);
  if (!objection && acquisition.minutes) objection = check_minutes(*acquisition.minutes, "minutes");
  for (const NewMachine& machine : acquisition.machines)
    if (!objection) objection = check_measures(shop, machine);
  if (objection) return tl::unexpected(*objection);
  const auto tags = tags_for(shop, acquisition.machines);
  if (!tags) return tl::unexpected(tags.error());

  Change change{shop, logged(*tags)};
  const auto from = choose_person(shop, change, acquisition.from, "from");
  if (!from) return tl::unexpected(from.error());
  const AcquisitionId id = change.add(Acquisition{.code = next_acquisition_code(shop),
                                                  .date = acquisition.date,
                                                  .source = acquisition.source,
                                                  .from = *from,
                                                  .price = acquisition.price,
                                                  .pickup_cost = acquisition.pickup_cost,
                                                  .giver_basis = acquisition.giver_basis,
                                                  .opening = acquisition.opening,
                                                  .note = acquisition.note});
  for (std::size_t i = 0; i < tags->size(); ++i) {
    const NewMachine& machine = acquisition.machines[i];
    change.add(Machine{.tag = (*tags)[i],
                       .acquisition = id,
                       .kind = machine.kind,
                       .make = machine.make,
                       .model = machine.model,
                       .model_number = machine.model_number,
                       .serial = machine.serial,
                       .engine = machine.engine,
                       .year = machine.year,
                       .deck_in = machine.deck_in,
                       .symptom = machine.symptom,
                       .condition = machine.condition,
                       .value_then = machine.value_then,
                       .note = machine.note});
  }
  if (acquisition.miles && acquisition.miles->count > 0)
    change.add(Trip{.date = acquisition.date,
                    .miles = *acquisition.miles,
                    .purpose = tags->size() == 1 ? "fetch #" + tags->front()
                                                 : "fetch a lot of " + std::to_string(tags->size()),
                    .destination = acquisition.destination,
                    .acquisition = id});
  if (acquisition.minutes && acquisition.minutes->count > 0)
    change.add(Labour{
        .acquisition = id, .date = acquisition.date, .minutes = *acquisition.minutes, .work = Work::pickup});
  return change;
}

Result<Change> edit_machine(const Shop& shop, const Machine& changed_machine) {
  const Machine* const before = shop.find(changed_machine.id);
  if (before == nullptr) return problem("That machine is not in the shop's records any more.", "machine");
  Machine after = changed_machine;
  after.acquisition = before->acquisition;
  after.entered = before->entered;
  after.tag = trimmed(after.tag);
  Objection objection = first_of({check_said(after.tag, "tag"), check_measures(shop, after)});
  if (!objection && has_tag(shop, after.tag, after.id)) objection = tag_taken(after.tag);
  if (objection) return tl::unexpected(*objection);

  FieldsChanged fields;
  fields.compare(before->tag, after.tag, "tag");
  fields.compare(before->kind, after.kind, "kind");
  fields.compare(before->make, after.make, "make");
  fields.compare(before->model, after.model, "model");
  fields.compare(before->model_number, after.model_number, "model number");
  fields.compare(before->serial, after.serial, "serial");
  fields.compare(before->engine, after.engine, "engine");
  fields.compare(before->year, after.year, "year");
  fields.compare(before->deck_in, after.deck_in, "deck");
  fields.compare(before->symptom, after.symptom, "symptom");
  fields.compare(before->condition, after.condition, "condition");
  fields.compare(before->value_then, after.value_then, "value then");
  fields.compare(before->stage, after.stage, "where it stands");
  fields.compare(before->note, after.note, "note");
  Change change{shop, fields.title(called(*before))};
  if (!fields.empty()) change.replace(after);
  return change;
}

Result<Change> edit_acquisition(const Shop& shop, const Acquisition& changed_acquisition) {
  const Acquisition* const before = shop.find(changed_acquisition.id);
  if (before == nullptr)
    return problem("That acquisition is not in the shop's records any more.", "acquisition");
  Acquisition after = changed_acquisition;
  after.entered = before->entered;
  after.code = trimmed(after.code);
  const Objection objection = first_of({check_said(after.code, "acquisition"), check_terms(shop, after)});
  if (objection) return tl::unexpected(*objection);
  for (const Acquisition& other : shop.all<Acquisition>())
    if (other.id != after.id && other.code == after.code)
      return problem(fmt::format("{} is another acquisition already: take another name.", after.code),
                     "acquisition", after.code);

  FieldsChanged fields;
  fields.compare(before->code, after.code, "name");
  fields.compare(before->date, after.date, "date");
  fields.compare(before->source, after.source, "source");
  fields.compare(before->from, after.from, "seller");
  fields.compare(before->price, after.price, "price");
  fields.compare(before->pickup_cost, after.pickup_cost, "pickup cost");
  fields.compare(before->giver_basis, after.giver_basis, "giver's basis");
  fields.compare(before->opening, after.opening, "opening");
  fields.compare(before->note, after.note, "note");
  Change change{shop, fields.title("acquisition " + before->code)};
  if (!fields.empty()) change.replace(after);
  return change;
}

Result<Change> remove_machine(const Shop& shop, MachineId id) {
  const Machine* const machine = shop.find(id);
  if (machine == nullptr) return problem("That machine is not in the shop's records any more.", "machine");
  Change change{shop, "Removed " + called(*machine)};
  for (const Forecast& forecast : shop.all<Forecast>())
    if (forecast.machine == id)
      remove_where<ForecastCause>(shop, change,
                                  [&](const ForecastCause& cause) { return cause.forecast == forecast.id; });
  for (const Offer& offer : shop.all<Offer>())
    if (offer.machine == id)
      remove_where<Deposit>(shop, change, [&](const Deposit& deposit) { return deposit.offer == offer.id; });
  remove_lines_of<Photo, Trip, Disposal, Allowance, Return, Sale, Offer, Listing, Material, Fitted, Labour,
                  Finding, Forecast, Fault, OwnNumber, ListingText>(shop, change, id);
  remove_where<Harvest>(shop, change, [&](const Harvest& line) { return line.donor == id; });
  for (const OrderLine& line :
       shop.all<OrderLine>()) {  // the parts stay, they are only no longer meant for it
    if (line.for_machine != id) continue;
    OrderLine unbound = line;
    unbound.for_machine.reset();
    change.replace(unbound);
  }
  for (const Find& find : shop.all<Find>()) {  // if the machine was a mistake, so was the purchase
    if (find.machine != id) continue;
    Find open = find;
    open.machine.reset();
    open.how.reset();
    open.ended.reset();
    change.replace(open);
  }
  change.remove(*machine);
  const AcquisitionId of = machine->acquisition;
  const bool last =
      std::none_of(shop.all<Machine>().begin(), shop.all<Machine>().end(),
                   [&](const Machine& other) { return other.acquisition == of && other.id != id; });
  const Acquisition* const acquisition = shop.find(of);
  if (last && acquisition != nullptr) {
    remove_where<Trip>(shop, change, [&](const Trip& trip) { return trip.acquisition == of; });
    remove_where<Labour>(shop, change, [&](const Labour& labour) { return labour.acquisition == of; });
    change.remove(*acquisition);
  }

  const auto after = apply(shop, change);
  if (!after) return tl::unexpected(after.error());
  for (const RuleBreak& wrong : broken_rules(*after)) {
    const auto record = find_any(*after, wrong.record);
    return problem(
        fmt::format("{} cannot be removed, something else depends on it ({}): {}", called(*machine),
                    record ? described(shop, *record) : "a record", wrong.problem.sentence),
        "machine", machine->tag);
  }
  return change;
}

}  // namespace secondpull
