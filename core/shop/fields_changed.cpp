#include "core/shop/fields_changed.h"

#include <fmt/format.h>

namespace secondpull {

std::string FieldsChanged::title(std::string_view record) const {
  constexpr std::size_t kMostNamed = 3;
  if (names_.empty() || names_.size() > kMostNamed) return fmt::format("Changed {}", record);
  std::string list;
  for (std::size_t i = 0; i < names_.size(); ++i)
    list += (i == 0 ? "" : i + 1 == names_.size() ? " and " : ", ") + names_[i];
  return fmt::format("Changed {}: {}", record, list);
}

}  // namespace secondpull
