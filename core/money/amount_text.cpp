#include <algorithm>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "core/field_words.h"
#include "core/money/money.h"
#include "core/typed_words.h"

namespace secondpull {
namespace {

constexpr std::string_view kTrueMinus = "\u2212";
constexpr int kGroup = 3;  // digits between two commas

/// Signs that the program writes and reads. Every other currency goes by its code.
std::string_view sign_of(const Currency& currency) {
  if (currency.code == "USD") return "$";
  if (currency.code == "EUR") return "€";
  if (currency.code == "GBP") return "£";
  return {};
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool all_digits(std::string_view text) {
  return std::all_of(text.begin(), text.end(), is_digit);
}

/// What an amount is called in a sentence, and what was typed for it.
struct Asked {
  std::string_view text;
  std::string_view field;
  auto wrong(std::string sentence) const {
    return problem(std::move(sentence), std::string{field}, std::string{text});
  }
  std::string words() const { return field_words(field, "amount"); }
};

auto not_an_amount(const Asked& asked, const Currency& currency) {
  const std::string example = currency.digits == 0 ? "1234" : fmt::format("1234.{:0>{}}", 5, currency.digits);
  if (asked.text.empty())
    return asked.wrong(fmt::format("The {} is empty: write it like {}.", asked.words(), example));
  return asked.wrong(
      fmt::format("The {} \"{}\" is no amount: write it like {}.", asked.words(), asked.text, example));
}

/// The amount of digits before and after a point; both may be empty, not at once.
Result<Money> from_digits(std::string_view whole, std::string_view decimals, bool negative,
                          const Asked& asked, const Currency& currency) {
  if ((whole.empty() && decimals.empty()) || !all_digits(whole) || !all_digits(decimals))
    return not_an_amount(asked, currency);
  if (std::cmp_greater(decimals.size(), currency.digits))
    return asked.wrong(fmt::format("The {} {} has more decimals than {} allows ({}).", asked.words(),
                                   asked.text, currency.code, currency.digits));
  std::int64_t units = 0;
  const auto append = [&](char digit) {
    units = units * 10 + (digit - '0');
    return units <= kLargestAmount;
  };
  bool fits = true;
  for (const char digit : whole)
    fits = fits && append(digit);
  for (const char digit : decimals)
    fits = fits && append(digit);
  for (auto i = std::ssize(decimals); i < currency.digits; ++i)
    fits = fits && append('0');
  if (!fits)
    return asked.wrong(fmt::format("The {} {} is too large: at most {} can be kept.", asked.words(),
                                   asked.text, plain(Money::from_minor(kLargestAmount), currency)));
  return Money::from_minor(negative ? -units : units);
}

bool take_front(std::string_view& text, std::string_view mark) {
  if (mark.empty() || !begins_alike(text, mark)) return false;
  text = trimmed(text.substr(mark.size()));
  return true;
}

bool take_back(std::string_view& text, std::string_view mark) {
  if (mark.empty() || text.size() < mark.size() || !same_word(text.substr(text.size() - mark.size()), mark))
    return false;
  text = trimmed(text.substr(0, text.size() - mark.size()));
  return true;
}

/// "1,234" is 1234; nothing if the commas do not part thousands.
std::optional<std::string> without_commas(std::string_view whole) {
  if (whole.find(',') == std::string_view::npos) return std::string{whole};
  std::string digits;
  for (bool first = true;; first = false) {
    const auto comma = whole.find(',');
    const std::string_view group = whole.substr(0, comma);
    if (group.empty() || group.size() > kGroup || (!first && group.size() != kGroup)) return std::nullopt;
    digits += group;
    if (comma == std::string_view::npos) return digits;
    whole.remove_prefix(comma + 1);
  }
}

std::pair<std::string, std::string> whole_and_decimals(Money amount, const Currency& currency) {
  std::string digits = std::to_string(amount.minor());
  if (digits.front() == '-') digits.erase(0, 1);
  const auto decimals = static_cast<std::size_t>(currency.digits);
  if (digits.size() <= decimals) digits.insert(0, decimals + 1 - digits.size(), '0');
  return {digits.substr(0, digits.size() - decimals), digits.substr(digits.size() - decimals)};
}

std::string for_reading(Money amount, const Currency& currency, bool drop_zero_decimals) {
  auto [whole, decimals] = whole_and_decimals(amount, currency);
  for (auto at = std::ssize(whole) - kGroup; at > 0; at -= kGroup)
    whole.insert(static_cast<std::size_t>(at), 1, ',');
  if (drop_zero_decimals && decimals.find_first_not_of('0') == std::string::npos) decimals.clear();
  const std::string_view sign = sign_of(currency);
  return fmt::format("{}{}{}{}{}{}", amount.minor() < 0 ? kTrueMinus : "", sign, whole,
                     decimals.empty() ? "" : ".", decimals, sign.empty() ? " " + currency.code : "");
}

}  // namespace

Result<Money> parse_amount(std::string_view text, const Currency& currency, std::string_view field) {
  const Asked asked{text, field};
  std::string_view rest = text;
  const bool negative = rest.starts_with('-');
  if (negative) rest.remove_prefix(1);
  const auto point = rest.find('.');
  if (point == std::string_view::npos) return from_digits(rest, {}, negative, asked, currency);
  const std::string_view decimals = rest.substr(point + 1);
  if (point == 0 || decimals.empty()) return not_an_amount(asked, currency);
  return from_digits(rest.substr(0, point), decimals, negative, asked, currency);
}

Result<Money> parse_typed_amount(std::string_view text, const Currency& currency, std::string_view field) {
  const Asked asked{trimmed(text), field};
  std::string_view rest = asked.text;
  bool negative = take_front(rest, "-") || take_front(rest, kTrueMinus);
  const std::string_view sign = sign_of(currency);
  if (!take_front(rest, currency.code) && !take_front(rest, sign) && !take_back(rest, currency.code))
    take_back(rest, sign);
  if (!negative) negative = take_front(rest, "-") || take_front(rest, kTrueMinus);

  const auto point = rest.find('.');
  const auto whole = without_commas(rest.substr(0, point));
  if (!whole)
    return asked.wrong(
        fmt::format("The {} \"{}\" cannot be read: a comma parts thousands (1,234), a point decimals.",
                    asked.words(), asked.text));
  const std::string_view decimals =
      point == std::string_view::npos ? std::string_view{} : rest.substr(point + 1);
  return from_digits(*whole, decimals, negative, asked, currency);
}

std::string plain(Money amount, const Currency& currency) {
  const auto [whole, decimals] = whole_and_decimals(amount, currency);
  return fmt::format("{}{}{}{}", amount.minor() < 0 ? "-" : "", whole, decimals.empty() ? "" : ".", decimals);
}

std::string shown(Money amount, const Currency& currency) {
  return for_reading(amount, currency, false);
}
std::string shown_short(Money amount, const Currency& currency) {
  return for_reading(amount, currency, true);
}

}  // namespace secondpull
