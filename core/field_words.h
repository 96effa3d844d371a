#pragma once

#include <algorithm>
#include <string>
#include <string_view>

namespace secondpull {

/// A field's name as a sentence says it: "pickup_cost" is "pickup cost"; without a name, `otherwise`.
inline std::string field_words(std::string_view field, std::string_view otherwise) {
  std::string words{field.empty() ? otherwise : field};
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

}  // namespace secondpull
