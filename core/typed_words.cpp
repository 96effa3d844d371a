#include "core/typed_words.h"

#include <algorithm>

namespace secondpull {
namespace {

constexpr std::size_t kDigitsMost = 9;  // what an int surely holds

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

std::optional<int> whole_number(std::string_view text) {
  if (text.empty() || text.size() > kDigitsMost) return std::nullopt;
  int number = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    number = number * 10 + (c - '0');
  }
  return number;
}

bool same_word(std::string_view a, std::string_view b) {
  return a.size() == b.size() && begins_alike(a, b);
}

bool begins_alike(std::string_view name, std::string_view word) {
  return word.size() <= name.size() && std::equal(word.begin(), word.end(), name.begin(),
                                                  [](char a, char b) { return lower(a) == lower(b); });
}

std::vector<std::string_view> pieces(std::string_view text, std::string_view separators) {
  std::vector<std::string_view> found;
  for (;;) {
    const auto first = text.find_first_not_of(separators);
    if (first == std::string_view::npos) return found;
    text.remove_prefix(first);
    const auto last = text.find_first_of(separators);
    found.push_back(text.substr(0, last));
    if (last == std::string_view::npos) return found;
    text.remove_prefix(last);
  }
}

}  // namespace secondpull
