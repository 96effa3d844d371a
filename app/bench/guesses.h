#pragma once

#include <optional>

#include <QString>

#include "core/shop/shop.h"
#include "core/shop/stage.h"

namespace secondpull::app {

// Values that a person cannot be asked for out of the blue, taken from the shop's own record. Each is shown
// as the guess it is.

/// An amount and where it comes from, in words: "mean of 7 sold here", "its asking price".
struct Guess {
  Money amount;
  QString from;
};

/// What a machine may sell for: its asking price if it is out for sale, else the mean price of the machines
/// of its kind sold here and not brought back (rounded once, half away from zero); absent if there are none.
std::optional<Guess> sellingPriceGuess(const Shop& shop, const ByMachine& by_machine, MachineId machine);

/// The price each of the part when it was last ordered, freight and tax apart; absent if it never was.
std::optional<Money> lastPrice(const Shop& shop, PartId part);

/// What one used piece of the part is worth: what the last one taken from a donor was valued at, else half
/// its last price (common practice, no source); absent if neither is known.
std::optional<Guess> usedPartGuess(const Shop& shop, PartId part);

}  // namespace secondpull::app
