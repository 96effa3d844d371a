#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/shop/shop.h"

namespace secondpull {

// Guesses that a form starts with, from the shop's own record. They are marked as guesses on screen.

/// How good a machine of a lot looks before anybody has tried it.
enum class Worth { good, middling, for_parts };

struct WorthGuess {
  MachineKind kind = MachineKind::push;
  Worth worth = Worth::middling;
};

/// What each machine of a lot may have been worth on the day it came: the mean price at which this shop sold
/// its kind, times a share that depends on how good it looks (half, a quarter, a tenth: common practice, no
/// source), in whole units of the currency. A kind never sold takes the mean over all kinds; a shop that sold
/// nothing yet divides `paid` by the shares, so that only the proportions mean something. Values are never
/// negative.
std::vector<Money> guessed_values(const Shop& shop, std::span<const WorthGuess> machines, Money paid);

/// The kind, and the source, that this shop logs most often; push mower and curb before there is a record.
MachineKind usual_kind(const Shop& shop);
Source usual_source(const Shop& shop);

/// "Make model" typed in one line: the longest make known to the shop that the line starts with (whatever the
/// case), else the first word; the rest is the model. A single word that starts with or holds a digit is a
/// model without a make.
struct MakeAndModel {
  std::string make;
  std::string model;
};
MakeAndModel split_make_model(const Shop& shop, std::string_view line);

}  // namespace secondpull
