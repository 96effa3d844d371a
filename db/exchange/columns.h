#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>

#include "core/result.h"
#include "core/shop/shop.h"
#include "db/exchange/cells.h"

namespace secondpull::db {

/// A column of a table: how a cell becomes a field of a record, and the field a cell. Both directions stand
/// in one line of one list, so they cannot drift apart.
template <class Record>
struct Column {
  std::string_view name;
  bool required = true;  ///< the column must be there and no cell of it empty
  Result<void> (*read)(std::string_view cell, std::string_view column, const ReadContext&, Record&) = nullptr;
  void (*write)(const Record&, const Shop&, std::string& out) = nullptr;
};

/// The file of a kind of record, its columns in the order in which they are written. Where records have an
/// identifier, it is the first column.
template <class Record>
struct Format {
  std::string_view file;
  std::span<const Column<Record>> columns;
  void (*tidy)(Record&) = nullptr;  ///< called after the columns of a line are read
};

/// The format of each kind of record with a file, and of Settings (shop.csv).
template <class Record>
const Format<Record>& format_of();

namespace detail {

template <class Record, class... Others>
inline constexpr bool one_of = (std::is_same_v<Record, Others> || ...);

}  // namespace detail

/// Does this kind of record stand in the exchange folder? Pictures do not: they stay in the shop's own
/// folder. Nor do closed years and their figures: a folder holds what happened, and its years are open. Nor
/// what was only seen, and what the owner says of machines and faults in the place of the program. Nor, since
/// the folder's format has no place for them, forecasts, listing texts and deposits.
template <class Record>
inline constexpr bool has_file =
    !detail::one_of<Record, Photo, ClosedYear, KeptFigure, Find, FindAnswer, OwnNumber, KnowledgeEdit,
                    Forecast, ForecastCause, ListingText, Deposit>;

namespace detail {

template <class Field>
struct ValueOf {
  using Type = Field;
};
template <class Value>
struct ValueOf<std::optional<Value>> {
  using Type = Value;
};
template <class Pointer>
struct MemberParts;
template <class RecordType, class FieldType>
struct MemberParts<FieldType RecordType::*> {
  using Record = RecordType;
  using Field = FieldType;
  using Value = typename ValueOf<FieldType>::Type;
};
template <auto Member>
using RecordWith = typename MemberParts<decltype(Member)>::Record;
template <auto Member>
using ValueIn = typename MemberParts<decltype(Member)>::Value;

template <auto Member, class Cell>
constexpr Column<RecordWith<Member>> column(std::string_view name, bool required) {
  using Record = RecordWith<Member>;
  return {name, required,
          [](std::string_view cell, std::string_view column_name, const ReadContext& context,
             Record& record) -> Result<void> {
            auto value = Cell::read(cell, column_name, context);
            if (!value) return tl::unexpected{value.error()};
            record.*Member = *std::move(value);
            return {};
          },
          [](const Record& record, const Shop& shop, std::string& out) {
            const auto& field = record.*Member;
            if constexpr (!std::is_same_v<std::decay_t<decltype(field)>, ValueIn<Member>>) {
              if (field) Cell::write(*field, shop, out);
            } else {
              Cell::write(field, shop, out);
            }
          }};
}

/// Writes the field unless it has the value of an absent one.
template <auto Member, class Cell>
void write_unless_absent(const RecordWith<Member>& record, const Shop& shop, std::string& out) {
  if (record.*Member != ValueIn<Member>{}) Cell::write(record.*Member, shop, out);
}

}  // namespace detail

/// A column that must be there, with no cell empty.
template <auto Member, class Cell = CellOf<detail::ValueIn<Member>>>
constexpr Column<detail::RecordWith<Member>> must(std::string_view name) {
  return detail::column<Member, Cell>(name, true);
}

/// A column that may be absent or have empty cells. The field then keeps the value of a new record, and an
/// amount, text or flag that has it is written as an empty cell.
template <auto Member, class Cell = CellOf<detail::ValueIn<Member>>>
constexpr Column<detail::RecordWith<Member>> may(std::string_view name) {
  auto column = detail::column<Member, Cell>(name, false);
  using Field = typename detail::MemberParts<decltype(Member)>::Field;
  if constexpr (std::is_same_v<Field, Money> || std::is_same_v<Field, bool>)
    column.write = detail::write_unless_absent<Member, Cell>;
  return column;
}

template <>
const Format<Settings>& format_of<Settings>();
template <>
const Format<Person>& format_of<Person>();
template <>
const Format<Acquisition>& format_of<Acquisition>();
template <>
const Format<Machine>& format_of<Machine>();
template <>
const Format<Fault>& format_of<Fault>();
template <>
const Format<Finding>& format_of<Finding>();
template <>
const Format<Labour>& format_of<Labour>();
template <>
const Format<Part>& format_of<Part>();
template <>
const Format<Order>& format_of<Order>();
template <>
const Format<OrderLine>& format_of<OrderLine>();
template <>
const Format<Harvest>& format_of<Harvest>();
template <>
const Format<Fitted>& format_of<Fitted>();
template <>
const Format<Material>& format_of<Material>();
template <>
const Format<Listing>& format_of<Listing>();
template <>
const Format<Offer>& format_of<Offer>();
template <>
const Format<Sale>& format_of<Sale>();
template <>
const Format<Return>& format_of<Return>();
template <>
const Format<Allowance>& format_of<Allowance>();
template <>
const Format<PartSale>& format_of<PartSale>();
template <>
const Format<TaxPaid>& format_of<TaxPaid>();
template <>
const Format<Disposal>& format_of<Disposal>();
template <>
const Format<Trip>& format_of<Trip>();
template <>
const Format<Expense>& format_of<Expense>();

}  // namespace secondpull::db
