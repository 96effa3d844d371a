#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/field_words.h"
#include "core/shop/limits.h"
#include "core/shop/rule_breaks.h"

namespace secondpull {
namespace {

std::string with_decimal(Tenths tenths) {
  const std::int64_t size = tenths.count < 0 ? -tenths.count : tenths.count;
  return fmt::format("{}{}.{}", tenths.count < 0 ? "-" : "", size / 10, size % 10);
}

/// The cells of one record; each check names the column it is about.
template <class Id>
class Cells {
 public:
  Cells(const Shop& shop, RuleBreaks& breaks, Id id) : shop_{shop}, breaks_{breaks}, id_{id} {}

  const Cells& amount(const char* column, Money amount) const {
    if (amount_in_range(amount)) return *this;
    const std::string text = plain(amount, shop_.settings.currency);
    breaks_.add(id_, column, text,
                amount < Money{}
                    ? fmt::format("The {} {} is below zero.", words(column), text)
                    : fmt::format("The {} {} is too large: at most {} can be kept.", words(column), text,
                                  plain(Money::from_minor(kLargestAmount), shop_.settings.currency)));
    return *this;
  }
  const Cells& amount(const char* column, const std::optional<Money>& value) const {
    return value ? amount(column, *value) : *this;
  }
  const Cells& text(const char* column, const std::string& value) const {
    if (value.empty()) breaks_.add(id_, column, "", fmt::format("The {} is empty.", words(column)));
    return *this;
  }
  const Cells& day(const char* column, Date date) const {
    if (day_in_range(date)) return *this;
    breaks_.add(
        id_, column, iso(date),
        fmt::format("The {} is no day of the calendar from 1900 to {}.", words(column), kLargestYear));
    return *this;
  }
  const Cells& day(const char* column, const std::optional<Date>& date) const {
    return date ? day(column, *date) : *this;
  }
  const Cells& whole(const char* column, std::int64_t value, std::int64_t least, std::int64_t most) const {
    if (value >= least && value <= most) return *this;
    breaks_.add(id_, column, std::to_string(value),
                fmt::format("The {} {} is not from {} to {}.", words(column), value, least, most));
    return *this;
  }
  const Cells& quantity(std::int64_t pieces) const { return whole("quantity", pieces, 1, kLargestQuantity); }
  const Cells& minutes(Minutes minutes) const { return whole("minutes", minutes.count, 0, kLargestMinutes); }
  const Cells& tenths(const char* column, Tenths value, Tenths most) const {
    if (value >= Tenths{} && value <= most) return *this;
    breaks_.add(id_, column, with_decimal(value),
                fmt::format("The {} {} is not from 0 to {}.", words(column), with_decimal(value),
                            with_decimal(most)));
    return *this;
  }
  const Cells& not_before(const char* column, const std::optional<Date>& later, Date earlier) const {
    if (!later || *later >= earlier) return *this;
    breaks_.add(
        id_, column, iso(*later),
        fmt::format("The day {} {} is before the date {}.", words(column), iso(*later), iso(earlier)));
    return *this;
  }
  /// `value` is asked for only if it is wrong.
  const Cells& refuse_if(bool wrong, const char* column, auto&& value, const char* sentence) const {
    if (wrong) breaks_.add(id_, column, value(), sentence);
    return *this;
  }

 private:
  static std::string words(const char* column) { return field_words(column, column); }

  const Shop& shop_;
  RuleBreaks& breaks_;
  Id id_;
};

/// One overload for each kind of record.
class CheckCells {
 public:
  CheckCells(const Shop& shop, RuleBreaks& breaks) : shop_{shop}, breaks_{breaks} {}

  template <class Record>
  auto of(const Record& record) const {
    return Cells{shop_, breaks_, record.id};
  }

