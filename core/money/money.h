#pragma once

#include <compare>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/result.h"

namespace secondpull {

/// A currency by its ISO 4217 letters, with the number of decimals its amounts have (USD 2, JPY 0, KWD 3).
struct Currency {
  std::string code = "USD";
  int digits = 2;
  friend bool operator==(const Currency&, const Currency&) = default;
};

/// The currency of an ISO 4217 code in capitals, or a problem naming `currency` for an unknown code.
/// Source of the digits: ISO 4217, list one.
Result<Currency> currency_of(std::string_view code);

/// Every currency the program knows, in order of code.
std::span<const Currency> currencies();

/// Money in whole minor units (cents). Never made from a double. Which currency it is, the shop knows.
class Money {
 public:
  constexpr Money() = default;
  static constexpr Money from_minor(std::int64_t units) { return Money{units}; }
  constexpr std::int64_t minor() const { return minor_; }
  constexpr bool is_zero() const { return minor_ == 0; }

  friend Money operator+(Money a, Money b);         ///< throws std::overflow_error
  friend Money operator-(Money a, Money b);         ///< throws std::overflow_error
  friend Money operator*(Money a, std::int64_t n);  ///< throws std::overflow_error
  Money operator-() const;                          ///< throws std::overflow_error
  Money& operator+=(Money b) { return *this = *this + b; }
  Money& operator-=(Money b) { return *this = *this - b; }
  friend constexpr auto operator<=>(Money, Money) = default;

 private:
  constexpr explicit Money(std::int64_t units) : minor_{units} {}
  std::int64_t minor_ = 0;
};

/// The largest amount, either way, that may be typed or read, in minor units. Sums of such amounts are still
/// checked: the rules of the records bound their total, and an operator that would overflow throws.
inline constexpr std::int64_t kLargestAmount = 10'000'000'000'000'000;

/// Splits `total` in proportion to `weights` by largest remainder (Hamilton): every share is floored, the
/// units left over go one each to the largest remainders, the earlier position winning a tie. The parts add
/// up to `total` exactly. A negative total mirrors its positive twin. Weights all zero mean equal shares.
/// Works in 128 bits inside, so any total and any weights whose sum fits 64 bits are split exactly.
/// @throws std::invalid_argument  no weights, or a negative one
/// @throws std::overflow_error    sum(weights) does not fit 64 bits
std::vector<Money> split(Money total, std::span<const std::int64_t> weights);
std::vector<Money> split(Money total, std::span<const Money> weights);
/// `pieces` equal shares, the left-over units to the earliest.
std::vector<Money> split_evenly(Money total, std::size_t pieces);

/// amount x numerator / denominator, rounded half away from zero, once.
/// @throws std::invalid_argument  denominator <= 0
/// @throws std::overflow_error    the result does not fit
Money scale(Money amount, std::int64_t numerator, std::int64_t denominator);

/// Reads a decimal amount as files hold it: digits, at most one point, at most `currency.digits` decimals, an
/// optional leading minus; no grouping, no spaces, no exponent. The problem names `field` and the text.
Result<Money> parse_amount(std::string_view text, const Currency& currency, std::string_view field);

/// Reads an amount as a person types it: as above, and also "12.5", ".5", "1,234.50", "$ 12" (a sign of the
/// currency or its code before or after), surrounding spaces.
Result<Money> parse_typed_amount(std::string_view text, const Currency& currency, std::string_view field);

/// Plain decimal text with exactly the currency's digits: "-1234.50".
std::string plain(Money amount, const Currency& currency);

/// For reading: "$1,234.50", "−$3.20" (a true minus sign, U+2212), "1,234 JPY" for a currency without a sign
/// of ours.
std::string shown(Money amount, const Currency& currency);

/// As `shown`, without decimals if they are all zero: "$160", "$12.50". For running text.
std::string shown_short(Money amount, const Currency& currency);

}  // namespace secondpull
