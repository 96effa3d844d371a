#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/shop/stage.h"

namespace secondpull {

/// Another machine of the shop that is like one on the bench, and what is known of it.
struct Alike {
  enum class By { model_number, make_and_model, engine };
  MachineId machine{};
  By by = By::engine;
  std::vector<std::pair<std::string, std::string>> faults;  ///< symptom and cause (empty: not known)
  std::vector<std::string> parts;                           ///< fitted, each name once, in the order fitted
  const Sale* sale = nullptr;                               ///< its last one; lives with the Shop
};

/// The machines that have this one's model number, its make and model, or its engine, in this order of
/// closeness, the latest first; `most` of them. Upper and lower case are alike; what is empty is like
/// nothing.
std::vector<Alike> machines_alike(const Shop& shop, const ByMachine& by_machine, MachineId machine,
                                  std::size_t most);

}  // namespace secondpull
