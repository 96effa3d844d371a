#include "core/shop/stage.h"

#include <algorithm>
#include <unordered_map>

namespace secondpull {
namespace {

template <class Record>
void sort_by_day(std::vector<const Record*>& records) {
  std::sort(records.begin(), records.end(), [](const Record* a, const Record* b) {
    return a->date != b->date ? a->date < b->date : a->entered < b->entered;
  });
}

/// Puts every record of a machine into the lines that `lines_of_machine` gives for its machine, if any.
void collect_all(const Shop& shop, auto&& lines_of_machine) {
  using Lines = ByMachine::Lines;
  const auto collect = [&]<class Record>(std::vector<const Record*> Lines::*list, auto Record::*machine) {
    for (const Record& record : shop.all<Record>()) {
      const std::optional<MachineId> id = record.*machine;
      Lines* const lines = id ? lines_of_machine(*id) : nullptr;
      if (lines != nullptr) (lines->*list).push_back(&record);
    }
  };
  collect(&Lines::faults, &Fault::machine);
  collect(&Lines::findings, &Finding::machine);
  collect(&Lines::labour, &Labour::machine);
  collect(&Lines::fitted, &Fitted::machine);
  collect(&Lines::harvested, &Harvest::donor);
  collect(&Lines::materials, &Material::machine);
  collect(&Lines::listings, &Listing::machine);
  collect(&Lines::offers, &Offer::machine);
  collect(&Lines::sales, &Sale::machine);
  collect(&Lines::returns, &Return::machine);
  collect(&Lines::allowances, &Allowance::machine);
  collect(&Lines::disposals, &Disposal::machine);
  collect(&Lines::trips, &Trip::machine);
  collect(&Lines::ordered, &OrderLine::for_machine);
  collect(&Lines::photos, &Photo::machine);
}

void sort_all(const Shop& shop, ByMachine::Lines& lines) {
  sort_by_day(lines.faults);
  sort_by_day(lines.findings);
  sort_by_day(lines.labour);
  sort_by_day(lines.acquisition_labour);
  sort_by_day(lines.fitted);
  sort_by_day(lines.harvested);
  sort_by_day(lines.materials);
  sort_by_day(lines.listings);
  sort_by_day(lines.offers);
  sort_by_day(lines.sales);
  sort_by_day(lines.returns);
  sort_by_day(lines.allowances);
  sort_by_day(lines.disposals);
  sort_by_day(lines.trips);
  std::sort(lines.ordered.begin(), lines.ordered.end(), [&](const OrderLine* a, const OrderLine* b) {
    const Order* const of_a = shop.find(a->order);
    const Order* const of_b = shop.find(b->order);
    const Date day_a = of_a != nullptr ? of_a->date : Date{};
    const Date day_b = of_b != nullptr ? of_b->date : Date{};
    return day_a != day_b ? day_a < day_b : a->entered < b->entered;
  });
  std::sort(lines.photos.begin(), lines.photos.end(),
            [](const Photo* a, const Photo* b) { return a->entered < b->entered; });
}

/// Is a listing out that no later fault has put in question?
bool is_for_sale(const ByMachine::Lines& lines, Date since) {
  return std::any_of(lines.listings.begin(), lines.listings.end(), [&](const Listing* listing) {
    return listing->date >= since && !listing->ended &&
           std::none_of(lines.faults.begin(), lines.faults.end(),
                        [&](const Fault* fault) { return fault->date > listing->date; });
  });
}

}  // namespace

ByMachine::ByMachine(const Shop& shop) : places_{shop.all<Machine>()} {
  // A record that names an unknown machine belongs to none; the rules of the records tell of it.
  lines_.resize(places_.size());
  collect_all(shop, [&](MachineId id) -> Lines* {
    const auto place = places_.of(id);
    return place == Positions<Machine>::nowhere ? nullptr : &lines_[place];
  });
  std::unordered_map<AcquisitionId, std::vector<const Labour*>> of_acquisition;
  for (const Labour& labour : shop.all<Labour>())
    if (labour.acquisition) of_acquisition[*labour.acquisition].push_back(&labour);
  auto lines = lines_.begin();
  for (const Machine& machine : shop.all<Machine>()) {
    lines->machine = &machine;
    lines->acquisition = shop.find(machine.acquisition);
    if (const auto labour = of_acquisition.find(machine.acquisition);
        lines->acquisition != nullptr && labour != of_acquisition.end())
      lines->acquisition_labour = labour->second;
    sort_all(shop, *lines++);
  }
}

ByMachine::Lines lines_of(const Shop& shop, MachineId id) {
  ByMachine::Lines lines;
  lines.machine = shop.find(id);
  if (lines.machine == nullptr) return lines;
  lines.acquisition = shop.find(lines.machine->acquisition);
  collect_all(shop, [&](MachineId of) { return of == id ? &lines : nullptr; });
  for (const Labour& labour : shop.all<Labour>())
    if (labour.acquisition == lines.machine->acquisition) lines.acquisition_labour.push_back(&labour);
  sort_all(shop, lines);
  return lines;
}

const ByMachine::Lines& ByMachine::of(MachineId id) const {
  const auto place = places_.of(id);
  return place == Positions<Machine>::nowhere ? none_ : lines_[place];
}

Stage stage_of(const ByMachine::Lines& lines) {
  if (!lines.disposals.empty()) {
    switch (lines.disposals.back()->how) {
      case DisposalKind::scrapped:
        return Stage::scrapped;
      case DisposalKind::parted_out:
        return Stage::parted_out;
      case DisposalKind::kept:
        return Stage::kept;
    }
  }
  // Sales and returns take turns, so counting them says which was the last, on one day too.
  if (lines.sales.size() > lines.returns.size()) return Stage::sold;

  const Date since = here_since(lines);
  if (is_for_sale(lines, since)) return Stage::for_sale;
  if (lines.machine != nullptr && lines.machine->stage) {
    const Stage given = *lines.machine->stage;
    if (given == Stage::waiting_on_parts || given == Stage::test_run || given == Stage::on_the_bench)
      return given;
  }
  return bench_since(lines) ? Stage::on_the_bench : Stage::in_the_yard;
}

bool is_here(Stage stage) {
  return stage <= Stage::for_sale;
}

Date here_since(const ByMachine::Lines& lines) {
  if (!lines.returns.empty()) return lines.returns.back()->date;
  return lines.acquisition != nullptr ? lines.acquisition->date : Date{};
}

std::optional<Date> bench_since(const ByMachine::Lines& lines) {
  const Date since = here_since(lines);
  std::optional<Date> first;
  const auto consider = [&](Date date) {
    if (date >= since && (!first || date < *first)) first = date;
  };
  for (const Finding* finding : lines.findings)
    consider(finding->date);
  for (const Fitted* fitted : lines.fitted)
    consider(fitted->date);
  for (const Material* material : lines.materials)
    consider(material->date);
  for (const auto* labours : {&lines.labour, &lines.acquisition_labour})
    for (const Labour* labour : *labours)
      if (labour->work != Work::pickup) consider(labour->date);
  return first;
}

}  // namespace secondpull
