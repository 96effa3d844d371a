#pragma once

#include <tuple>

#include "db/rows/columns.h"

namespace secondpull::db {

template <>
struct Rows<Person> {
  static constexpr const char* table = "people";
  static constexpr auto columns = std::tuple{
      Column{"id", &Person::id},     Column{"entered", &Person::entered}, Column{"code", &Person::code},
      Column{"name", &Person::name}, Column{"phone", &Person::phone},     Column{"email", &Person::email},
      Column{"note", &Person::note},
  };
};

template <>
struct Rows<Acquisition> {
  static constexpr const char* table = "acquisitions";
  static constexpr auto columns = std::tuple{
      Column{"id", &Acquisition::id},
      Column{"entered", &Acquisition::entered},
      Column{"code", &Acquisition::code},
      Column{"date", &Acquisition::date},
      Column{"source", &Acquisition::source},
      Column{"from_person_id", &Acquisition::from},
      Column{"price", &Acquisition::price},
      Column{"pickup_cost", &Acquisition::pickup_cost},
      Column{"giver_basis", &Acquisition::giver_basis},
      Column{"opening", &Acquisition::opening},
      Column{"note", &Acquisition::note},
  };
};

template <>
struct Rows<Machine> {
  static constexpr const char* table = "machines";
  static constexpr auto columns = std::tuple{
      Column{"id", &Machine::id},
      Column{"entered", &Machine::entered},
      Column{"tag", &Machine::tag},
      Column{"acquisition_id", &Machine::acquisition},
      Column{"kind", &Machine::kind},
      Column{"make", &Machine::make},
      Column{"model", &Machine::model},
      Column{"model_number", &Machine::model_number},
      Column{"serial", &Machine::serial},
      Column{"engine", &Machine::engine},
      Column{"year", &Machine::year},
      Column{"deck_in", &Machine::deck_in},
      Column{"symptom", &Machine::symptom},
      Column{"condition", &Machine::condition},
      Column{"value_then", &Machine::value_then},
      Column{"stage", &Machine::stage},
      Column{"note", &Machine::note},
  };
};

template <>
struct Rows<Photo> {
  static constexpr const char* table = "photos";
  static constexpr auto columns = std::tuple{
      Column{"id", &Photo::id},
      Column{"entered", &Photo::entered},
      Column{"sha256", &Photo::sha256},
      Column{"name", &Photo::name},
      Column{"machine_id", &Photo::machine},
      Column{"order_id", &Photo::order},
      Column{"expense_id", &Photo::expense},
      Column{"note", &Photo::note},
  };
};

}  // namespace secondpull::db
