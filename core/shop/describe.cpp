#include "core/shop/describe.h"

#include <fmt/format.h>

namespace secondpull {
namespace {

/// One overload for each kind of record.
class Describe {
 public:
  explicit Describe(const Shop& shop) : shop_{shop} {}

  std::string operator()(const Person& r) const { return r.name; }
  std::string operator()(const Acquisition& r) const { return "acquisition " + r.code; }
  std::string operator()(const Machine& r) const { return called(r); }
  std::string operator()(const Fault& r) const {
    return fmt::format("fault \"{}\" of {}", r.symptom, on(r.machine));
  }
  std::string operator()(const Finding& r) const {
    return fmt::format("{}: {}, on {}", r.step, r.outcome, on(r.machine));
  }
  std::string operator()(const Labour& r) const {
    const std::string what = fmt::format("{} {}", shown(r.minutes), word(r.work));
    if (r.machine) return fmt::format("{} on {}", what, on(*r.machine));
    const Acquisition* const lot = r.acquisition ? shop_.find(*r.acquisition) : nullptr;
    return lot != nullptr ? fmt::format("{} for acquisition {}", what, lot->code) : what;
  }
  std::string operator()(const Part& r) const { return r.name; }
  std::string operator()(const Order& r) const { return "order " + r.code; }
  std::string operator()(const OrderLine& r) const {
    const Order* const order = shop_.find(r.order);
    return fmt::format("{} of order {}", pieces(r.quantity, r.part), order != nullptr ? order->code : "");
  }
  std::string operator()(const Harvest& r) const {
    return fmt::format("{} from {}", pieces(r.quantity, r.part), on(r.donor));
  }
  std::string operator()(const Fitted& r) const {
    return r.machine ? fmt::format("{} on {}", pieces(r.quantity, r.part), on(*r.machine))
                     : fmt::format("{} written off", pieces(r.quantity, r.part));
  }
  std::string operator()(const Material& r) const {
    return fmt::format("{} {} on {}", sum(r.cost), r.what, on(r.machine));
  }
  std::string operator()(const Listing& r) const {
    return fmt::format("listing of {} at {}", on(r.machine), sum(r.asking));
  }
  std::string operator()(const Offer& r) const {
    return fmt::format("offer of {} for {}{}", sum(r.amount), on(r.machine),
                       r.who.empty() ? "" : " from " + r.who);
  }
  std::string operator()(const Sale& r) const {
    return fmt::format("sale of {}{} for {}", on(r.machine), to(r.buyer), sum(r.price));
  }
  std::string operator()(const Return& r) const {
    return fmt::format("return of {}, {} refunded", on(r.machine), sum(r.refunded));
  }
  std::string operator()(const Allowance& r) const {
    return fmt::format("allowance of {} on {}", sum(r.amount), on(r.machine));
  }
  std::string operator()(const PartSale& r) const {
    return fmt::format("sale of {}{} for {}", pieces(r.quantity, r.part), to(r.buyer), sum(r.price));
  }
  std::string operator()(const TaxPaid& r) const {
    return fmt::format("sales tax of {} handed on{}", sum(r.amount), r.place.empty() ? "" : " to " + r.place);
  }
  std::string operator()(const Disposal& r) const { return fmt::format("{} {}", on(r.machine), word(r.how)); }
  std::string operator()(const Trip& r) const {
    return fmt::format("trip of {}.{} miles: {}", r.miles.count / 10, r.miles.count % 10, r.purpose);
  }
  std::string operator()(const Expense& r) const { return fmt::format("{} {}", sum(r.amount), r.category); }
  std::string operator()(const Photo& r) const { return r.name.empty() ? "photo" : "photo " + r.name; }
  std::string operator()(const ClosedYear& r) const { return fmt::format("closing of {}", r.year); }
  std::string operator()(const KeptFigure& r) const {
    return fmt::format("kept figure {} {}", r.line, r.name);
  }
  std::string operator()(const Find& r) const { return "find " + called(r); }
  std::string operator()(const FindAnswer& r) const {
    const Find* const find = shop_.find(r.find);
    return fmt::format("answer about {}: {}, {}", find != nullptr ? called(*find) : "a find", r.test,
                       r.outcome);
  }
  std::string operator()(const OwnNumber& r) const {
    return fmt::format("own number {} = {} for {}", r.path, r.value, on(r.machine));
  }
  std::string operator()(const KnowledgeEdit& r) const {
    return fmt::format("own entry {} {}", r.section, r.entry);
  }
  std::string operator()(const Forecast& r) const { return "forecast for " + on(r.machine); }
  std::string operator()(const ForecastCause& r) const {
    const Forecast* const forecast = shop_.find(r.forecast);
    return fmt::format("chance of {} in the forecast for {}", r.cause,
                       forecast != nullptr ? on(forecast->machine) : "a machine");
  }
  std::string operator()(const ListingText& r) const { return "listing text of " + on(r.machine); }
  std::string operator()(const Deposit& r) const {
    const Offer* const offer = shop_.find(r.offer);
    return fmt::format("deposit of {}{}", sum(r.amount),
                       offer != nullptr ? " for " + on(offer->machine) : "");
  }

 private:
  std::string on(MachineId machine) const { return called(shop_, machine); }
  std::string sum(Money amount) const { return shown_short(amount, shop_.settings.currency); }
  std::string to(std::optional<PersonId> buyer) const {
    const Person* const person = buyer ? shop_.find(*buyer) : nullptr;
    return person != nullptr ? " to " + person->name : "";
  }
  std::string pieces(std::int64_t quantity, PartId id) const {
    const Part* const part = shop_.find(id);
    return fmt::format("{} x {}", quantity, part != nullptr ? part->name : "part");
  }

  const Shop& shop_;
};

}  // namespace

std::string called(const Machine& machine) {
  return "#" + machine.tag;
}
std::string called(const Shop& shop, MachineId machine) {
  const Machine* const found = shop.find(machine);
  return found != nullptr ? called(*found) : "a machine";
}

std::string called(const Find& find) {
  if (!find.make.empty() && !find.model.empty()) return find.make + " " + find.model;
  if (!find.make.empty() || !find.model.empty()) return find.make + find.model;
  if (find.kind == MachineKind::other) return "machine";
  const bool mower = find.kind == MachineKind::push || find.kind == MachineKind::self_propelled;
  return fmt::format("{}{}", word(find.kind), mower ? " mower" : "");
}

std::string described(const Shop& shop, const AnyRecord& record) {
  return std::visit(Describe{shop}, record);
}

std::optional<AnyRecord> find_any(const Shop& shop, const AnyId& id) {
  return std::visit(
      [&](auto key) -> std::optional<AnyRecord> {
        const auto* const record = shop.find(key);
        if (record == nullptr) return std::nullopt;
        return AnyRecord{*record};
      },
      id);
}

std::string counted(std::int64_t count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

}  // namespace secondpull
