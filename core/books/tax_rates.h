#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/money/money.h"
#include "core/result.h"

namespace secondpull {

/// The largest earnings that bear the old-age part of self-employment tax in one year.
struct WageBase {
  Money amount;
  std::string source;
  std::string sure;  ///< how sure the program is of it: "second hand", "to be confirmed at the source"
};

/// Self-employment tax of the United States: rates and, year by year, the wage base.
/// Source: IRS Schedule SE.
class SelfEmploymentRates {
 public:
  SelfEmploymentRates() = default;
  explicit SelfEmploymentRates(std::map<int, WageBase> bases) : bases_{std::move(bases)} {}

  /// The estimate for a net profit in cents: 92.35 % of it is taxed, at 12.4 % up to the year's wage base and
  /// 2.9 % on all; 0 if that net is under $400 (tested before rounding) or a loss. Rounded once, half away
  /// from zero. Absent for a year without a known base.
  std::optional<Money> tax(Money net_profit, int year) const;
  const WageBase* base(int year) const;  ///< nullptr if not known

 private:
  std::map<int, WageBase> bases_;
};

/// What stands on one line of Schedule C.
struct FormLine {
  std::string number;  ///< "27b"; empty where the form has none
  std::string what;    ///< "other expenses"
  /// A line of the year by its word ("gross_receipts"), a sum that schedule.cpp works out ("total_expenses"),
  /// or, where there are categories, a name of its own.
  std::string key;
  std::string part;                     ///< "I" to "V"
  std::vector<std::string> categories;  ///< of expenses that belong on it
};

/// The lines of the form for some tax years: they moved between years.
struct FormOfYears {
  int from = 0;
  int to = 0;
  std::string source;
  std::string sure;
  std::vector<FormLine> lines;
};

/// Line numbers by tax year.
class FormLines {
 public:
  FormLines() = default;
  explicit FormLines(std::vector<FormOfYears> forms) : forms_{std::move(forms)} {}
  /// The form of that year; without one, the newest before it, or the first. nullptr if there are none.
  const FormOfYears* of(int year) const;

 private:
  std::vector<FormOfYears> forms_;  // by `from`
};

}  // namespace secondpull
