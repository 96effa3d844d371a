#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/shop/shop.h"

namespace secondpull {

/// A machine as text names it: "#14"; "a machine" for an unknown id.
std::string called(const Shop& shop, MachineId machine);
std::string called(const Machine& machine);

/// A find as text names it: "Tarnwick TW-2", its kind ("push mower") where neither make nor model is known.
std::string called(const Find& find);

/// A record in a few words: "25 min diagnose on #14", "1 x carburettor on #14", "order O7", "sale of #14 to
/// Ruel for $160". Names are looked up in the shop given.
std::string described(const Shop& shop, const AnyRecord& record);

/// The record of an id of any kind, or nothing.
std::optional<AnyRecord> find_any(const Shop& shop, const AnyId& id);

/// "1 part", "3 parts".
std::string counted(std::int64_t count, std::string_view one, std::string_view many);

}  // namespace secondpull
