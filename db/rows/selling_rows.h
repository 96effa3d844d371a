#pragma once

#include <tuple>

#include "db/rows/columns.h"

namespace secondpull::db {

template <>
struct Rows<Listing> {
  static constexpr const char* table = "listings";
  static constexpr auto columns = std::tuple{
      Column{"id", &Listing::id},
      Column{"entered", &Listing::entered},
      Column{"machine_id", &Listing::machine},
      Column{"date", &Listing::date},
      Column{"channel", &Listing::channel},
      Column{"asking", &Listing::asking},
      Column{"sold_as", &Listing::sold_as},
      Column{"ended", &Listing::ended},
  };
};

template <>
struct Rows<Offer> {
  static constexpr const char* table = "offers";
  static constexpr auto columns = std::tuple{
      Column{"id", &Offer::id},
      Column{"entered", &Offer::entered},
      Column{"machine_id", &Offer::machine},
      Column{"date", &Offer::date},
      Column{"amount", &Offer::amount},
      Column{"who", &Offer::who},
      Column{"comes", &Offer::comes},
      Column{"result", &Offer::result},
  };
};

template <>
struct Rows<Sale> {
  static constexpr const char* table = "sales";
  static constexpr auto columns = std::tuple{
      Column{"id", &Sale::id},
      Column{"entered", &Sale::entered},
      Column{"machine_id", &Sale::machine},
      Column{"date", &Sale::date},
      Column{"buyer_id", &Sale::buyer},
      Column{"price", &Sale::price},
      Column{"sales_tax", &Sale::sales_tax},
      Column{"fee", &Sale::fee},
      Column{"delivery", &Sale::delivery},
      Column{"payment", &Sale::payment},
      Column{"sold_as", &Sale::sold_as},
      Column{"warranty_days", &Sale::warranty_days},
      Column{"place", &Sale::place},
  };
};

template <>
struct Rows<Return> {
  static constexpr const char* table = "returns";
  static constexpr auto columns = std::tuple{
      Column{"id", &Return::id},
      Column{"entered", &Return::entered},
      Column{"machine_id", &Return::machine},
      Column{"date", &Return::date},
      Column{"refunded", &Return::refunded},
      Column{"note", &Return::note},
  };
};

template <>
struct Rows<Allowance> {
  static constexpr const char* table = "allowances";
  static constexpr auto columns = std::tuple{
      Column{"id", &Allowance::id},
      Column{"entered", &Allowance::entered},
      Column{"machine_id", &Allowance::machine},
      Column{"date", &Allowance::date},
      Column{"amount", &Allowance::amount},
      Column{"sales_tax", &Allowance::sales_tax},
      Column{"note", &Allowance::note},
  };
};

template <>
struct Rows<Disposal> {
  static constexpr const char* table = "disposals";
  static constexpr auto columns = std::tuple{
      Column{"id", &Disposal::id},
      Column{"entered", &Disposal::entered},
      Column{"machine_id", &Disposal::machine},
      Column{"date", &Disposal::date},
      Column{"how", &Disposal::how},
      Column{"proceeds", &Disposal::proceeds},
      Column{"hulk_value", &Disposal::hulk_value},
      Column{"hulk_gone", &Disposal::hulk_gone},
      Column{"hulk_here", &Disposal::hulk_here},
  };
};

}  // namespace secondpull::db
