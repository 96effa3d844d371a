#include "core/calendar/minutes.h"

#include <optional>

#include <fmt/format.h>

#include "core/field_words.h"
#include "core/typed_words.h"

namespace secondpull {
namespace {

constexpr std::int64_t kMinutesMost = 100'000'000;
constexpr int kHour = 60;
constexpr std::size_t kDecimalsMost = 4;  // of typed hours

auto no_minutes(std::string_view text, std::string_view field, std::string_view how) {
  const std::string words = field_words(field, "minutes");
  return problem(text.empty() ? fmt::format("The {} are empty: {}.", words, how)
                              : fmt::format("The {} \"{}\" cannot be read: {}.", words, text, how),
                 std::string{field}, std::string{text});
}

/// Takes digits off the front; nothing if there are none.
std::optional<std::int64_t> take_number(std::string_view& text) {
  const auto end = std::min(text.find_first_not_of("0123456789"), text.size());
  const auto number = whole_number(text.substr(0, end));
  if (!number) return std::nullopt;
  text = trimmed(text.substr(end));
  return *number;
}

/// Takes the longest of the words that stands in front.
bool take_word(std::string_view& text, std::initializer_list<std::string_view> longest_first) {
  for (const std::string_view word : longest_first)
    if (begins_alike(text, word)) {
      text = trimmed(text.substr(word.size()));
      return true;
    }
  return false;
}

bool take_hours(std::string_view& text) {
  return take_word(text, {"hours", "hour", "hrs", "hr", "h"});
}
bool take_minutes(std::string_view& text) {
  return take_word(text, {"minutes", "minute", "mins", "min", "m"});
}

/// What stands after the point of "1.5h", as minutes rounded half up.
std::optional<std::int64_t> minutes_of_decimals(std::string_view decimals) {
  const auto number = whole_number(decimals);
  if (!number || decimals.size() > kDecimalsMost) return std::nullopt;
  std::int64_t scale = 1;
  for (std::size_t i = 0; i < decimals.size(); ++i)
    scale *= 10;
  return (2 * *number * kHour + scale) / (2 * scale);
}

std::optional<std::int64_t> typed(std::string_view text) {
  if (text.starts_with('.')) {  // ".5h"
    std::string_view rest = text.substr(1);
    const auto end = std::min(rest.find_first_not_of("0123456789"), rest.size());
    const auto minutes = minutes_of_decimals(rest.substr(0, end));
    rest = trimmed(rest.substr(end));
    return take_hours(rest) && rest.empty() ? minutes : std::nullopt;
  }
  const auto first = take_number(text);
  if (!first) return std::nullopt;
  if (text.empty() || (take_minutes(text) && text.empty())) return first;
  if (text.starts_with(':')) {  // "1:20"
    const std::string_view rest = text.substr(1);
    const auto minutes = whole_number(rest);
    return rest.size() == 2 && minutes && *minutes < kHour ? std::optional{*first * kHour + *minutes}
                                                           : std::nullopt;
  }
  if (text.starts_with('.')) {  // "1.5h"
    std::string_view rest = text.substr(1);
    const auto end = std::min(rest.find_first_not_of("0123456789"), rest.size());
    const auto minutes = minutes_of_decimals(rest.substr(0, end));
    rest = trimmed(rest.substr(end));
    return minutes && take_hours(rest) && rest.empty() ? std::optional{*first * kHour + *minutes}
                                                       : std::nullopt;
  }
  if (!take_hours(text)) return std::nullopt;
  if (text.empty()) return *first * kHour;
  const auto minutes = take_number(text);  // "1h20", "1 h 20 min"
  if (!minutes || *minutes >= kHour) return std::nullopt;
  return text.empty() || (take_minutes(text) && text.empty()) ? std::optional{*first * kHour + *minutes}
                                                              : std::nullopt;
}

}  // namespace

Result<Minutes> parse_minutes(std::string_view text, std::string_view field) {
  const auto number = whole_number(text);
  if (number && *number <= kMinutesMost) return Minutes{*number};
  return no_minutes(text, field, fmt::format("write whole minutes, at most {}", kMinutesMost));
}

Result<Minutes> parse_typed_minutes(std::string_view text, std::string_view field) {
  const std::string_view words = trimmed(text);
  const auto count = typed(words);
  if (count && *count <= kMinutesMost) return Minutes{*count};
  return no_minutes(words, field, "type them as 80, 80m, 1h20, 1:20 or 1.5h");
}

std::string shown(Minutes minutes) {
  const std::int64_t hours = minutes.count / kHour;
  const std::int64_t rest = minutes.count % kHour;
  if (hours == 0) return fmt::format("{} min", rest);
  return rest == 0 ? fmt::format("{} h", hours) : fmt::format("{} h {} min", hours, rest);
}

std::string decimal_hours(Minutes minutes) {
  // Hundredths of an hour are minutes x 5 / 3: halves cannot occur, so adding one before dividing rounds.
  const bool negative = minutes.count < 0;
  const std::int64_t size = negative ? -minutes.count : minutes.count;
  const std::int64_t hundredths = size / 3 * 5 + (size % 3 * 5 + 1) / 3;
  return fmt::format("{}{}.{:02}", negative ? "-" : "", hundredths / 100, hundredths % 100);
}

}  // namespace secondpull
