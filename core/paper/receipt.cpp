#include "core/paper/receipt.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/paper/condition.h"
#include "core/paper/machine_words.h"
#include "core/shop/describe.h"

namespace secondpull::paper {
namespace {

/// All that the buyer took along on that day.
Deal of_buyer(const Shop& shop, PersonId buyer, Date day) {
  Deal deal;
  std::vector<MachineId> taken;
  const auto& sales = shop.all<Sale>();
  for (auto sale = sales.end(); sale != sales.begin();) {
    --sale;
    if (sale->buyer != buyer || sale->date != day ||
        std::find(taken.begin(), taken.end(), sale->machine) != taken.end())
      continue;
    taken.push_back(sale->machine);
    deal.machines.push_back(sale->id);
  }
  std::reverse(deal.machines.begin(), deal.machines.end());
  for (const PartSale& sale : shop.all<PartSale>())
    if (sale.buyer == buyer && sale.date == day) deal.parts.push_back(sale.id);
  return deal;
}

/// The day on which the machine was sold before; nothing if it was not.
std::optional<Date> sold_before(const ByMachine::Lines& lines, const Sale& sale) {
  const auto at = std::find(lines.sales.begin(), lines.sales.end(), &sale);
  if (at == lines.sales.end() || at == lines.sales.begin()) return std::nullopt;
  return (*std::prev(at))->date;
}

bool is_walk_behind(MachineKind kind) {
  return kind == MachineKind::push || kind == MachineKind::self_propelled;
}
bool is_ridden(MachineKind kind) {
  return kind == MachineKind::lawn_tractor || kind == MachineKind::zero_turn;
}

class Writer {
 public:
  Writer(const Shop& shop, const ByMachine& by_machine, const learning::KnowledgeBase& base)
      : shop_{shop}, by_machine_{by_machine}, base_{base} {
    receipt_.seller = shop.settings.name;
  }

  void add(const Sale& sale) {
    const ByMachine::Lines& lines = by_machine_.of(sale.machine);
    if (lines.machine == nullptr) return;
    const Machine& machine = *lines.machine;
    const std::string name = fmt::format("{} {}", called(machine), machine_name(machine));
    head(number(sale.id), sale.date, sale.buyer);
    line({name, details_of(machine), sale.price}, sale.sales_tax, sale.place);
    deposits_of(lines, sale);
    receipt_.delivered = receipt_.delivered || !sale.delivery.is_zero();
    if (std::find(payments_.begin(), payments_.end(), sale.payment) == payments_.end())
      payments_.push_back(sale.payment);
    const Condition condition = condition_of(shop_, before_sale(lines, sale).lines, base_, sale.date);
    receipt_.machines.push_back(
        {.name = name,
         .terms = terms_of(sale),
         .warranty = warranty_of(sale),
         .wrong = condition.wrong,
         .recall = condition.recall.empty() ? "" : fmt::format("Recalls: {}.", condition.recall)});
    kinds_.push_back(machine.kind);
  }

  void add(const PartSale& sale) {
    const Part* const part = shop_.find(sale.part);
    const std::string name = part != nullptr ? part->name : "part";
    head(number(sale.id), sale.date, sale.buyer);
    line({sale.quantity > 1 ? fmt::format("{} x {}", sale.quantity, name) : name,
          part != nullptr && !part->number.empty() ? "part no. " + part->number : "", sale.price},
         sale.sales_tax, sale.place);
  }

  Receipt written() && {
    receipt_.total = receipt_.goods;
    for (const NamedAmount& tax : receipt_.taxes)
      receipt_.total += tax.amount;
    receipt_.balance = receipt_.total;
    for (const NamedAmount& deposit : receipt_.deposits)
      receipt_.balance -= deposit.amount;
    receipt_.payment = joined(payments_, " and ");
    safety();
    return std::move(receipt_);
  }

 private:
  void head(std::int64_t sale, Date date, std::optional<PersonId> buyer) {
    if (!receipt_.number.empty()) return;
    receipt_.number = std::to_string(sale);
    receipt_.date = date;
    const Person* const person = buyer ? shop_.find(*buyer) : nullptr;
    if (person == nullptr) return;
    receipt_.buyer = person->name;
    receipt_.buyer_contact = joined({person->phone, person->email}, ", ");
  }

