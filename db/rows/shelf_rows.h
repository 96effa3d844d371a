#pragma once

#include <tuple>

#include "db/rows/columns.h"

namespace secondpull::db {

template <>
struct Rows<Part> {
  static constexpr const char* table = "parts";
  static constexpr auto columns = std::tuple{
      Column{"id", &Part::id},
      Column{"entered", &Part::entered},
      Column{"code", &Part::code},
      Column{"name", &Part::name},
      Column{"number", &Part::number},
      Column{"supplier_id", &Part::supplier},
      Column{"reorder_at", &Part::reorder_at},
  };
};

template <>
struct Rows<Order> {
  static constexpr const char* table = "orders";
  static constexpr auto columns = std::tuple{
      Column{"id", &Order::id},
      Column{"entered", &Order::entered},
      Column{"code", &Order::code},
      Column{"date", &Order::date},
      Column{"supplier_id", &Order::supplier},
      Column{"arrived", &Order::arrived},
      Column{"freight", &Order::freight},
      Column{"tax", &Order::tax},
      Column{"opening", &Order::opening},
  };
};

template <>
struct Rows<OrderLine> {
  static constexpr const char* table = "order_lines";
  static constexpr auto columns = std::tuple{
      Column{"id", &OrderLine::id},
      Column{"entered", &OrderLine::entered},
      Column{"order_id", &OrderLine::order},
      Column{"part_id", &OrderLine::part},
      Column{"quantity", &OrderLine::quantity},
      Column{"price", &OrderLine::price},
      Column{"for_machine_id", &OrderLine::for_machine},
  };
};

template <>
struct Rows<Harvest> {
  static constexpr const char* table = "harvested";
  static constexpr auto columns = std::tuple{
      Column{"id", &Harvest::id},          Column{"entered", &Harvest::entered},
      Column{"donor_id", &Harvest::donor}, Column{"date", &Harvest::date},
      Column{"part_id", &Harvest::part},   Column{"quantity", &Harvest::quantity},
      Column{"value", &Harvest::value},
  };
};

template <>
struct Rows<PartSale> {
  static constexpr const char* table = "parts_sold";
  static constexpr auto columns = std::tuple{
      Column{"id", &PartSale::id},
      Column{"entered", &PartSale::entered},
      Column{"date", &PartSale::date},
      Column{"part_id", &PartSale::part},
      Column{"quantity", &PartSale::quantity},
      Column{"price", &PartSale::price},
      Column{"from_order_id", &PartSale::from_order},
      Column{"from_donor_id", &PartSale::from_donor},
      Column{"buyer_id", &PartSale::buyer},
      Column{"sales_tax", &PartSale::sales_tax},
      Column{"fee", &PartSale::fee},
      Column{"place", &PartSale::place},
  };
};

}  // namespace secondpull::db
