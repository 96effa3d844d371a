#include <cmath>
#include <numeric>
#include <set>

#include <fmt/format.h>

#include "core/learning/knowledge.h"

namespace secondpull::learning {
namespace {

class Inspection {
 public:
  explicit Inspection(const Knowledge& knowledge) : knowledge_{knowledge} {}

  std::vector<Problem> all() {
    ids("symptoms", knowledge_.symptoms, symptoms_);
    ids("causes", knowledge_.causes, causes_);
    causes_.insert(kUnlisted);
    ids("tests", knowledge_.tests, tests_);
    ids("repairs", knowledge_.repairs, repairs_);
    Ids pieces;
    ids("known_work", knowledge_.known_work, pieces);
    ids("parts_to_pull", knowledge_.parts_to_pull, parts_);
    for (std::size_t i = 0; i < knowledge_.symptoms.size(); ++i)
      symptom(fmt::format("symptoms[{}]", i), knowledge_.symptoms[i]);
    for (std::size_t i = 0; i < knowledge_.tests.size(); ++i)
      test(fmt::format("tests[{}]", i), knowledge_.tests[i]);
    for (std::size_t i = 0; i < knowledge_.repairs.size(); ++i)
      repair(fmt::format("repairs[{}]", i), knowledge_.repairs[i]);
    for (std::size_t i = 0; i < knowledge_.known_work.size(); ++i) {
      const std::string field = fmt::format("known_work[{}]", i);
      range(field + ".cost", knowledge_.known_work[i].cost);
      range(field + ".minutes", knowledge_.known_work[i].minutes);
    }
    for (std::size_t i = 0; i < knowledge_.parts_to_pull.size(); ++i)
      part(fmt::format("parts_to_pull[{}]", i), knowledge_.parts_to_pull[i]);
    for (std::size_t i = 0; i < knowledge_.kinds.size(); ++i)
      figures(fmt::format("kinds[{}]", i), knowledge_.kinds[i]);
    months("season_price", knowledge_.season.price);
    months("season_days", knowledge_.season.days);
    range("scrap_per_pound", knowledge_.scrap_per_pound);
    beta("comes_back", knowledge_.comes_back);
    range("minutes_of_comeback", knowledge_.minutes_of_comeback);
    return std::move(problems_);
  }

 private:
  using Ids = std::set<std::string_view>;

  void tell(const std::string& field, std::string value, std::string_view what) {
    problems_.push_back({fmt::format("{} {}", field, what), field, std::move(value)});
  }

  template <class Entry>
  void ids(std::string_view list, const std::vector<Entry>& entries, Ids& into) {
    for (std::size_t i = 0; i < entries.size(); ++i) {
      const std::string field = fmt::format("{}[{}].id", list, i);
      const std::string& id = entries[i].id;
      if (id.empty())
        tell(field, id, "is empty; every entry needs an id.");
      else if (!into.insert(id).second)
        tell(field, id, fmt::format("is \"{}\", which stands before it; an id may stand only once.", id));
    }
  }

  void known(const std::string& field, const std::string& id, const Ids& among, std::string_view what) {
    if (!among.contains(id)) tell(field, id, fmt::format("names \"{}\", which is no {}.", id, what));
  }

  void not_negative(const std::string& field, double value) {
    if (!(std::isfinite(value) && value >= 0))
      tell(field, fmt::format("{}", value), fmt::format("is {}; it must be a number of 0 or more.", value));
  }

  void range(const std::string& field, const Range& given) {
    for (const auto& [part, value] :
         {std::pair{"low", given.low}, {"typical", given.typical}, {"high", given.high}})
      not_negative(fmt::format("{}.{}", field, part), value);
    if (given.low > given.typical || given.typical > given.high)
      tell(field, fmt::format("{}, {}, {}", given.low, given.typical, given.high),
           fmt::format("is {}, {}, {}; low, typical and high must rise.", given.low, given.typical,
                       given.high));
  }

  void range(const std::string& field, const MoneyRange& given) {
    range(field, Range{static_cast<double>(given.low.minor()), static_cast<double>(given.typical.minor()),
                       static_cast<double>(given.high.minor())});
  }

  void months(const std::string& field, const MonthlyShares& shares) {
    for (std::size_t i = 0; i < shares.size(); ++i)
      if (!(std::isfinite(shares[i]) && shares[i] > 0))
        tell(fmt::format("{}[{}]", field, i), fmt::format("{}", shares[i]),
             fmt::format("is {}; it must be a number above 0.", shares[i]));
  }

