#include "core/shop/turns.h"

#include <algorithm>
#include <tuple>

namespace secondpull {
namespace {

/// The turns of one day, of a machine: they lie next to each other, sales before returns before disposals.
struct DayOfTurns {
  std::span<const Turn> sales;
  std::span<const Turn> returns;
  std::span<const Turn> disposals;
};

std::span<const Turn> take_kind(std::span<const Turn>& rest, TurnKind kind) {
  const auto end =
      std::find_if(rest.begin(), rest.end(), [&](const Turn& turn) { return turn.kind != kind; });
  const auto count = static_cast<std::size_t>(end - rest.begin());
  const auto taken = rest.first(count);
  rest = rest.subspan(count);
  return taken;
}

DayOfTurns take_day(std::span<const Turn>& rest) {
  const Date day = rest.front().date;
  const auto end = std::find_if(rest.begin(), rest.end(), [&](const Turn& turn) { return turn.date != day; });
  const auto count = static_cast<std::size_t>(end - rest.begin());
  std::span<const Turn> of_day = rest.first(count);
  rest = rest.subspan(count);
  DayOfTurns found;
  found.sales = take_kind(of_day, TurnKind::sale);
  found.returns = take_kind(of_day, TurnKind::comeback);
  found.disposals = of_day;
  return found;
}

/// Walks the turns of a machine a day at a time: where it is after each, and which of them cannot have been.
class Walk {
 public:
  void over(const DayOfTurns& day) {
    // The first of the other kind waits for its turn; what is left over when no turn is to be had is wrong.
    std::size_t sales = 0;
    std::size_t returns = 0;
    while (!disposed_) {
      if (!sold_ && sales < day.sales.size()) {
        sold_ = true;
        ++sales;
      } else if (sold_ && returns < day.returns.size()) {
        sold_ = false;
        ++returns;
      } else {
        break;
      }
    }
    refuse(day.sales.subspan(sales));
    refuse(day.returns.subspan(returns));
    const bool may_go = !disposed_ && !sold_ && !day.disposals.empty();
    if (may_go) disposed_ = true;
    refuse(day.disposals.subspan(may_go ? 1 : 0));
  }
  bool sold() const { return sold_; }
  bool disposed() const { return disposed_; }
  std::vector<Turn>& refused() { return refused_; }

 private:
  void refuse(std::span<const Turn> turns) { refused_.insert(refused_.end(), turns.begin(), turns.end()); }

  bool sold_ = false;
  bool disposed_ = false;
  std::vector<Turn> refused_;
};

}  // namespace

Turns::Turns(const Shop& shop) {
  turns_.reserve(shop.all<Sale>().size() + shop.all<Return>().size() + shop.all<Disposal>().size());
  const auto collect = [&]<class Record>(const Table<Record>& table, TurnKind kind) {
    for (const Record& record : table)
      turns_.push_back({record.machine, record.date, kind, record.entered, AnyId{record.id}});
  };
  collect(shop.all<Sale>(), TurnKind::sale);
  collect(shop.all<Return>(), TurnKind::comeback);
  collect(shop.all<Disposal>(), TurnKind::disposal);
  std::sort(turns_.begin(), turns_.end(), [](const Turn& a, const Turn& b) {
    return std::tie(a.machine, a.date, a.kind, a.entered) < std::tie(b.machine, b.date, b.kind, b.entered);
  });
}

std::span<const Turn> Turns::of(MachineId machine) const {
  const auto first = std::lower_bound(turns_.begin(), turns_.end(), machine,
                                      [](const Turn& turn, MachineId id) { return turn.machine < id; });
  const auto last =
      std::find_if(first, turns_.end(), [&](const Turn& turn) { return turn.machine != machine; });
  return {first, last};
}

std::vector<Turn> Turns::out_of_turn(const Machine& machine, Date came) const {
  std::span<const Turn> rest = of(machine.id);
  Walk walk;
  while (!rest.empty()) {
    const bool too_early = rest.front().date < came;
    const DayOfTurns day = take_day(rest);
    if (too_early)
      for (const auto& turns : {day.sales, day.returns, day.disposals})
        walk.refused().insert(walk.refused().end(), turns.begin(), turns.end());
    else
      walk.over(day);
  }
  return std::move(walk.refused());
}

bool Turns::sold_at_end_of(MachineId machine, Date day) const {
  std::span<const Turn> rest = of(machine);
  Walk walk;
  while (!rest.empty() && rest.front().date <= day)
    walk.over(take_day(rest));
  return walk.sold();
}

bool Turns::here_or_parted_on(MachineId machine, Date came, Date day) const {
  if (day < came) return false;
  std::span<const Turn> rest = of(machine);
  Walk walk;
  while (!rest.empty() && rest.front().date < day)
    walk.over(take_day(rest));
  if (!walk.sold()) return true;
  return !rest.empty() && rest.front().date == day && !take_day(rest).returns.empty();
}

std::optional<Turn> Turns::gone_by(MachineId machine) const {
  std::optional<Turn> last_sale;
  std::int64_t out = 0;
  for (const Turn& turn : of(machine)) {
    if (turn.kind == TurnKind::disposal) return turn;
    out += turn.kind == TurnKind::sale ? 1 : -1;
    if (turn.kind == TurnKind::sale) last_sale = turn;
  }
  return out > 0 ? last_sale : std::nullopt;
}

}  // namespace secondpull
