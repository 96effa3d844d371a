#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/books/books.h"
#include "core/books/positions.h"

namespace secondpull::bookkeeping {

/// The order of a day: what comes in is first, then materials and outside work, then partings, then parts
/// fitted and sold; machines leave (and those sold that day may come back) last. Allowances are given on what
/// is sold at the end of the day.
enum class Turn : std::uint8_t {
  acquisition,
  arrival,
  comes_back,  ///< a machine that was gone the evening before
  material,
  outside_work,
  parting,
  fitting,
  part_sale,
  move,  ///< sale, disposal, a hulk that goes, a machine sold on this day coming back
  allowance,
  trip,
  expense,
  tax_paid
};

/// One leg of a transaction: a posting, and what it means for a machine's figures. The figure line is minus
/// the amount posted: a debit of cost is money gone, a credit of income is money earned.
struct Leg {
  AccountKind account = AccountKind::cash;
  Money amount;
  Position machine = nowhere;    ///< the account's machine, or the one that the line counts for
  std::optional<LineKind> line;  ///< absent: moves what was counted before, or concerns no machine
  std::uint32_t name = 0;        ///< category or place, by Ledger::name
};

/// All postings of a shop, kept flat: a shop of 100,000 machines has more than a million of them.
class Ledger {
 public:
  struct Entry : Leg {
    std::uint32_t happening = 0;
  };
  struct Happening {
    Date date{};
    Turn turn = Turn::acquisition;
    AnyId event;
    std::size_t first_entry = 0;
  };

  /// Makes room for the postings of that many events.
  void reserve(std::size_t events);
  /// Begins the transaction of an event; the legs that follow are its postings. An event that moves no money
  /// leaves no transaction.
  void open(Date date, Turn turn, AnyId event);
  void post(const Leg& leg);
  /// The number that stands for a category or place.
  std::uint32_t name(std::string_view text);

  const std::vector<Entry>& entries() const { return entries_; }
  const std::vector<Happening>& happenings() const { return happenings_; }
  const std::string& name(std::uint32_t number) const { return names_[number]; }
  /// The entries of a happening.
  std::pair<const Entry*, const Entry*> legs(std::size_t happening) const;
  /// Drops an event without postings at the end. Call after the last post().
  void close();

 private:
  std::vector<Happening> happenings_;
  std::vector<Entry> entries_;
  std::vector<std::string> names_{std::string{}};
  std::map<std::string, std::uint32_t, std::less<>> numbers_{{std::string{}, 0}};
};

}  // namespace secondpull::bookkeeping
