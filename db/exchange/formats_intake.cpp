// How machines come in, and from whom: shop.csv, people.csv, acquisitions.csv, machines.csv, trips.csv.
#include "db/exchange/columns.h"

namespace secondpull::db {
namespace {

constexpr Column<Settings> kShop[] = {
    must<&Settings::name>("name"),
    must<&Settings::currency>("currency"),
    may<&Settings::hour_value>("hour_value"),
    may<&Settings::day_cost>("day_cost"),
    may<&Settings::hours_a_week>("hours_a_week"),
    may<&Settings::unit_of_distance>("unit_of_distance"),
};

constexpr Column<Person> kPeople[] = {
    must<&Person::code>("person"), must<&Person::name>("name"), may<&Person::phone>("phone"),
    may<&Person::email>("email"),  may<&Person::note>("note"),
};

constexpr Column<Acquisition> kAcquisitions[] = {
    must<&Acquisition::code>("acquisition"),
    must<&Acquisition::date>("date"),
    must<&Acquisition::source>("source"),
    may<&Acquisition::from>("from"),
    may<&Acquisition::price>("price"),
    may<&Acquisition::pickup_cost>("pickup_cost"),
    may<&Acquisition::giver_basis>("giver_basis"),
    may<&Acquisition::opening>("opening"),
    may<&Acquisition::note>("note"),
};

/// Only a gift has a giver's basis; 0 in a cell that must be empty counts as empty.
void tidy_acquisition(Acquisition& acquisition) {
  if (acquisition.source != Source::gift && acquisition.giver_basis == Money{})
    acquisition.giver_basis.reset();
}

constexpr Column<Machine> kMachines[] = {
    must<&Machine::tag>("tag"),
    must<&Machine::acquisition>("acquisition"),
    must<&Machine::kind>("kind"),
    may<&Machine::make>("make"),
    may<&Machine::model>("model"),
    may<&Machine::model_number>("model_number"),
    may<&Machine::serial>("serial"),
    may<&Machine::engine>("engine"),
    may<&Machine::year>("year"),
    may<&Machine::deck_in>("deck_in"),
    may<&Machine::symptom>("symptom"),
    may<&Machine::condition>("condition"),
    may<&Machine::value_then>("value_then"),
    may<&Machine::stage>("stage"),
    may<&Machine::note>("note"),
};

constexpr Column<Trip> kTrips[] = {
    must<&Trip::date>("date"),       must<&Trip::miles>("miles"),
    must<&Trip::purpose>("purpose"), may<&Trip::destination>("destination"),
    may<&Trip::machine>("machine"),  may<&Trip::acquisition>("acquisition"),
};

}  // namespace

template <>
const Format<Settings>& format_of<Settings>() {
  static constexpr Format<Settings> format{"shop.csv", kShop};
  return format;
}
template <>
const Format<Person>& format_of<Person>() {
  static constexpr Format<Person> format{"people.csv", kPeople};
  return format;
}
template <>
const Format<Acquisition>& format_of<Acquisition>() {
  static constexpr Format<Acquisition> format{"acquisitions.csv", kAcquisitions, tidy_acquisition};
  return format;
}
template <>
const Format<Machine>& format_of<Machine>() {
  static constexpr Format<Machine> format{"machines.csv", kMachines};
  return format;
}
template <>
const Format<Trip>& format_of<Trip>() {
  static constexpr Format<Trip> format{"trips.csv", kTrips};
  return format;
}

}  // namespace secondpull::db
