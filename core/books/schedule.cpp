#include "core/books/schedule.h"

#include <algorithm>
#include <cctype>
#include <stdexcept>

#include <fmt/format.h>

namespace secondpull {

namespace {

std::string small_letters(std::string_view text) {
  std::string result{text};
  std::transform(result.begin(), result.end(), result.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return result;
}

/// Sums of the form that are no figure of the year by themselves.
struct FormSums {
  explicit FormSums(const YearFigures& year, Money other) : other_expenses{other} {
    net_receipts = year.gross_receipts - year.returns;
    total_expenses = year.all_expenses() + year.car_and_truck;
    net_purchases = year.purchases - year.withdrawals;
    goods_available = year.opening_inventory + net_purchases + year.materials + year.other_costs;
  }
  Money net_receipts, total_expenses, net_purchases, goods_available, other_expenses;
};

class Layout {
 public:
  Layout(const YearFigures& year, const FormOfYears& form) : year_{year}, form_{form}, sizes_{sizes(year)} {
    for (const auto& [category, amount] : year.expenses)
      if (line_of(category) == nullptr) other_.emplace(category, amount);
    Money other;
    for (const auto& [category, amount] : other_)
      other += amount;
    sums_.emplace(year, other);
  }

  std::vector<SchedulePart> parts() {
    static constexpr std::pair<const char*, const char*> kParts[] = {{"I", "Part I: income"},
                                                                     {"II", "Part II: expenses"},
                                                                     {"III", "Part III: cost of goods sold"},
                                                                     {"IV", "Part IV: vehicle"},
                                                                     {"V", "Part V: other expenses"}};
    std::vector<SchedulePart> parts;
    for (const auto& [number, title] : kParts) {
      SchedulePart part{title, {}};
      if (std::string_view{number} == "V")
        for (const auto& [category, amount] : other_)
          part.lines.push_back({{}, category, amount, {}, YearLine::expenses, {category}, false});
      for (const FormLine& line : form_.lines)
        if (line.part == number) part.lines.push_back(filled(line));
      parts.push_back(std::move(part));
    }
    return parts;
  }

 private:
  const FormLine* line_of(const std::string& category) const {
    const std::string wanted = small_letters(category);
    const auto found = std::find_if(form_.lines.begin(), form_.lines.end(), [&](const FormLine& line) {
      return std::find(line.categories.begin(), line.categories.end(), wanted) != line.categories.end();
    });
    return found == form_.lines.end() ? nullptr : &*found;
  }

  ScheduleLine filled(const FormLine& line) const {
    ScheduleLine made{.number = line.number, .what = line.what};
    made.line = year_line(line.key);
    if (made.line == YearLine::miles) {
      made.text = size_text(YearUnit::tenths_of_mile, year_.miles.count, {}) + " miles";
    } else if (made.line) {
      made.amount = Money{};
      for (const YearSize& one : sizes_)
        if (one.line == *made.line) made.amount = Money::from_minor(one.size);
      add_categories(line, made);
    } else if (!line.categories.empty()) {
      made.amount = Money{};
      made.line = YearLine::expenses;
      add_categories(line, made);
    } else {
      made.amount = sum_of(line.key);
    }
    made.is_sum = (!made.line && line.key != "labour" && line.key != "net_purchases") ||
                  line.key == "net_profit" || line.key == "gross_profit" || line.key == "cost_of_goods_sold";
    return made;
  }

  /// Adds the expenses that stand on that line of the form.
  void add_categories(const FormLine& line, ScheduleLine& made) const {
    for (const auto& [category, amount] : year_.expenses)
      if (line_of(category) == &line) {
        *made.amount += amount;
        made.names.push_back(category);
      }
  }

  Money sum_of(std::string_view key) const {
    if (key == "net_receipts") return sums_->net_receipts;
    if (key == "gross_income") return year_.gross_profit;
    if (key == "total_expenses") return sums_->total_expenses;
    if (key == "tentative_profit") return year_.gross_profit - sums_->total_expenses;
    if (key == "net_purchases") return sums_->net_purchases;
    if (key == "goods_available") return sums_->goods_available;
    if (key == "other_expenses" || key == "other_total") return sums_->other_expenses;
    if (key == "labour") return {};  // nothing is paid to oneself
    throw std::logic_error(fmt::format("the table of the form has an unknown key: {}", key));
  }

  const YearFigures& year_;
  const FormOfYears& form_;
  std::vector<YearSize> sizes_;
  ByName other_;
  std::optional<FormSums> sums_;
};

}  // namespace

Schedule schedule_c(const YearFigures& figures, const FormLines& forms) {
  Schedule schedule{.year = figures.year};
  static const FormOfYears none;
  const FormOfYears* const known = forms.of(figures.year);
  const FormOfYears& form = known == nullptr ? none : *known;
  schedule.source = form.source;
  schedule.sure = form.sure;
  if (figures.year < form.from || figures.year > form.to)
    schedule.sure +=
        fmt::format("; used for {}, whose own numbers are not known to the program", figures.year);
  schedule.parts = Layout{figures, form}.parts();
  return schedule;
}

}  // namespace secondpull
