// Parts, and where they come from and go: parts.csv, orders.csv, order_lines.csv, harvested.csv, fitted.csv,
// parts_sold.csv.
#include "db/exchange/columns.h"
#include "db/exchange/origin.h"

namespace secondpull::db {
namespace {

constexpr Column<Part> kParts[] = {
    must<&Part::code>("part"),
    must<&Part::name>("name"),
    may<&Part::number>("number"),
    may<&Part::supplier>("supplier"),
    may<&Part::reorder_at>("reorder_at"),
};

constexpr Column<Order> kOrders[] = {
    must<&Order::code>("order"),     must<&Order::date>("date"),      may<&Order::supplier>("supplier"),
    may<&Order::arrived>("arrived"), may<&Order::freight>("freight"), may<&Order::tax>("tax"),
    may<&Order::opening>("opening"),
};

constexpr Column<OrderLine> kOrderLines[] = {
    must<&OrderLine::order>("order"),
    must<&OrderLine::part>("part"),
    must<&OrderLine::quantity, Quantity>("quantity"),
    must<&OrderLine::price>("price"),
    may<&OrderLine::for_machine>("for"),
};

constexpr Column<Harvest> kHarvested[] = {
    must<&Harvest::donor>("donor"), must<&Harvest::date>("date"),
    must<&Harvest::part>("part"),   must<&Harvest::quantity, Quantity>("quantity"),
    must<&Harvest::value>("value"),
};

constexpr Column<Fitted> kFitted[] = {
    may<&Fitted::machine>("machine"),
    must<&Fitted::date>("date"),
    must<&Fitted::part>("part"),
    must<&Fitted::quantity, Quantity>("quantity"),
    {"from", false, read_origin<Fitted>, write_origin<Fitted>},
};

constexpr Column<PartSale> kPartsSold[] = {
    must<&PartSale::date>("date"),
    must<&PartSale::part>("part"),
    must<&PartSale::quantity, Quantity>("quantity"),
    must<&PartSale::price>("price"),
    {"from", false, read_origin<PartSale>, write_origin<PartSale>},
    may<&PartSale::buyer>("buyer"),
    may<&PartSale::sales_tax>("sales_tax"),
    may<&PartSale::fee>("fee"),
    may<&PartSale::place>("place"),
};

}  // namespace

template <>
const Format<Part>& format_of<Part>() {
  static constexpr Format<Part> format{"parts.csv", kParts};
  return format;
}
template <>
const Format<Order>& format_of<Order>() {
  static constexpr Format<Order> format{"orders.csv", kOrders};
  return format;
}
template <>
const Format<OrderLine>& format_of<OrderLine>() {
  static constexpr Format<OrderLine> format{"order_lines.csv", kOrderLines};
  return format;
}
template <>
const Format<Harvest>& format_of<Harvest>() {
  static constexpr Format<Harvest> format{"harvested.csv", kHarvested};
  return format;
}
template <>
const Format<Fitted>& format_of<Fitted>() {
  static constexpr Format<Fitted> format{"fitted.csv", kFitted};
  return format;
}
template <>
const Format<PartSale>& format_of<PartSale>() {
  static constexpr Format<PartSale> format{"parts_sold.csv", kPartsSold};
  return format;
}

}  // namespace secondpull::db
