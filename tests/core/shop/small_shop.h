#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include "core/shop/change.h"
#include "core/shop/describe.h"
#include "core/shop/rules.h"

namespace secondpull::test {

inline Date day(std::string_view text) {
  const auto date = parse_date(text, "date");
  if (!date) throw std::invalid_argument{date.error().sentence};
  return *date;
}

inline Money dollars(std::int64_t whole, std::int64_t cents = 0) {
  return Money::from_minor(whole * 100 + cents);
}

/// "donor: Parts were taken from #1, but..." for each rule that is broken.
inline std::string told(const std::vector<RuleBreak>& breaks) {
  std::string all;
  for (const RuleBreak& wrong : breaks)
    all += wrong.problem.field + ": " + wrong.problem.sentence + "\n";
  return all;
}

/// A shop of a few records that breaks no rule, with something of every kind in it:
/// a lot of #1 (sold, brought back, sold again), #2 (on the bench) and #3 (a donor, its hulk gone), and a
/// gift #4 for sale; an order of plugs and one still under way; a find, and the one that became #2.
struct SmallShop {
  Shop shop;
  PersonId seller = add(Person{.code = "P1", .name = "Odda Venn"});
  PersonId buyer = add(Person{.code = "P2", .name = "Ruel"});
  PersonId supplier = add(Person{.code = "P3", .name = "Pellundry Spares"});
  AcquisitionId lot = add(Acquisition{.code = "A1",
                                      .date = day("2026-03-02"),
                                      .source = Source::private_sale,
                                      .from = seller,
                                      .price = dollars(100),
                                      .opening = true});
  AcquisitionId given = add(Acquisition{
      .code = "A2", .date = day("2026-03-04"), .source = Source::gift, .giver_basis = dollars(50)});
  MachineId m1 = add(Machine{.tag = "1", .acquisition = lot, .value_then = dollars(120)});
  MachineId m2 = add(Machine{.tag = "2", .acquisition = lot, .year = 2019, .deck_in = Tenths{210}});
  MachineId m3 = add(Machine{.tag = "3", .acquisition = lot});
  MachineId m4 = add(Machine{.tag = "4", .acquisition = given, .kind = MachineKind::blower});
  FaultId fault = add(Fault{.code = "F1",
                            .machine = m1,
                            .date = day("2026-03-03"),
                            .symptom = "starts and dies",
                            .ended = day("2026-03-13"),
                            .how = FaultEnd::mended});
  FindingId finding = add(Finding{.machine = m1,
                                  .date = day("2026-03-03"),
                                  .step = "fuel to the bowl",
                                  .outcome = "none",
                                  .fault = fault,
                                  .minutes = Minutes{10}});
  LabourId labour =
      add(Labour{.machine = m2, .date = day("2026-03-06"), .minutes = {25}, .work = Work::diagnose});
  LabourId pickup =
      add(Labour{.acquisition = lot, .date = day("2026-03-02"), .minutes = {60}, .work = Work::pickup});
  PartId plug = add(Part{.code = "plug", .name = "spark plug", .supplier = supplier, .reorder_at = 2});
  PartId blade = add(Part{.code = "blade", .name = "blade"});
  OrderId order = add(Order{.code = "O1",
                            .date = day("2026-03-06"),
                            .supplier = supplier,
                            .arrived = day("2026-03-12"),
                            .freight = dollars(5, 95)});
  OrderId under_way = add(Order{.code = "O2", .date = day("2026-03-20"), .supplier = supplier});
  OrderLineId line = add(OrderLine{.order = order, .part = plug, .quantity = 3, .price = dollars(3, 49)});
  OrderLineId line_under_way = add(
      OrderLine{.order = under_way, .part = plug, .quantity = 1, .price = dollars(3, 49), .for_machine = m2});
  HarvestId harvest = add(
      Harvest{.donor = m3, .date = day("2026-03-07"), .part = blade, .quantity = 1, .value = dollars(15)});
  FittedId fitted = add(Fitted{.machine = m1, .date = day("2026-03-12"), .part = plug, .quantity = 1});
  FittedId fitted_blade =
      add(Fitted{.machine = m1, .date = day("2026-03-07"), .part = blade, .quantity = 1, .from_donor = m3});
  MaterialId material =
      add(Material{.machine = m1, .date = day("2026-03-13"), .what = "fuel line", .cost = dollars(2)});
  ListingId listing = add(
      Listing{.machine = m1, .date = day("2026-03-14"), .asking = dollars(195), .ended = day("2026-03-21")});
  ListingId listing_now = add(Listing{.machine = m4, .date = day("2026-03-14"), .asking = dollars(80)});
  OfferId offer = add(Offer{.machine = m1, .date = day("2026-03-20"), .amount = dollars(180), .who = "Ruel"});
  SaleId sale = add(Sale{.machine = m1,
                         .date = day("2026-03-21"),
                         .buyer = buyer,
                         .price = dollars(185),
                         .fee = dollars(4, 63),
                         .warranty_days = 14});
  ReturnId comeback = add(Return{.machine = m1, .date = day("2026-03-25"), .refunded = dollars(185)});
  SaleId second_sale =
      add(Sale{.machine = m1, .date = day("2026-03-30"), .buyer = buyer, .price = dollars(160)});
  AllowanceId allowance = add(Allowance{.machine = m1, .date = day("2026-04-02"), .amount = dollars(10)});
  PartSaleId part_sale = add(PartSale{
      .date = day("2026-03-12"), .part = plug, .quantity = 1, .price = dollars(6), .from_order = order});
  TaxPaidId tax = add(TaxPaid{.date = day("2026-04-20"), .place = "Ovenden", .amount = dollars(3)});
  DisposalId disposal = add(Disposal{.machine = m3,
                                     .date = day("2026-03-07"),
                                     .how = DisposalKind::parted_out,
                                     .proceeds = dollars(4, 20),
                                     .hulk_value = dollars(5),
                                     .hulk_gone = day("2026-03-28")});
  TripId trip =
      add(Trip{.date = day("2026-03-02"), .miles = {280}, .purpose = "fetch the lot", .acquisition = lot});
  ExpenseId expense = add(Expense{.date = day("2026-03-02"), .category = "supplies", .amount = dollars(12)});
  PhotoId photo = add(Photo{.sha256 = std::string(64, 'a'), .name = "deck.jpg", .machine = m1});

