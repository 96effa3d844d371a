#include "app/bench/guesses.h"

#include <tuple>

#include <QCoreApplication>

namespace secondpull::app {
namespace {

QString say(const char* text) {
  return QCoreApplication::translate("Guesses", text);
}

/// The listing that is out now: the last one not ended.
const Listing* openListing(const ByMachine::Lines& lines) {
  const Listing* open = nullptr;
  for (const Listing* listing : lines.listings)
    if (!listing->ended) open = listing;
  return open;
}

}  // namespace

std::optional<Guess> sellingPriceGuess(const Shop& shop, const ByMachine& by_machine, MachineId machine) {
  const Machine* about = shop.find(machine);
  if (about == nullptr) return std::nullopt;
  if (const Listing* listing = openListing(by_machine.of(machine)))
    return Guess{listing->asking, say("its asking price")};

  Money sum;
  std::int64_t count = 0;
  for (const Sale& sale : shop.all<Sale>()) {
    const Machine* sold = shop.find(sale.machine);
    if (sold == nullptr || sold->kind != about->kind) continue;
    if (stage_of(by_machine.of(sale.machine)) != Stage::sold) continue;  // it came back
    sum += sale.price;
    ++count;
  }
  if (count == 0) return std::nullopt;
  return Guess{scale(sum, 1, count), count == 1 ? say("what the one of its kind brought here")
                                                : say("mean of %1 of its kind sold here").arg(count)};
}

std::optional<Money> lastPrice(const Shop& shop, PartId part) {
  const OrderLine* last = nullptr;
  std::tuple<Date, std::int64_t> when{};
  for (const OrderLine& line : shop.all<OrderLine>()) {
    if (line.part != part) continue;
    const Order* order = shop.find(line.order);
    if (order == nullptr) continue;
    const std::tuple<Date, std::int64_t> then{order->date, line.entered};
    if (last != nullptr && then < when) continue;
    last = &line;
    when = then;
  }
  return last != nullptr ? std::optional{last->price} : std::nullopt;
}

std::optional<Guess> usedPartGuess(const Shop& shop, PartId part) {
  const Harvest* last = nullptr;
  for (const Harvest& line : shop.all<Harvest>()) {
    if (line.part != part || line.quantity < 1) continue;
    if (last == nullptr || std::tuple{last->date, last->entered} <= std::tuple{line.date, line.entered})
      last = &line;
  }
  if (last != nullptr) return Guess{scale(last->value, 1, last->quantity), say("as the last one taken off")};
  if (const auto price = lastPrice(shop, part))
    return Guess{scale(*price, 1, 2), say("half of what a new one cost")};
  return std::nullopt;
}

}  // namespace secondpull::app
