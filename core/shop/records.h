#pragma once

#include <optional>
#include <string>

#include "core/calendar/date.h"
#include "core/calendar/minutes.h"
#include "core/money/money.h"
#include "core/shop/ids.h"
#include "core/shop/words.h"

namespace secondpull {

// The records of a shop: plain values, no pointers between them, compared with ==. Every record has its key
// `id` and `entered`, its place in the order in which the records of its kind were entered or imported. An
// optional text is empty when absent; an amount that means nothing else when absent is zero; where zero and
// absent differ, optional.

inline constexpr std::int64_t kLargestQuantity = 1'000'000;  ///< pieces on one line

/// A measure with one decimal: miles of a trip, inches of a deck.
struct Tenths {
  std::int64_t count = 0;
  friend constexpr auto operator<=>(Tenths, Tenths) = default;
};

/// Seller, buyer or supplier. `code` is the user's own identifier.
struct Person {
  PersonId id{};
  std::int64_t entered = 0;
  std::string code;
  std::string name;
  std::string phone;
  std::string email;
  std::string note;
  friend bool operator==(const Person&, const Person&) = default;
};

/// How machines came in; several machines of one acquisition are a lot.
struct Acquisition {
  AcquisitionId id{};
  std::int64_t entered = 0;
  std::string code;
  Date date{};
  Source source = Source::other;
  std::optional<PersonId> from;
  Money price;
  Money pickup_cost;                 ///< paid in cash for the pickup
  std::optional<Money> giver_basis;  ///< gifts alone: what the giver had in it
  bool opening = false;              ///< in stock when the books begin
  std::string note;
  friend bool operator==(const Acquisition&, const Acquisition&) = default;
};

struct Machine {
  MachineId id{};
  std::int64_t entered = 0;
  std::string tag;  ///< unique in the shop; ordered by its UTF-8 bytes
  AcquisitionId acquisition{};
  MachineKind kind = MachineKind::push;
  std::string make;
  std::string model;
  std::string model_number;
  std::string serial;
  std::string engine;
  std::optional<int> year;
  std::optional<Tenths> deck_in;  ///< width of cut in inches
  std::string symptom;
  std::string condition;
  std::optional<Money> value_then;  ///< fair market value the owner gave it when it came
  std::optional<Stage> stage;       ///< as given; `stage_of` says what holds
  std::string note;
  friend bool operator==(const Machine&, const Machine&) = default;
};

struct Fault {
  FaultId id{};
  std::int64_t entered = 0;
  std::string code;
  MachineId machine{};
  Date date{};
  std::string symptom;
  std::string cause;
  std::optional<Date> ended;
  std::optional<FaultEnd> how;
  std::string note;
  friend bool operator==(const Fault&, const Fault&) = default;
};

/// What came of a test or a repair. `cost` is outside work paid for; `minutes` serve the learning, not the
/// pay.
struct Finding {
  FindingId id{};
  std::int64_t entered = 0;
  MachineId machine{};
  Date date{};
  std::string step;
  std::string outcome;
  std::optional<FaultId> fault;
  std::optional<Minutes> minutes;
  Money cost;
  std::string reading;
  std::string unit;
  std::string note;
  friend bool operator==(const Finding&, const Finding&) = default;
};

/// Own hours: on a machine, on an acquisition (split over its machines), or neither: the shop in general.
struct Labour {
  LabourId id{};
  std::int64_t entered = 0;
  std::optional<MachineId> machine;
  std::optional<AcquisitionId> acquisition;
  Date date{};
  Minutes minutes;
  Work work = Work::other;
  std::string note;
  friend bool operator==(const Labour&, const Labour&) = default;
};

/// A kind of part. How many are on hand is derived.
struct Part {
  PartId id{};
  std::int64_t entered = 0;
  std::string code;
  std::string name;
  std::string number;
  std::optional<PersonId> supplier;
  std::optional<std::int64_t> reorder_at;
  friend bool operator==(const Part&, const Part&) = default;
};

struct Order {
  OrderId id{};
  std::int64_t entered = 0;
  std::string code;
  Date date{};
  std::optional<PersonId> supplier;
  std::optional<Date> arrived;
  Money freight;
  Money tax;
  bool opening = false;
  friend bool operator==(const Order&, const Order&) = default;
};

struct OrderLine {
  OrderLineId id{};
  std::int64_t entered = 0;
  OrderId order{};
  PartId part{};
  std::int64_t quantity = 1;
  Money price;  ///< each
  std::optional<MachineId> for_machine;
  friend bool operator==(const OrderLine&, const OrderLine&) = default;
};

/// A part taken from a donor.
struct Harvest {
  HarvestId id{};
  std::int64_t entered = 0;
  MachineId donor{};
  Date date{};
  PartId part{};
  std::int64_t quantity = 1;
  Money value;  ///< of the line, by which the donor's basis is split
  friend bool operator==(const Harvest&, const Harvest&) = default;
};

/// A part used. No machine: written off. At most one of `from_order` and `from_donor`; neither: first in,
/// first out.
struct Fitted {
  FittedId id{};
  std::int64_t entered = 0;
  std::optional<MachineId> machine;
  Date date{};
  PartId part{};
  std::int64_t quantity = 1;
  std::optional<OrderId> from_order;
  std::optional<MachineId> from_donor;
  friend bool operator==(const Fitted&, const Fitted&) = default;
};

struct Material {
  MaterialId id{};
  std::int64_t entered = 0;
  MachineId machine{};
  Date date{};
  std::string what;
  Money cost;
  friend bool operator==(const Material&, const Material&) = default;
};

struct Listing {
  ListingId id{};
  std::int64_t entered = 0;
  MachineId machine{};
  Date date{};
  std::string channel;
  Money asking;
  std::optional<SoldAs> sold_as;
  std::optional<Date> ended;
  friend bool operator==(const Listing&, const Listing&) = default;
};

struct Offer {
  OfferId id{};
  std::int64_t entered = 0;
  MachineId machine{};
  Date date{};
  Money amount;
  std::string who;
  std::optional<Date> comes;
  std::optional<OfferResult> result;
  friend bool operator==(const Offer&, const Offer&) = default;
};

struct Sale {
  SaleId id{};
  std::int64_t entered = 0;
  MachineId machine{};
  Date date{};
  std::optional<PersonId> buyer;
  Money price;      ///< sales tax apart
  Money sales_tax;  ///< collected on top, owed to `place`
  Money fee;
  Money delivery;
  std::string payment;
  std::optional<SoldAs> sold_as;
  std::optional<std::int64_t> warranty_days;
  std::string place;
  friend bool operator==(const Sale&, const Sale&) = default;
};

/// The buyer brought the machine back.
struct Return {
  ReturnId id{};
  std::int64_t entered = 0;
  MachineId machine{};
  Date date{};
  Money refunded;
  std::string note;
  friend bool operator==(const Return&, const Return&) = default;
};

/// Money given back without a return.
struct Allowance {
  AllowanceId id{};
  std::int64_t entered = 0;
  MachineId machine{};
  Date date{};
  Money amount;
  Money sales_tax;
  std::string note;
  friend bool operator==(const Allowance&, const Allowance&) = default;
};

struct PartSale {
  PartSaleId id{};
  std::int64_t entered = 0;
  Date date{};
  PartId part{};
  std::int64_t quantity = 1;
  Money price;  ///< of the line
  std::optional<OrderId> from_order;
  std::optional<MachineId> from_donor;
  std::optional<PersonId> buyer;
  Money sales_tax;
  Money fee;
  std::string place;
  friend bool operator==(const PartSale&, const PartSale&) = default;
};

/// Sales tax handed on.
struct TaxPaid {
  TaxPaidId id{};
  std::int64_t entered = 0;
  Date date{};
  std::string place;
  Money amount;
  friend bool operator==(const TaxPaid&, const TaxPaid&) = default;
};

struct Disposal {
  DisposalId id{};
  std::int64_t entered = 0;
  MachineId machine{};
  Date date{};
  DisposalKind how = DisposalKind::scrapped;
  Money proceeds;
  std::optional<Money> hulk_value;  ///< of a donor's hulk; absent: its scrap money
  std::optional<Date> hulk_gone;    ///< absent and not `hulk_here`: the disposal's day
  bool hulk_here = false;
  friend bool operator==(const Disposal&, const Disposal&) = default;
};

struct Trip {
  TripId id{};
  std::int64_t entered = 0;
  Date date{};
  Tenths miles;
  std::string purpose;
  std::string destination;
  std::optional<MachineId> machine;
  std::optional<AcquisitionId> acquisition;
  friend bool operator==(const Trip&, const Trip&) = default;
};

struct Expense {
  ExpenseId id{};
  std::int64_t entered = 0;
  Date date{};
  std::string category;
  Money amount;
  std::string note;
  friend bool operator==(const Expense&, const Expense&) = default;
};

/// A picture in the shop's photo store, of a machine or of the paper behind an order or expense.
struct Photo {
  PhotoId id{};
  std::int64_t entered = 0;
  std::string sha256;  ///< of the stored content, 64 lower-case hex digits
  std::string name;    ///< the file's name as it was given
  std::optional<MachineId> machine;
  std::optional<OrderId> order;
  std::optional<ExpenseId> expense;
  std::string note;
  friend bool operator==(const Photo&, const Photo&) = default;
};

/// A year whose books are closed: an edit that would change its figures is refused until it is opened again.
struct ClosedYear {
  ClosedYearId id{};
  std::int64_t entered = 0;
  std::int64_t year = 0;
  Date closed{};
  friend bool operator==(const ClosedYear&, const ClosedYear&) = default;
};

/// A figure of a closed year as it was then.
struct KeptFigure {
  KeptFigureId id{};
  std::int64_t entered = 0;
  ClosedYearId closed_year{};
  std::string line;       ///< the word of a YearLine (core/books/year.h)
  std::string name;       ///< category or place
  std::int64_t size = 0;  ///< minor units, minutes, tenths of a mile or machines, by the line
  friend bool operator==(const KeptFigure&, const KeptFigure&) = default;
};

/// A machine seen for sale, or to be had, that is not in the shop: it counts in no books until it is bought.
struct Find {
  FindId id{};
  std::int64_t entered = 0;
  Date date{};  ///< seen
  MachineKind kind = MachineKind::push;
  std::string make;
  std::string model;
  std::optional<int> year;
  std::string symptom;             ///< in the seller's words or the knowledge base's; empty: not known
  Money asking;                    ///< zero: free
  std::optional<Tenths> miles;     ///< there and back
  std::optional<Minutes> minutes;  ///< to fetch it
  Money pickup_cost;               ///< money that fetching it takes
  std::string place;               ///< where it stands, or who has it
  std::optional<Date> ended;       ///< when it came to something or to nothing
  std::optional<FindEnd> how;
  std::optional<MachineId> machine;  ///< what it became, if it was bought
  std::string note;
  friend bool operator==(const Find&, const Find&) = default;
};

/// What a seller said to a question: the outcome of a test that needs no hands.
struct FindAnswer {
  FindAnswerId id{};
  std::int64_t entered = 0;
  FindId find{};
  Date date{};
  std::string test;
  std::string outcome;
  friend bool operator==(const FindAnswer&, const FindAnswer&) = default;
};

/// A number that the owner says for one machine in the place of the computed one; one for each path.
struct OwnNumber {
  OwnNumberId id{};
  std::int64_t entered = 0;
  MachineId machine{};
  std::string
      path;  ///< which number: "revived.price", "repairs.mend-carb-clean.minutes", "stops.scrap.value"
  double value = 0;  ///< in the unit of that number
  friend bool operator==(const OwnNumber&, const OwnNumber&) = default;
};

/// An entry of the knowledge base as this shop has it: it takes the place of the published one of that id.
struct KnowledgeEdit {
  KnowledgeEditId id{};
  std::int64_t entered = 0;
  std::string section;  ///< "causes", "tests"...
  std::string entry;    ///< its id in the section
  std::string text;     ///< the entry as JSON; only who reads the knowledge base knows whether it is right
  friend bool operator==(const KnowledgeEdit&, const KnowledgeEdit&) = default;
};

/// What the plan promised when it was first followed for a fault, kept so that it can be held against what
/// came. Amounts in whole units of the currency, of what lay ahead then: what had been spent is apart.
struct Forecast {
  ForecastId id{};
  std::int64_t entered = 0;
  MachineId machine{};
  FaultId fault{};
  Date date{};
  double chance_revived = 0;  ///< [0, 1]
  double cash = 0;            ///< money to come, on average
  double low = 0;             ///< the tenth and the ninetieth percent of it
  double high = 0;
  double hours = 0;
  double days = 0;
  double price = 0;       ///< the median price of the running machine that it was made with
  double sunk_cash = 0;   ///< what the machine had cost by then
  double sunk_hours = 0;  ///< and the hours that were in it
  friend bool operator==(const Forecast&, const Forecast&) = default;
};

/// How likely a cause was in a forecast.
struct ForecastCause {
  ForecastCauseId id{};
  std::int64_t entered = 0;
  ForecastId forecast{};
  std::string cause;  ///< its id in the knowledge base
  double chance = 0;  ///< [0, 1]
  friend bool operator==(const ForecastCause&, const ForecastCause&) = default;
};

/// The owner's own words for a machine's listing, in the place of those made from the record; one for each
/// machine.
struct ListingText {
  ListingTextId id{};
  std::int64_t entered = 0;
  MachineId machine{};
  Date date{};
  std::string text;
  friend bool operator==(const ListingText&, const ListingText&) = default;
};

/// Money that a buyer left to have the machine kept. It is no income: it is part of the price when the sale
/// comes, or is given back.
struct Deposit {
  DepositId id{};
  std::int64_t entered = 0;
  OfferId offer{};
  Date date{};
  Money amount;
  std::string payment;
  std::optional<Date> returned;
  friend bool operator==(const Deposit&, const Deposit&) = default;
};

/// What the owner says about the shop. Changing it is no entry of the history.
struct Settings {
  std::string name;
  Currency currency;
  std::optional<Money> hour_value;
  std::optional<Money> day_cost;
  std::optional<Tenths> hours_a_week;
  DistanceUnit unit_of_distance = DistanceUnit::mi;
  friend bool operator==(const Settings&, const Settings&) = default;
};

}  // namespace secondpull
