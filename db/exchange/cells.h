#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "core/result.h"
#include "core/shop/shop.h"
#include "db/exchange/names.h"

namespace secondpull::db {

/// What the cells of a line are read against.
struct ReadContext {
  const Settings* settings;  ///< the currency of the amounts
  const Names* names;
  const Shop* shop;  ///< the records read so far, those of the shop added to included
};

// How a value of each type stands in a cell: `read` never gets an empty cell, `write` appends to `out`.
template <class Value>
struct CellOf;

/// "The kind "pusher" is none of push, self-propelled, ...": for a value out of a closed list.
Problem not_in_list(std::string_view cell, std::string_view column, std::string_view list);
/// "There is no person "P9" in people.csv."
Problem names_nothing(std::string_view cell, std::string_view column, std::string_view kind,
                      std::string_view file);

template <>
struct CellOf<std::string> {
  static Result<std::string> read(std::string_view cell, std::string_view column, const ReadContext&);
  static void write(const std::string& value, const Shop&, std::string& out);
};
/// Never negative.
template <>
struct CellOf<Money> {
  static Result<Money> read(std::string_view cell, std::string_view column, const ReadContext& context);
  static void write(Money value, const Shop& shop, std::string& out);
};
template <>
struct CellOf<Date> {
  static Result<Date> read(std::string_view cell, std::string_view column, const ReadContext&);
  static void write(Date value, const Shop&, std::string& out);
};
template <>
struct CellOf<Minutes> {
  static Result<Minutes> read(std::string_view cell, std::string_view column, const ReadContext&);
  static void write(Minutes value, const Shop&, std::string& out);
};
/// With at most one decimal, never negative.
template <>
struct CellOf<Tenths> {
  static Result<Tenths> read(std::string_view cell, std::string_view column, const ReadContext&);
  static void write(Tenths value, const Shop&, std::string& out);
};
/// A whole number, never negative.
template <>
struct CellOf<std::int64_t> {
  static Result<std::int64_t> read(std::string_view cell, std::string_view column, const ReadContext&);
  static void write(std::int64_t value, const Shop&, std::string& out);
};
/// A year.
template <>
struct CellOf<int> {
  static Result<int> read(std::string_view cell, std::string_view column, const ReadContext&);
  static void write(int value, const Shop&, std::string& out);
};
/// "yes"; no is an empty cell.
template <>
struct CellOf<bool> {
  static Result<bool> read(std::string_view cell, std::string_view column, const ReadContext&);
  static void write(bool value, const Shop&, std::string& out);
};
template <>
struct CellOf<Currency> {
  static Result<Currency> read(std::string_view cell, std::string_view column, const ReadContext&);
  static void write(const Currency& value, const Shop&, std::string& out);
};

/// A quantity: whole and at least 1.
struct Quantity {
  static Result<std::int64_t> read(std::string_view cell, std::string_view column,
                                   const ReadContext& context);
  static void write(std::int64_t value, const Shop& shop, std::string& out);
};

/// Words of a closed vocabulary.
template <class Word>
requires requires(Word value) {
  word(value);
}
struct CellOf<Word> {
  static Result<Word> read(std::string_view cell, std::string_view column, const ReadContext&) {
    if (const auto value = from_word<Word>(cell)) return *value;
    std::string list;
    for (const Word value : all_words<Word>()) {
      if (!list.empty()) list += ", ";
      list += word(value);
    }
    return tl::unexpected{not_in_list(cell, column, list)};
  }
  static void write(Word value, const Shop&, std::string& out) { out += word(value); }
};

/// What a reference says when it names nothing: the kind of record, and the file where it should stand.
template <class Id>
struct Referred;
template <>
struct Referred<PersonId> {
  static constexpr std::string_view kind = "person", file = "people.csv";
};
template <>
struct Referred<AcquisitionId> {
  static constexpr std::string_view kind = "acquisition", file = "acquisitions.csv";
};
template <>
struct Referred<MachineId> {
  static constexpr std::string_view kind = "machine", file = "machines.csv";
};
template <>
struct Referred<FaultId> {
  static constexpr std::string_view kind = "fault", file = "faults.csv";
};
template <>
struct Referred<PartId> {
  static constexpr std::string_view kind = "part", file = "parts.csv";
};
template <>
struct Referred<OrderId> {
  static constexpr std::string_view kind = "order", file = "orders.csv";
};

/// References, by the user's identifiers.
template <class Id>
requires requires {
  Referred<Id>::kind;
}
struct CellOf<Id> {
  static Result<Id> read(std::string_view cell, std::string_view column, const ReadContext& context) {
    const auto name = CellOf<std::string>::read(cell, column, context);
    if (!name) return tl::unexpected{name.error()};
    if (const auto id = context.names->find<Id>(*name)) return *id;
    // Where the other file is broken its own fault is told, and not every line that leads there.
    if (!context.names->complete<Id>()) return Id{};
    return tl::unexpected{names_nothing(*name, column, Referred<Id>::kind, Referred<Id>::file)};
  }
  static void write(Id value, const Shop& shop, std::string& out) {
    if (const auto* record = shop.find(value)) CellOf<std::string>::write(identifier(*record), shop, out);
  }
};

}  // namespace secondpull::db