  void beta(const std::string& field, const Beta& given) {
    if (!given.is_proper())
      tell(field, fmt::format("{}, {}", given.a, given.b),
           fmt::format("counts {} cured and {} missed; both must be above 0.", given.a, given.b));
  }

  void probability(const std::string& field, double value) {
    if (!(value >= 0 && value <= 1))
      tell(field, fmt::format("{}", value), fmt::format("is {}; a probability must be from 0 to 1.", value));
  }

  void row(const std::string& field, const std::vector<double>& chances, std::size_t outcomes) {
    if (chances.size() != outcomes)
      return tell(field, std::to_string(chances.size()),
                  fmt::format("has {} numbers for {} outcomes.", chances.size(), outcomes));
    for (std::size_t i = 0; i < chances.size(); ++i)
      probability(fmt::format("{}[{}]", field, i), chances[i]);
    const double sum = std::accumulate(chances.begin(), chances.end(), 0.0);
    if (!(std::abs(sum - 1) <= diagnosis::row_tolerance))
      tell(field, fmt::format("{:.12g}", sum), fmt::format("adds up to {:.12g}; it must add up to 1.", sum));
  }

  void symptom(const std::string& field, const Symptom& given) {
    for (const auto& [cause, weight] : given.causes) {
      const std::string at = fmt::format("{}.causes.{}", field, cause);
      known(at, cause, causes_, "cause");
      not_negative(at, weight);
    }
  }

  void test(const std::string& field, const Test& given) {
    for (const std::string& symptom : given.symptoms)
      known(field + ".symptoms", symptom, symptoms_, "symptom");
    for (const After& after : given.after) {
      known(field + ".after", after.test, tests_, "test");
      const Test* const before = knowledge_.test(after.test);
      for (const std::string& shown : after.outcomes)
        if (before != nullptr && outcome(*before, shown) == nullptr)
          tell(field + ".after", shown,
               fmt::format("names \"{}\", which is no outcome of \"{}\".", shown, after.test));
    }
    range(field + ".minutes", given.minutes);
    Ids outcomes;
    ids(field + ".outcomes", given.outcomes, outcomes);
    if (given.outcomes.empty()) tell(field + ".outcomes", "", "is empty; a test shows something.");
    for (const auto& [cause, chances] : given.likelihood) {
      known(fmt::format("{}.likelihood.{}", field, cause), cause, causes_, "cause");
      row(fmt::format("{}.likelihood.{}", field, cause), chances, given.outcomes.size());
    }
    if (given.otherwise) row(field + ".otherwise", *given.otherwise, given.outcomes.size());
  }

  void repair(const std::string& field, const Repair& given) {
    range(field + ".minutes", given.minutes);
    range(field + ".parts", given.parts);
    not_negative(field + ".days", given.days);
    if (given.tries < 1)
      tell(field + ".tries", std::to_string(given.tries), fmt::format("is {}; at least 1.", given.tries));
    for (const auto& [cause, chance] : given.cures) {
      known(fmt::format("{}.cures.{}", field, cause), cause, causes_, "cause");
      beta(fmt::format("{}.cures.{}", field, cause), chance);
    }
  }

  void part(const std::string& field, const PartToPull& given) {
    range(field + ".price", given.price);
    probability(field + ".chance", given.chance);
    range(field + ".minutes", given.minutes);
    for (const std::string& cause : given.spoiled_by)
      known(field + ".spoiled_by", cause, causes_, "cause");
    if (!given.goes_with.empty()) known(field + ".goes_with", given.goes_with, parts_, "part to pull");
  }

  void figures(const std::string& field, const KindFigures& given) {
    range(field + ".running_price", given.running_price);
    range(field + ".as_is_price", given.as_is_price);
    range(field + ".minutes_to_sell", given.minutes_to_sell);
    range(field + ".days_to_sell", given.days_to_sell);
    range(field + ".weight", given.weight);
  }

  const Knowledge& knowledge_;
  Ids symptoms_, causes_, tests_, repairs_, parts_;
  std::vector<Problem> problems_;
};

}  // namespace

std::vector<Problem> problems_of(const Knowledge& knowledge) {
  return Inspection{knowledge}.all();
}

}  // namespace secondpull::learning