  void line(ReceiptLine line, Money tax, const std::string& place) {
    receipt_.goods += line.price;
    receipt_.lines.push_back(std::move(line));
    if (tax.is_zero()) return;
    const std::string name = place.empty() ? "Sales tax" : "Sales tax, " + place;
    const auto same = std::find_if(receipt_.taxes.begin(), receipt_.taxes.end(),
                                   [&](const NamedAmount& each) { return each.name == name; });
    if (same == receipt_.taxes.end())
      receipt_.taxes.push_back({name, tax});
    else
      same->amount += tax;
  }

  static std::string details_of(const Machine& machine) {
    Machine rest = machine;
    rest.serial.clear();
    const std::string serial =
        machine.serial.empty() ? "serial number not on record" : "serial " + machine.serial;
    return joined({serial, joined(machine_facts(rest), ", ")}, ", ");
  }

  void deposits_of(const ByMachine::Lines& lines, const Sale& sale) {
    const std::optional<Date> before = sold_before(lines, sale);
    for (const Deposit& deposit : shop_.all<Deposit>()) {
      const Offer* const offer = shop_.find(deposit.offer);
      const bool counts = offer != nullptr && offer->machine == sale.machine &&
                          offer->result == OfferResult::taken && !deposit.returned &&
                          deposit.date <= sale.date && (!before || deposit.date > *before);
      if (counts)
        receipt_.deposits.push_back({fmt::format("Deposit of {}{}", shown(deposit.date),
                                                 deposit.payment.empty() ? "" : ", " + deposit.payment),
                                     deposit.amount});
    }
  }

  static std::string terms_of(const Sale& sale) {
    if (!sale.sold_as) return {};
    return *sale.sold_as == SoldAs::as_is ? std::string{kAsIsWords} : "It is sold as a running machine.";
  }
  static std::string warranty_of(const Sale& sale) {
    if (!sale.warranty_days || *sale.warranty_days == 0)
      return "No warranty is given beyond the rights that local law gives a buyer.";
    const int days = static_cast<int>(*sale.warranty_days);
    return fmt::format(
        "Warranty of {}, until {}: if it fails by then, bring it back with this paper. Rights that local "
        "law gives a buyer stand beside it.",
        counted(days, "day", "days"), shown(plus_days(sale.date, days)));
  }

  /// Sources: 16 CFR 1205.5 (blade of a walk-behind at a standstill within 3.0 s); the rest common practice,
  /// no source.
  void safety() {
    if (kinds_.empty()) return;
    const bool walked = std::any_of(kinds_.begin(), kinds_.end(), is_walk_behind);
    const bool ridden = std::any_of(kinds_.begin(), kinds_.end(), is_ridden);
    auto& all = receipt_.safety;
    all.emplace_back("Read the maker's manual before the first start; what it says comes first.");
    if (walked)
      all.emplace_back(
          "When the bail of a walk-behind is let go, its blade must stand still within 3 "
          "seconds. Try it before every day's work; if it does not, do not use it.");
    if (ridden)
      all.emplace_back(
          "When the driver leaves the seat, engine and blades must stop. Try it before every "
          "day's work; if they do not, do not use it.");
    all.emplace_back(
        "Stop the engine and take the lead off the spark plug before your hands go near a blade, "
        "line or belt.");
    all.emplace_back(
        "Fill fuel outdoors only, with a cold engine and no flame near, from an approved can. Run "
        "the engine outdoors only.");
    all.emplace_back("Keep every guard on, and leave no safety switch bypassed.");
  }

  const Shop& shop_;
  const ByMachine& by_machine_;
  const learning::KnowledgeBase& base_;
  Receipt receipt_;
  std::vector<std::string> payments_;
  std::vector<MachineKind> kinds_;
};

}  // namespace

Deal deal_of(const Shop& shop, SaleId id) {
  const Sale* const sale = shop.find(id);
  if (sale == nullptr) return {};
  return sale->buyer ? of_buyer(shop, *sale->buyer, sale->date) : Deal{.machines = {id}};
}

Deal deal_of(const Shop& shop, PartSaleId id) {
  const PartSale* const sale = shop.find(id);
  if (sale == nullptr) return {};
  return sale->buyer ? of_buyer(shop, *sale->buyer, sale->date) : Deal{.parts = {id}};
}

Receipt receipt_of(const Shop& shop, const ByMachine& by_machine, const learning::KnowledgeBase& base,
                   const Deal& deal) {
  Writer writer{shop, by_machine, base};
  for (const SaleId id : deal.machines)
    if (const Sale* const sale = shop.find(id)) writer.add(*sale);
  for (const PartSaleId id : deal.parts)
    if (const PartSale* const sale = shop.find(id)) writer.add(*sale);
  return std::move(writer).written();
}

}  // namespace secondpull::paper
