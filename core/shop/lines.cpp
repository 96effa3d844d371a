#include <algorithm>

#include <fmt/format.h>

#include "core/shop/bench.h"
#include "core/shop/describe.h"
#include "core/shop/intake.h"
#include "core/shop/rules.h"
#include "core/shop/shelf.h"

// Taking away and putting right single lines, whatever their kind.

namespace secondpull {
namespace {

/// The change, unless it leaves the shop with a rule broken.
Result<Change> if_in_order(const Shop& shop, Change change, std::string_view what) {
  const auto after = apply(shop, change);
  if (!after) return tl::unexpected(after.error());
  const auto wrong = broken_rules(*after);
  if (wrong.empty()) return change;
  const auto record = find_any(*after, wrong.front().record);
  Problem told = wrong.front().problem;
  const bool other = std::none_of(change.edits().begin(), change.edits().end(), [&](const Edit& edit) {
    return edit.kind != EditKind::remove && record && edit.record == *record;
  });
  if (other)
    told.sentence = fmt::format("{} cannot be done, {} depends on it: {}", what,
                                record ? described(*after, *record) : "something", told.sentence);
  return tl::unexpected(told);
}

/// What goes along with a record: the lines of an order, and an order with its last line; what a parting
/// gave; what was said about a find; the chances of a forecast; the deposit of an offer; the forecasts of a
/// fault.
class Removal {
 public:
  Removal(const Shop& shop, Change& change) : shop_{shop}, change_{change} {}

  void operator()(const Order& order) const {
    for (const OrderLine& line : shop_.all<OrderLine>())
      if (line.order == order.id) change_.remove(line);
    for (const Photo& photo : shop_.all<Photo>())
      if (photo.order == order.id) change_.remove(photo);
    change_.remove(order);
  }
  void operator()(const OrderLine& line) const {
    const auto& lines = shop_.all<OrderLine>();
    const Order* const order = shop_.find(line.order);
    const bool last = std::none_of(lines.begin(), lines.end(), [&](const OrderLine& other) {
      return other.order == line.order && other.id != line.id;
    });
    if (last && order != nullptr)
      (*this)(*order);
    else
      change_.remove(line);
  }
  void operator()(const Disposal& disposal) const {
    if (disposal.how == DisposalKind::parted_out)
      for (const Harvest& line : shop_.all<Harvest>())
        if (line.donor == disposal.machine) change_.remove(line);
    change_.remove(disposal);
  }
  void operator()(const Expense& expense) const {
    for (const Photo& photo : shop_.all<Photo>())
      if (photo.expense == expense.id) change_.remove(photo);
    change_.remove(expense);
  }
  void operator()(const Find& find) const {
    for (const FindAnswer& answer : shop_.all<FindAnswer>())
      if (answer.find == find.id) change_.remove(answer);
    change_.remove(find);
  }
  void operator()(const Forecast& forecast) const {
    for (const ForecastCause& cause : shop_.all<ForecastCause>())
      if (cause.forecast == forecast.id) change_.remove(cause);
    change_.remove(forecast);
  }
  void operator()(const Fault& fault) const {
    for (const Forecast& forecast : shop_.all<Forecast>())
      if (forecast.fault == fault.id) (*this)(forecast);
    change_.remove(fault);
  }
  void operator()(const Offer& offer) const {
    for (const Deposit& deposit : shop_.all<Deposit>())
      if (deposit.offer == offer.id) change_.remove(deposit);
    change_.remove(offer);
  }
  /// The offer that the sale took up is open again.
  void operator()(const Sale& sale) const {
    Date since{};  // of the stay that the sale ended
    for (const Sale& other : shop_.all<Sale>())
      if (other.machine == sale.machine && other.id != sale.id && other.date <= sale.date)
        since = std::max(since, other.date);
    for (const Offer& offer : shop_.all<Offer>()) {
      if (offer.machine != sale.machine || offer.result != OfferResult::taken) continue;
      if (offer.date > sale.date || offer.date < since) continue;
      Offer open = offer;
      open.result.reset();
      change_.replace(open);
    }
    change_.remove(sale);
  }
  template <class Record>
  void operator()(const Record& record) const {
    change_.remove(record);
  }

 private:
  const Shop& shop_;
  Change& change_;
};

template <class Record>
Result<Change> replace_record(const Shop& shop, const Record& changed) {
  const Record* const before = shop.find(changed.id);
  if (before == nullptr)
    return problem("That line is not in the shop's records any more: nothing was changed.");
  Record after = changed;
  after.entered = before->entered;
  Change change{shop, "Changed: " + described(shop, AnyRecord{after})};
  if (after != *before) change.replace(after);
  return if_in_order(shop, std::move(change), "That change");
}
Result<Change> replace_record(const Shop& shop, const Machine& changed) {
  return edit_machine(shop, changed);
}
Result<Change> replace_record(const Shop& shop, const Acquisition& changed) {
  return edit_acquisition(shop, changed);
}
Result<Change> replace_record(const Shop& shop, const Part& changed) {
  return edit_part(shop, changed);
}

}  // namespace

Result<Change> remove_line(const Shop& shop, const AnyId& line) {
  if (const auto* const machine = std::get_if<MachineId>(&line)) return remove_machine(shop, *machine);
  const auto record = find_any(shop, line);
  if (!record) return problem("That line is not in the shop's records any more: nothing was removed.");
  Change change{shop, "Removed: " + described(shop, *record)};
  std::visit(Removal{shop, change}, *record);
  return if_in_order(shop, std::move(change), "Removing it");
}

Result<Change> replace_line(const Shop& shop, const AnyRecord& line) {
  return std::visit([&](const auto& record) { return replace_record(shop, record); }, line);
}

}  // namespace secondpull
