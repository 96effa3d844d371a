#pragma once

#include <map>
#include <string>

#include "core/shop/bench.h"
#include "core/shop/change.h"
#include "core/shop/intake.h"

namespace secondpull {

// Codes of records that the window adds: exchange files name records by them, a person may change them later.

std::string next_acquisition_code(const Shop& shop);  ///< "A12": one above the largest number in use
std::string next_order_code(const Shop& shop);  ///< "O7"; no machine's tag, since a part may come from either
std::string next_fault_code(const Shop& shop);  ///< "F3"
std::string next_person_code(const Shop& shop);  ///< "P5"

/// A name in small letters and digits with hyphens: "Blade, 20 inch" is "blade-20-inch". Letters beyond ASCII
/// stay as they are; a name without any letter or digit gives "part".
std::string slug(std::string_view name);

/// The person chosen, added by the change if the name is new; nothing if nobody was named. A problem for an
/// unknown person.
Result<std::optional<PersonId>> choose_person(const Shop& shop, Change& change, const PersonChoice& choice,
                                              std::string_view field);

/// Finds or adds the parts that the lines of one form name, so that a name typed twice is one part.
class PartChooser {
 public:
  PartChooser(const Shop& shop, Change& change) : shop_{shop}, change_{change} {}
  /// The part chosen. A part that has that name and number already is it, whatever the case of its letters.
  Result<PartId> choose(const PartChoice& choice);
  /// The name of a part that was chosen.
  std::string name(PartId part) const;

 private:
  std::string unique_code(const std::string& name) const;

  const Shop& shop_;
  Change& change_;
  std::map<PartId, Part> added_;
};

}  // namespace secondpull
