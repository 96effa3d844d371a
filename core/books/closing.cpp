#include "core/books/closing.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

namespace secondpull {

namespace {

using Named = std::map<std::pair<YearLine, std::string>, std::int64_t>;

Named named(const YearFigures& figures) {
  Named all;
  for (const YearSize& one : sizes(figures))
    all.emplace(std::pair{one.line, one.name}, one.size);
  return all;
}

Named kept(const Shop& shop, ClosedYearId id) {
  Named all;
  for (const KeptFigure& figure : shop.all<KeptFigure>())
    if (figure.closed_year == id)
      if (const auto line = year_line(figure.line)) all.emplace(std::pair{*line, figure.name}, figure.size);
  return all;
}

/// Where two sets of figures differ, in the order of the lines.
std::vector<KeptAgainstNow> compared(const Named& before, const Named& after) {
  std::map<std::pair<YearLine, std::string>, KeptAgainstNow> all;
  for (const auto& [key, size] : before)
    all[key].kept = size;
  for (const auto& [key, size] : after)
    all[key].now = size;
  std::vector<KeptAgainstNow> differences;
  for (auto& [key, one] : all) {
    if (one.kept == one.now) continue;
    one.line = key.first;
    one.name = key.second;
    differences.push_back(one);
  }
  return differences;
}

std::string shown_size(YearLine line, const std::optional<std::int64_t>& size, const Currency& currency) {
  if (!size) return "nothing";
  const YearUnit unit = unit_of(line);
  return unit == YearUnit::minutes ? shown(Minutes{*size}) : size_text(unit, *size, currency);
}

/// The first day on which a change to a record can count in the books; nothing if it counts nowhere.
class FirstDay {
 public:
  explicit FirstDay(const Shop& shop) : shop_{shop} {}

  std::optional<Date> operator()(const Acquisition& r) const { return r.date; }
  std::optional<Date> operator()(const Machine& r) const {
    const Acquisition* const in = shop_.find(r.acquisition);
    return in == nullptr ? std::nullopt : std::optional{in->date};
  }
  std::optional<Date> operator()(const Finding& r) const {
    return r.cost.is_zero() ? std::nullopt : std::optional{r.date};
  }
  std::optional<Date> operator()(const Labour& r) const { return r.date; }
  std::optional<Date> operator()(const Order& r) const { return r.arrived; }
  std::optional<Date> operator()(const OrderLine& r) const {
    const Order* const order = shop_.find(r.order);
    return order == nullptr ? std::nullopt : order->arrived;
  }
  // A donor's basis is split once, on the day of its first harvest or of its disposal, over all its lines,
  // the later ones too: any of them counts from the day that the donor came in.
  std::optional<Date> operator()(const Harvest& r) const { return came_in(r.donor); }
  std::optional<Date> operator()(const Disposal& r) const {
    return r.how == DisposalKind::parted_out ? came_in(r.machine) : std::optional{r.date};
  }
  std::optional<Date> operator()(const Fitted& r) const { return r.date; }
  std::optional<Date> operator()(const Material& r) const { return r.date; }
  std::optional<Date> operator()(const Sale& r) const { return r.date; }
  std::optional<Date> operator()(const Return& r) const { return r.date; }
  std::optional<Date> operator()(const Allowance& r) const { return r.date; }
  std::optional<Date> operator()(const PartSale& r) const { return r.date; }
  std::optional<Date> operator()(const TaxPaid& r) const { return r.date; }
  std::optional<Date> operator()(const Trip& r) const { return r.date; }
  std::optional<Date> operator()(const Expense& r) const { return r.date; }
  template <class Other>
  std::optional<Date> operator()(const Other&) const {
    return std::nullopt;
  }

 private:
  std::optional<Date> came_in(MachineId id) const {
    const Machine* const machine = shop_.find(id);
    return machine == nullptr ? std::nullopt : (*this)(*machine);
  }

