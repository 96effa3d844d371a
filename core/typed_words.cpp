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

bool holds_words(std::string_view text, std::string_view words) {
  if (words.empty()) return false;
  // Bytes of letters beyond ASCII are part of a word too.
  const auto in_word = [](char c) {
    return (c >= '0' && c <= '9') || (lower(c) >= 'a' && lower(c) <= 'z') ||
           (static_cast<unsigned char>(c) & 0x80);
  };
  for (std::size_t at = 0; at + words.size() <= text.size(); ++at) {
    const std::size_t end = at + words.size();
    if (begins_alike(text.substr(at), words) && (at == 0 || !in_word(text[at - 1])) &&
        (end == text.size() || !in_word(text[end])))
      return true;
  }
  return false;
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
