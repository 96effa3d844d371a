#pragma once

#include <tuple>

#include "db/rows/columns.h"

namespace secondpull::db {

template <>
struct Rows<Fault> {
  static constexpr const char* table = "faults";
  static constexpr auto columns = std::tuple{
      Column{"id", &Fault::id},       Column{"entered", &Fault::entered},
      Column{"code", &Fault::code},   Column{"machine_id", &Fault::machine},
      Column{"date", &Fault::date},   Column{"symptom", &Fault::symptom},
      Column{"cause", &Fault::cause}, Column{"ended", &Fault::ended},
      Column{"how", &Fault::how},     Column{"note", &Fault::note},
  };
};

template <>
struct Rows<Finding> {
  static constexpr const char* table = "findings";
  static constexpr auto columns = std::tuple{
      Column{"id", &Finding::id},
      Column{"entered", &Finding::entered},
      Column{"machine_id", &Finding::machine},
      Column{"date", &Finding::date},
      Column{"step", &Finding::step},
      Column{"outcome", &Finding::outcome},
      Column{"fault_id", &Finding::fault},
      Column{"minutes", &Finding::minutes},
      Column{"cost", &Finding::cost},
      Column{"reading", &Finding::reading},
      Column{"unit", &Finding::unit},
      Column{"note", &Finding::note},
  };
};

template <>
struct Rows<Labour> {
  static constexpr const char* table = "labour";
  static constexpr auto columns = std::tuple{
      Column{"id", &Labour::id},
      Column{"entered", &Labour::entered},
      Column{"machine_id", &Labour::machine},
      Column{"acquisition_id", &Labour::acquisition},
      Column{"date", &Labour::date},
      Column{"minutes", &Labour::minutes},
      Column{"work", &Labour::work},
      Column{"note", &Labour::note},
  };
};

template <>
struct Rows<Fitted> {
  static constexpr const char* table = "fitted";
  static constexpr auto columns = std::tuple{
      Column{"id", &Fitted::id},
      Column{"entered", &Fitted::entered},
      Column{"machine_id", &Fitted::machine},
      Column{"date", &Fitted::date},
      Column{"part_id", &Fitted::part},
      Column{"quantity", &Fitted::quantity},
      Column{"from_order_id", &Fitted::from_order},
      Column{"from_donor_id", &Fitted::from_donor},
  };
};

template <>
struct Rows<Material> {
  static constexpr const char* table = "materials";
  static constexpr auto columns = std::tuple{
      Column{"id", &Material::id},
      Column{"entered", &Material::entered},
      Column{"machine_id", &Material::machine},
      Column{"date", &Material::date},
      Column{"what", &Material::what},
      Column{"cost", &Material::cost},
  };
};

}  // namespace secondpull::db