  const Shop& shop_;
};

// Does a record count in the books as it did before? Only asked where much else can be edited: notes, stages,
// names.

bool counts_alike(const Machine& a, const Machine& b) {
  return a.acquisition == b.acquisition && a.value_then == b.value_then;
}
bool counts_alike(const Acquisition& a, const Acquisition& b) {
  return a.date == b.date && a.price == b.price && a.pickup_cost == b.pickup_cost &&
         a.giver_basis == b.giver_basis && a.opening == b.opening;
}
bool counts_alike(const Order& a, const Order& b) {
  return a.arrived == b.arrived && a.freight == b.freight && a.tax == b.tax && a.opening == b.opening;
}
bool counts_alike(const Finding& a, const Finding& b) {
  return a.machine == b.machine && a.date == b.date && a.cost == b.cost;
}
template <class Record>
bool counts_alike(const Record& a, const Record& b) {
  return a == b;
}

/// The earliest year that the change can move.
std::optional<int> first_year_moved(const Shop& before, const Shop& after, const Change& change) {
  std::optional<int> first;
  const auto touch = [&](const Shop& shop, const AnyId& id) {
    std::visit(
        [&](auto key) {
          const auto* const record = shop.find(key);
          const std::optional<Date> day = record == nullptr ? std::nullopt : FirstDay{shop}(*record);
          if (day) first = std::min(first.value_or(year_of(*day)), year_of(*day));
        },
        id);
  };
  for (const Edit& edit : change.edits())
    std::visit(
        [&](const auto& record) {
          const auto* const was = before.find(record.id);
          const auto* const is = after.find(record.id);
          if (was != nullptr && is != nullptr && counts_alike(*was, *is)) return;
          touch(before, record.id);
          touch(after, record.id);
        },
        edit.record);
  return first;
}

/// Does the change itself close the year, or touch the figures that are kept with it?
bool touches_closing(const Shop& before, const Shop& after, const Change& change, int year) {
  const auto is_of_year = [year](const Shop& shop, ClosedYearId id) {
    const ClosedYear* const record = shop.find(id);
    return record != nullptr && record->year == year;
  };
  const auto concerns = [&](ClosedYearId id) { return is_of_year(before, id) || is_of_year(after, id); };
  return std::any_of(change.edits().begin(), change.edits().end(), [&](const Edit& edit) {
    if (const auto* const record = std::get_if<ClosedYear>(&edit.record)) return concerns(record->id);
    const auto* const figure = std::get_if<KeptFigure>(&edit.record);
    return figure != nullptr && concerns(figure->closed_year);
  });
}

}  // namespace

std::string in_words(const std::vector<KeptAgainstNow>& differences, const Currency& currency) {
  constexpr std::size_t kMostNamed = 3;
  std::string words;
  for (std::size_t i = 0; i < differences.size() && i < kMostNamed; ++i) {
    const KeptAgainstNow& one = differences[i];
    words += fmt::format("{}{} from {} to {}", i == 0 ? "" : ", ", shown(one.line, one.name),
                         shown_size(one.line, one.kept, currency), shown_size(one.line, one.now, currency));
  }
  if (differences.size() > kMostNamed) words += fmt::format(" and {} more", differences.size() - kMostNamed);
  return words;
}

const ClosedYear* closed(const Shop& shop, int year) {
  const auto& all = shop.all<ClosedYear>();
  const auto found =
      std::find_if(all.begin(), all.end(), [year](const ClosedYear& one) { return one.year == year; });
  return found == all.end() ? nullptr : &*found;
}

std::vector<int> closed_years(const Shop& shop) {
  std::vector<int> years;
  for (const ClosedYear& one : shop.all<ClosedYear>())
    years.push_back(static_cast<int>(one.year));
  std::sort(years.begin(), years.end());
  return years;
}

Result<Change> close_year(const Books& books, const SelfEmploymentRates& rates, int year, Date today) {
  const Shop& shop = books.shop();
  const std::string value = std::to_string(year);
  if (closed(shop, year) != nullptr)
    return problem(fmt::format("{} is closed already.", year), "year", value);
  if (today < std::chrono::year{year} / std::chrono::December / 31)
    return problem(fmt::format("{} is not over yet: it can be closed from 31 December on.", year), "year",
                   value);
  const auto span = books.years();
  if (!span || year < span->first)
    return problem(fmt::format("There is nothing in {} to close: the books begin {}.", year,
                               span ? fmt::format("in {}", span->first) : "with the first record"),
                   "year", value);
  const auto figures = books.year(year, rates);
  if (!figures) return tl::unexpected(figures.error());

  Change change{shop, fmt::format("Closed the books of {}", year)};
  const ClosedYearId id = change.add(ClosedYear{.year = year, .closed = today});
  for (const YearSize& one : sizes(*figures))
    change.add(KeptFigure{
        .closed_year = id, .line = std::string{word(one.line)}, .name = one.name, .size = one.size});
  return change;
}

Result<Change> reopen_year(const Shop& shop, int year) {
  const ClosedYear* const record = closed(shop, year);
  if (record == nullptr) return problem(fmt::format("{} is not closed.", year), "year", std::to_string(year));
  Change change{shop, fmt::format("Opened the books of {} again", year)};
  for (const KeptFigure& figure : shop.all<KeptFigure>())
    if (figure.closed_year == record->id) change.remove(figure);
  change.remove(*record);
  return change;
}

Result<std::vector<KeptAgainstNow>> drift(const Books& books, const SelfEmploymentRates& rates, int year) {
  const ClosedYear* const record = closed(books.shop(), year);
  if (record == nullptr) return problem(fmt::format("{} is not closed.", year), "year", std::to_string(year));
  const auto figures = books.year(year, rates);
  if (!figures) return tl::unexpected(figures.error());
  return compared(kept(books.shop(), record->id), named(*figures));
}

std::optional<Problem> moves_closed_year(const std::shared_ptr<const Shop>& before,
                                         const std::shared_ptr<const Shop>& after, const Change& change,
                                         const MileageRates& mileage, const SelfEmploymentRates& rates) {
  for (const int year : closed_years(*after)) {
    if (!touches_closing(*before, *after, change, year)) continue;
    const auto books = Books::without_unrated_trips(after, mileage);
    if (!books) return books.error();
    const auto off = drift(*books, rates, year);
    if (!off) return off.error();
    if (!off->empty())
      return Problem{
          fmt::format("The figures to be kept for {} are not those of its records: {}. Look at the "
                      "year again and close it once more.",
                      year, in_words(*off, before->settings.currency)),
          "year", std::to_string(year)};
  }
  std::vector<int> years = closed_years(*before);
  std::erase_if(years, [&](int year) { return closed(*after, year) == nullptr; });
  if (years.empty()) return std::nullopt;
  const std::optional<int> first = first_year_moved(*before, *after, change);
  std::erase_if(years, [&](int year) { return !first || year < *first; });
  if (years.empty()) return std::nullopt;

  const auto books_before = Books::without_unrated_trips(before, mileage);
  const auto books_after = Books::without_unrated_trips(after, mileage);
  if (!books_before) return std::nullopt;  // what is wrong already cannot be held against the change
  if (!books_after) return books_after.error();
  for (const int year : years) {
    const auto was = books_before->year(year, rates);
    const auto is = books_after->year(year, rates);
    if (!was) continue;
    const std::string refused = fmt::format("The books of {} are closed, and this would change them", year);
    if (!is)
      return Problem{fmt::format("{}: {}", refused, is.error().sentence), "year", std::to_string(year)};
    const auto differences = compared(named(*was), named(*is));
    if (!differences.empty())
      return Problem{fmt::format("{}: {}. Open {} again first (Books, Closing) if it has to be.", refused,
                                 in_words(differences, before->settings.currency), year),
                     "year", std::to_string(year)};
  }
  return std::nullopt;
}

}  // namespace secondpull
