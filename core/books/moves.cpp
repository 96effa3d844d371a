#include "core/books/moves.h"

#include <fmt/format.h>

namespace secondpull::bookkeeping {

namespace {

Problem out_of_turn(const Machine& machine, std::string_view what, Date date) {
  return {fmt::format("#{} cannot be {} on {}: it was not {} then.", machine.tag, what, iso(date),
                      what == "taken back" ? "sold" : "here"),
          "date", iso(date)};
}

/// Walks along one machine's sales, returns and disposals.
class Turns {
 public:
  Turns(Position place, const ByMachine::Lines& lines, std::vector<Move>& moves)
      : place_{place}, lines_{lines}, moves_{moves} {}

  std::optional<Problem> walk() {
    while (const std::optional<Date> day = next_day()) {
      if (*day < lines_.acquisition->date)
        return Problem{fmt::format("#{} came in on {} and cannot leave on {}.", lines_.machine->tag,
                                   iso(lines_.acquisition->date), iso(*day)),
                       "date", iso(*day)};
      if (auto wrong = take(*day)) return wrong;
    }
    return std::nullopt;
  }

 private:
  template <class Record>
  static bool lies_on(const std::vector<const Record*>& records, std::size_t next, Date day) {
    return next < records.size() && records[next]->date == day;
  }
  std::optional<Date> next_day() const {
    std::optional<Date> day;
    const auto consider = [&](const auto& records, std::size_t next) {
      if (next < records.size() && (!day || records[next]->date < *day)) day = records[next]->date;
    };
    consider(lines_.sales, sale_);
    consider(lines_.returns, return_);
    consider(lines_.disposals, disposal_);
    return day;
  }

  std::optional<Problem> take(Date day) {
    if (here_ && lies_on(lines_.sales, sale_, day)) {
      add(day, Turn::move, lines_.sales[sale_++]);
      here_ = false;
      sold_on_ = day;
      return std::nullopt;
    }
    if (here_ && lies_on(lines_.disposals, disposal_, day)) {
      here_ = false;
      sold_on_.reset();
      return dispose(*lines_.disposals[disposal_++]);
    }
    if (!here_ && sold_on_ && lies_on(lines_.returns, return_, day)) {
      add(day, *sold_on_ < day ? Turn::comes_back : Turn::move, lines_.returns[return_++]);
      here_ = true;
      return std::nullopt;
    }
    if (lies_on(lines_.sales, sale_, day)) return out_of_turn(*lines_.machine, "sold", day);
    if (lies_on(lines_.returns, return_, day)) return out_of_turn(*lines_.machine, "taken back", day);
    return out_of_turn(*lines_.machine, "disposed of", day);
  }

  std::optional<Problem> dispose(const Disposal& disposal) {
    add(disposal.date, Turn::move, &disposal);
    if (disposal.how != DisposalKind::parted_out || disposal.hulk_here) return std::nullopt;
    const Date gone = disposal.hulk_gone.value_or(disposal.date);
    if (gone < disposal.date)
      return Problem{fmt::format("The hulk of #{} cannot be gone on {}, before it was parted out.",
                                 lines_.machine->tag, iso(gone)),
                     "hulk_gone", iso(gone)};
    add(gone, Turn::move, HulkGone{&disposal});
    return std::nullopt;
  }

  template <class What>
  void add(Date day, Turn turn, What what) {
    moves_.push_back({place_, day, turn, what});
  }

  Position place_;
  const ByMachine::Lines& lines_;
  std::vector<Move>& moves_;
  std::size_t sale_ = 0;
  std::size_t return_ = 0;
  std::size_t disposal_ = 0;
  bool here_ = true;
  std::optional<Date> sold_on_;
};

}  // namespace

std::optional<Problem> add_moves(Position machine, const ByMachine::Lines& lines, std::vector<Move>& moves) {
  if (lines.sales.empty() && lines.returns.empty() && lines.disposals.empty()) return std::nullopt;
  return Turns{machine, lines, moves}.walk();
}

std::optional<int> days_listed(const ByMachine::Lines& lines, Date since, Date sold) {
  for (const Listing* listing : lines.listings)
    if (listing->date >= since && listing->date <= sold) return days_between(listing->date, sold);
  return std::nullopt;
}

}  // namespace secondpull::bookkeeping
