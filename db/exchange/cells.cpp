#include "db/exchange/cells.h"

#include <charconv>

#include "core/field_words.h"
#include "db/exchange/csv.h"

namespace secondpull::db {
namespace {

constexpr std::int64_t kLargestNumber = 1'000'000'000;  // of what is counted in whole or tenths
constexpr int kFirstYear = 1;
constexpr int kLastYear = 9999;
constexpr std::string_view kYes = "yes";

/// Digits alone, up to `kLargestNumber`.
std::optional<std::int64_t> digits(std::string_view text) {
  std::int64_t value = 0;
  const char* end = text.data() + text.size();
  if (text.empty() || text.front() < '0' || text.front() > '9') return std::nullopt;
  const auto [stopped, error] = std::from_chars(text.data(), end, value);
  if (error != std::errc{} || stopped != end || value > kLargestNumber) return std::nullopt;
  return value;
}

auto refused(std::string_view cell, std::string_view column, std::string_view why) {
  return problem(fmt::format("The {} \"{}\" {}.", field_words(column, "value"), cell, why),
                 std::string{column}, std::string{cell});
}

}  // namespace

Problem not_in_list(std::string_view cell, std::string_view column, std::string_view list) {
  return {fmt::format("\"{}\" is not one of: {}.", cell, list), std::string{column}, std::string{cell}};
}

Problem names_nothing(std::string_view cell, std::string_view column, std::string_view kind,
                      std::string_view file) {
  return {fmt::format("There is no {} \"{}\" in {}.", kind, cell, file), std::string{column},
          std::string{cell}};
}

Result<std::string> CellOf<std::string>::read(std::string_view cell, std::string_view, const ReadContext&) {
  return std::string{unguard_formula(cell)};
}
void CellOf<std::string>::write(const std::string& value, const Shop&, std::string& out) {
  out += guard_formula(value);
}

Result<Money> CellOf<Money>::read(std::string_view cell, std::string_view column,
                                  const ReadContext& context) {
  if (cell.starts_with('-')) return refused(cell, column, "is negative; amounts are not");
  return parse_amount(cell, context.settings->currency, column);
}
void CellOf<Money>::write(Money value, const Shop& shop, std::string& out) {
  out += plain(value, shop.settings.currency);
}

Result<Date> CellOf<Date>::read(std::string_view cell, std::string_view column, const ReadContext&) {
  return parse_date(cell, column);
}
void CellOf<Date>::write(Date value, const Shop&, std::string& out) {
  out += iso(value);
}

Result<Minutes> CellOf<Minutes>::read(std::string_view cell, std::string_view column, const ReadContext&) {
  return parse_minutes(cell, column);
}
void CellOf<Minutes>::write(Minutes value, const Shop&, std::string& out) {
  out += std::to_string(value.count);
}

Result<Tenths> CellOf<Tenths>::read(std::string_view cell, std::string_view column, const ReadContext&) {
  const auto point = cell.find('.');
  const auto whole = digits(cell.substr(0, point));
  const auto tenth =
      point == std::string_view::npos ? std::optional<std::int64_t>{0} : digits(cell.substr(point + 1));
  const bool one_decimal = point == std::string_view::npos || cell.size() == point + 2;
  if (!whole || !tenth || !one_decimal)
    return refused(cell, column, "is no number with at most one decimal, like 28 or 28.5");
  return Tenths{*whole * 10 + *tenth};
}
void CellOf<Tenths>::write(Tenths value, const Shop&, std::string& out) {
  out += std::to_string(value.count / 10);
  if (value.count % 10 != 0) out += fmt::format(".{}", value.count % 10);
}

Result<std::int64_t> CellOf<std::int64_t>::read(std::string_view cell, std::string_view column,
                                                const ReadContext&) {
  if (const auto value = digits(cell)) return *value;
  return refused(cell, column, "is no whole number, like 3");
}
void CellOf<std::int64_t>::write(std::int64_t value, const Shop&, std::string& out) {
  out += std::to_string(value);
}

Result<int> CellOf<int>::read(std::string_view cell, std::string_view column, const ReadContext&) {
  const auto value = digits(cell);
  if (value && *value >= kFirstYear && *value <= kLastYear) return static_cast<int>(*value);
  return refused(cell, column, "is no year, like 2019");
}
void CellOf<int>::write(int value, const Shop&, std::string& out) {
  out += std::to_string(value);
}

Result<bool> CellOf<bool>::read(std::string_view cell, std::string_view column, const ReadContext&) {
  if (cell == kYes) return true;
  return refused(cell, column, "is neither \"yes\" nor empty");
}
void CellOf<bool>::write(bool value, const Shop&, std::string& out) {
  if (value) out += kYes;
}

Result<Currency> CellOf<Currency>::read(std::string_view cell, std::string_view column, const ReadContext&) {
  Result<Currency> currency = currency_of(cell);
  if (!currency) currency.error().field = column;
  return currency;
}
void CellOf<Currency>::write(const Currency& value, const Shop&, std::string& out) {
  out += value.code;
}

Result<std::int64_t> Quantity::read(std::string_view cell, std::string_view column, const ReadContext&) {
  const auto value = digits(cell);
  if (value && *value >= 1) return *value;
  return refused(cell, column, "is no whole number of at least 1");
}
void Quantity::write(std::int64_t value, const Shop&, std::string& out) {
  out += std::to_string(value);
}

}  // namespace secondpull::db