  FindId find = add(Find{.date = day("2026-04-03"),
                         .make = "Tarnwick",
                         .model = "TW-2",
                         .year = 2014,
                         .symptom = "cranks, will not start",
                         .asking = dollars(40),
                         .miles = Tenths{180},
                         .minutes = Minutes{50},
                         .place = "Ovenden"});
  FindId bought = add(Find{.date = day("2026-03-01"),
                           .asking = dollars(30),
                           .ended = day("2026-03-02"),
                           .how = FindEnd::bought,
                           .machine = m2});
  FindAnswerId answer =
      add(FindAnswer{.find = find, .date = day("2026-04-03"), .test = "does it turn", .outcome = "turns"});
  OwnNumberId own_number = add(OwnNumber{.machine = m2, .path = "revived.price", .value = 145.5});
  KnowledgeEditId own_entry =
      add(KnowledgeEdit{.section = "causes", .entry = "leak", .text = R"({"name": "leak", "note": "own"})"});
  ForecastId forecast = add(Forecast{.machine = m1,
                                     .fault = fault,
                                     .date = day("2026-03-03"),
                                     .chance_revived = 0.9,
                                     .cash = 120.5,
                                     .low = -5,
                                     .high = 190,
                                     .hours = 2,
                                     .days = 9,
                                     .price = 160});
  ForecastCauseId forecast_cause = add(ForecastCause{.forecast = forecast, .cause = "leak", .chance = 0.25});
  ListingTextId listing_text =
      add(ListingText{.machine = m4, .date = day("2026-03-14"), .text = "Mower, runs well."});
  DepositId deposit =
      add(Deposit{.offer = offer, .date = day("2026-03-20"), .amount = dollars(20), .payment = "cash"});

  template <class Record>
  decltype(Record::id) add(Record record) {
    record.id = static_cast<decltype(record.id)>(shop.next_id++);
    record.entered = number(record.id);
    shop.all<Record>().insert(record);
    return record.id;
  }
  /// Puts a field of a record to another value.
  template <class Id, class Edit>
  SmallShop& change(Id id, Edit&& edit) {
    auto record = *shop.find(id);
    edit(record);
    shop.all<decltype(record)>().replace(record);
    return *this;
  }
  template <class Id>
  void remove(Id id) {
    shop.all<std::remove_cvref_t<decltype(*shop.find(id))>>().erase(id);
  }
  /// The action's change carried out; throws its sentence if there was a problem.
  void carry_out(const Result<Change>& made) {
    if (!made) throw std::invalid_argument{made.error().sentence};
    const auto after = apply(shop, *made);
    if (!after) throw std::invalid_argument{after.error().sentence};
    shop = *after;
  }
};

}  // namespace secondpull::test
