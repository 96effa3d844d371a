#include <algorithm>

#include <fmt/format.h>

#include "core/money/money.h"

namespace secondpull {
namespace {

// ISO 4217, list one, by the number of decimals: the codes of countries and funds. Codes without decimals of
// their own (metals, bond units, testing) are left out, since no books are kept in them. ANG, BGN, HRK and
// ZWL were withdrawn lately and stay for older books.
constexpr std::string_view kNoDecimals =
    "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF ";
constexpr std::string_view kTwoDecimals =
    "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF "
    "CHE CHF CHW CNY COP COU CRC CUC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ "
    "GYD HKD HNL HRK HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD "
    "MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD "
    "RUB SAR SBD SCR SDG SEK SGD SHP SLE SLL SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH "
    "USD USN UYU UZS VED VES WST XCD XCG YER ZAR ZMW ZWG ZWL ";
constexpr std::string_view kThreeDecimals = "BHD IQD JOD KWD LYD OMR TND ";
constexpr std::string_view kFourDecimals = "CLF UYW ";

constexpr std::size_t kLetters = 3;

void append(std::vector<Currency>& all, std::string_view codes, int digits) {
  for (; codes.size() >= kLetters; codes.remove_prefix(kLetters + 1))
    all.push_back({std::string{codes.substr(0, kLetters)}, digits});
}

std::vector<Currency> make_currencies() {
  std::vector<Currency> all;
  append(all, kNoDecimals, 0);
  append(all, kTwoDecimals, 2);
  append(all, kThreeDecimals, 3);
  append(all, kFourDecimals, 4);
  std::sort(all.begin(), all.end(), [](const Currency& a, const Currency& b) { return a.code < b.code; });
  return all;
}

}  // namespace

std::span<const Currency> currencies() {
  static const std::vector<Currency> all = make_currencies();
  return all;
}

Result<Currency> currency_of(std::string_view code) {
  const auto all = currencies();
  const auto at =
      std::lower_bound(all.begin(), all.end(), code,
                       [](const Currency& currency, std::string_view key) { return currency.code < key; });
  if (at != all.end() && at->code == code) return *at;
  return problem(
      fmt::format("\"{}\" is no currency: write its three ISO 4217 letters, such as USD, EUR or JPY.", code),
      "currency", std::string{code});
}

}  // namespace secondpull
