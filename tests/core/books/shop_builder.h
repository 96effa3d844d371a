#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/books/books.h"

namespace secondpull::test {

/// "2026-03-02" as a day.
inline Date day(std::string_view text) {
  const auto date = parse_date(text, "date");
  if (!date) throw std::invalid_argument(date.error().sentence);
  return *date;
}

/// "12.34" as money, in US dollars unless another currency is named.
inline Money money(std::string_view text, const Currency& currency = {}) {
  const auto amount = parse_amount(text, currency, "amount");
  if (!amount) throw std::invalid_argument(amount.error().sentence);
  return *amount;
}

/// Builds a shop record by record. Ids and the order of entry follow the calls; nothing is checked.
class ShopBuilder {
 public:
  ShopBuilder() { shop_.settings.name = "Wendlethorp Garage"; }

  /// Adds any record; its id and place of entry are given here.
  template <class Record>
  auto add(Record record) {
    record.id = static_cast<decltype(record.id)>(shop_.next_id++);
    record.entered = number(record.id);
    shop_.all<Record>().insert(record);
    return record.id;
  }
  MachineId machine(std::string tag, AcquisitionId acquisition, std::optional<Money> value_then = {}) {
    return add(Machine{.tag = std::move(tag), .acquisition = acquisition, .value_then = value_then});
  }
  /// One machine bought by itself.
  MachineId bought(std::string tag, Date date, Money price) {
    return machine(std::move(tag), add(Acquisition{.date = date, .price = price}));
  }
  /// One machine that was a gift of which the giver's basis is known.
  MachineId given(std::string tag, Date date, Money giver_basis, std::optional<Money> value_then) {
    return machine(std::move(tag),
                   add(Acquisition{.date = date, .source = Source::gift, .giver_basis = giver_basis}),
                   value_then);
  }
  PartId part(std::string name) { return add(Part{.code = name, .name = std::move(name)}); }
  /// An order of one line that arrived the day it was placed, without freight.
  OrderId bought_parts(PartId part, Date date, std::int64_t quantity, Money each) {
    const OrderId order = add(Order{.date = date, .arrived = date});
    add(OrderLine{.order = order, .part = part, .quantity = quantity, .price = each});
    return order;
  }
  FittedId fit(MachineId machine, Date date, PartId part, std::int64_t quantity = 1) {
    return add(Fitted{.machine = machine, .date = date, .part = part, .quantity = quantity});
  }
  SaleId sell(MachineId machine, Date date, Money price, Money fee = {}, Money delivery = {}) {
    return add(Sale{.machine = machine, .date = date, .price = price, .fee = fee, .delivery = delivery});
  }
  ReturnId take_back(MachineId machine, Date date, Money refunded) {
    return add(Return{.machine = machine, .date = date, .refunded = refunded});
  }
  LabourId work(MachineId machine, Date date, std::int64_t minutes, Work kind = Work::repair) {
    return add(Labour{.machine = machine, .date = date, .minutes = {minutes}, .work = kind});
  }

  Shop& shop() { return shop_; }
  const Shop& shop() const { return shop_; }
  /// The books of the shop as it is now.
  Result<Books> try_books(const MileageRates& rates = {}) const {
    return Books::of(std::make_shared<const Shop>(shop_), rates);
  }
  /// The same; throws the problem's sentence if there is one, which fails the test.
  Books books(const MileageRates& rates = {}) const {
    auto made = try_books(rates);
    if (!made) throw std::runtime_error(made.error().sentence);
    return *std::move(made);
  }

 private:
  Shop shop_;
};

}  // namespace secondpull::test