  void operator()(const Person& r) const { of(r).text("person", r.code).text("name", r.name); }
  void operator()(const Acquisition& r) const {
    const bool gift = r.source == Source::gift;
    of(r)
        .text("acquisition", r.code)
        .day("date", r.date)
        .amount("price", r.price)
        .amount("pickup_cost", r.pickup_cost)
        .amount("giver_basis", r.giver_basis)
        .refuse_if(
            gift && !r.price.is_zero(), "price", [&] { return sum(r.price); }, "A gift has no price.")
        .refuse_if(
            !gift && r.giver_basis && !r.giver_basis->is_zero(), "giver_basis",
            [&] { return sum(*r.giver_basis); }, "Only of a gift does it count what the giver had in it.");
  }
  void operator()(const Machine& r) const {
    const auto cells = of(r);
    cells.text("tag", r.tag).amount("value_then", r.value_then);
    if (r.year) cells.whole("year", *r.year, 1, kLargestYear);
    if (r.deck_in) cells.tenths("deck_in", *r.deck_in, kLargestDeck);
  }
  void operator()(const Fault& r) const {
    of(r)
        .text("fault", r.code)
        .day("date", r.date)
        .text("symptom", r.symptom)
        .day("ended", r.ended)
        .not_before("ended", r.ended, r.date)
        .refuse_if(
            r.how && !r.ended, "how", [&] { return std::string{word(*r.how)}; },
            "A fault that has not ended has no way in which it ended.");
  }
  void operator()(const Finding& r) const {
    const auto cells = of(r);
    cells.day("date", r.date).text("step", r.step).text("outcome", r.outcome).amount("cost", r.cost);
    if (r.minutes) cells.minutes(*r.minutes);
  }
  void operator()(const Labour& r) const {
    of(r)
        .day("date", r.date)
        .minutes(r.minutes)
        .refuse_if(
            r.machine && r.acquisition, "acquisition", [&] { return acquisition(r.acquisition); },
            "Labour is for a machine or for an acquisition, not for both.");
  }
  void operator()(const Part& r) const {
    const auto cells = of(r);
    cells.text("part", r.code).text("name", r.name);
    if (r.reorder_at) cells.whole("reorder_at", *r.reorder_at, 0, kLargestQuantity);
  }
  void operator()(const Order& r) const {
    of(r)
        .text("order", r.code)
        .day("date", r.date)
        .day("arrived", r.arrived)
        .not_before("arrived", r.arrived, r.date)
        .amount("freight", r.freight)
        .amount("tax", r.tax);
  }
  void operator()(const OrderLine& r) const {
    const bool cells_right = quantity_in_range(r.quantity) && amount_in_range(r.price);
    of(r)
        .quantity(r.quantity)
        .amount("price", r.price)
        .refuse_if(
            cells_right && r.price.minor() > kLargestAmount / r.quantity, "price",
            [&] { return sum(r.price); }, "The price times the quantity is too large to be kept.");
  }
  void operator()(const Harvest& r) const {
    of(r).day("date", r.date).quantity(r.quantity).amount("value", r.value);
  }
  void operator()(const Fitted& r) const {
    of(r)
        .day("date", r.date)
        .quantity(r.quantity)
        .refuse_if(
            r.from_order && r.from_donor, "from", [&] { return order(r.from_order); }, kOneOrigin);
  }
  void operator()(const Material& r) const {
    of(r).day("date", r.date).text("what", r.what).amount("cost", r.cost);
  }
  void operator()(const Listing& r) const {
    of(r)
        .day("date", r.date)
        .amount("asking", r.asking)
        .day("ended", r.ended)
        .not_before("ended", r.ended, r.date);
  }
  void operator()(const Offer& r) const {
    of(r).day("date", r.date).amount("amount", r.amount).day("comes", r.comes);
  }
  void operator()(const Sale& r) const {
    const auto cells = of(r);
    cells.day("date", r.date)
        .amount("price", r.price)
        .amount("sales_tax", r.sales_tax)
        .amount("fee", r.fee)
        .amount("delivery", r.delivery);
    if (r.warranty_days) cells.whole("warranty_days", *r.warranty_days, 0, kLargestWarranty);
  }
  void operator()(const Return& r) const { of(r).day("date", r.date).amount("refunded", r.refunded); }
  void operator()(const Allowance& r) const {
    of(r).day("date", r.date).amount("amount", r.amount).amount("sales_tax", r.sales_tax);
  }
  void operator()(const PartSale& r) const {
    of(r)
        .day("date", r.date)
        .quantity(r.quantity)
        .amount("price", r.price)
        .amount("sales_tax", r.sales_tax)
        .amount("fee", r.fee)
        .refuse_if(
            r.from_order && r.from_donor, "from", [&] { return order(r.from_order); }, kOneOrigin);
  }
  void operator()(const TaxPaid& r) const { of(r).day("date", r.date).amount("amount", r.amount); }
  void operator()(const Disposal& r) const {
    of(r)
        .day("date", r.date)
        .amount("proceeds", r.proceeds)
        .amount("hulk_value", r.hulk_value)
        .day("hulk_gone", r.hulk_gone);
  }
  void operator()(const Trip& r) const {
    of(r)
        .day("date", r.date)
        .tenths("miles", r.miles, kLargestTrip)
        .text("purpose", r.purpose)
        .refuse_if(
            r.machine && r.acquisition, "acquisition", [&] { return acquisition(r.acquisition); },
            "A trip is for a machine or for an acquisition, not for both.");
  }
  void operator()(const Expense& r) const {
    of(r).day("date", r.date).text("category", r.category).amount("amount", r.amount);
  }
  void operator()(const Photo& r) const {
    constexpr std::size_t kDigits = 64;
    const bool digest = r.sha256.size() == kDigits &&
                        std::all_of(r.sha256.begin(), r.sha256.end(),
                                    [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
    of(r).refuse_if(
        !digest, "sha256", [&] { return r.sha256; },
        "The name of the photo's content is not 64 lower-case hex digits.");
  }
  void operator()(const ClosedYear& r) const {
    of(r).day("closed", r.closed).whole("year", r.year, 1900, kLargestYear);
  }
  void operator()(const KeptFigure& r) const { of(r).text("line", r.line); }
  void operator()(const Find& r) const {
    const auto cells = of(r);
    cells.day("date", r.date)
        .amount("asking", r.asking)
        .amount("pickup_cost", r.pickup_cost)
        .day("ended", r.ended)
        .not_before("ended", r.ended, r.date)
        .refuse_if(
            r.how && !r.ended, "how", [&] { return std::string{word(*r.how)}; },
            "A find that has not ended has no way in which it ended.")
        .refuse_if(
            r.ended && !r.how, "how", [] { return std::string{}; },
            "A find that has ended was bought, passed on or gone.")
        .refuse_if(
            r.machine && r.how != FindEnd::bought, "machine", [&] { return tag(*r.machine); },
            "Only a find that was bought became a machine.");
    if (r.year) cells.whole("year", *r.year, 1, kLargestYear);
    if (r.miles) cells.tenths("miles", *r.miles, kLargestTrip);
    if (r.minutes) cells.minutes(*r.minutes);
  }
  void operator()(const FindAnswer& r) const {
    of(r).day("date", r.date).text("test", r.test).text("outcome", r.outcome);
  }
  void operator()(const OwnNumber& r) const {
    of(r)
        .text("path", r.path)
        .refuse_if(
            !std::isfinite(r.value), "value", [&] { return fmt::format("{}", r.value); },
            "The value is not a finite number.");
  }
  void operator()(const KnowledgeEdit& r) const {
    of(r).text("section", r.section).text("entry", r.entry).text("text", r.text);
  }
  void operator()(const Forecast& r) const {
    of(r).day("date", r.date);
    chance(r, "chance_revived", r.chance_revived);
    finite(r, "cash", r.cash);
    finite(r, "low", r.low);
    finite(r, "high", r.high);
    finite(r, "hours", r.hours);
    finite(r, "days", r.days);
    finite(r, "price", r.price);
    finite(r, "sunk_cash", r.sunk_cash);
    finite(r, "sunk_hours", r.sunk_hours);
  }
  void operator()(const ForecastCause& r) const {
    of(r).text("cause", r.cause);
    chance(r, "chance", r.chance);
  }
  void operator()(const ListingText& r) const { of(r).day("date", r.date).text("text", r.text); }
  void operator()(const Deposit& r) const {
    of(r)
        .day("date", r.date)
        .amount("amount", r.amount)
        .day("returned", r.returned)
        .not_before("returned", r.returned, r.date);
  }

 private:
  static constexpr const char* kOneOrigin = "A part comes from an order or from a donor, not from both.";

  template <class Record>
  void finite(const Record& record, const char* column, double value) const {
    of(record).refuse_if(
        !std::isfinite(value), column, [&] { return fmt::format("{}", value); },
        "A number of the forecast is not finite.");
  }
  template <class Record>
  void chance(const Record& record, const char* column, double value) const {
    of(record).refuse_if(
        !(value >= 0 && value <= 1), column, [&] { return fmt::format("{}", value); },
        "A chance of the forecast is not from 0 to 1.");
  }
  std::string sum(Money amount) const { return plain(amount, shop_.settings.currency); }
  std::string acquisition(std::optional<AcquisitionId> id) const {
    const Acquisition* const found = id ? shop_.find(*id) : nullptr;
    return found != nullptr ? found->code : "";
  }
  std::string tag(MachineId id) const {
    const Machine* const found = shop_.find(id);
    return found != nullptr ? found->tag : "";
  }
  std::string order(std::optional<OrderId> id) const {
    const Order* const found = id ? shop_.find(*id) : nullptr;
    return found != nullptr ? found->code : "";
  }

  const Shop& shop_;
  RuleBreaks& breaks_;
};

}  // namespace

void check_cells(const Shop& shop, RuleBreaks& breaks) {
  const CheckCells check{shop, breaks};
  shop.each_table([&](const auto& table) {
    for (const auto& record : table)
      check(record);
  });
}

}  // namespace secondpull
