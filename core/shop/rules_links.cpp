#include <algorithm>
#include <set>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "core/shop/rule_breaks.h"

namespace secondpull {
namespace {

/// The column of each identifier, and what it names.
template <class Record>
void check_unique(const Shop& shop, RuleBreaks& breaks, std::string Record::*code, const char* column) {
  std::vector<const Record*> records;
  records.reserve(shop.all<Record>().size());
  for (const Record& record : shop.all<Record>())
    if (!(record.*code).empty()) records.push_back(&record);
  std::sort(records.begin(), records.end(), [&](const Record* a, const Record* b) {
    const int order = (a->*code).compare(b->*code);
    return order != 0 ? order < 0 : a->entered < b->entered;
  });
  for (std::size_t i = 1; i < records.size(); ++i)
    if (records[i]->*code == records[i - 1]->*code)
      breaks.add(
          records[i]->id, column, records[i]->*code,
          fmt::format("The {} {} is used twice: each needs one of its own.", column, records[i]->*code));
}

void check_closed_once(const Shop& shop, RuleBreaks& breaks) {
  std::set<std::int64_t> years;
  for (const ClosedYear& one : shop.all<ClosedYear>())
    if (!years.insert(one.year).second)
      breaks.add(one.id, "year", std::to_string(one.year), fmt::format("{} is closed already.", one.year));
}

void check_numbers_said_once(const Shop& shop, RuleBreaks& breaks) {
  std::set<std::pair<MachineId, std::string_view>> said;
  for (const OwnNumber& one : shop.all<OwnNumber>())
    if (!said.emplace(one.machine, one.path).second)
      breaks.add(one.id, "path", one.path,
                 fmt::format("There is an own number for {} of that machine already.", one.path));
}

void check_answered_once(const Shop& shop, RuleBreaks& breaks) {
  std::set<std::pair<FindId, std::string_view>> answered;
  for (const FindAnswer& one : shop.all<FindAnswer>())
    if (!answered.emplace(one.find, one.test).second)
      breaks.add(one.id, "test", one.test,
                 fmt::format("The seller's answer to \"{}\" is there already.", one.test));
}

void check_entries_kept_once(const Shop& shop, RuleBreaks& breaks) {
  std::set<std::pair<std::string_view, std::string_view>> kept;
  for (const KnowledgeEdit& one : shop.all<KnowledgeEdit>())
    if (!kept.emplace(one.section, one.entry).second)
      breaks.add(one.id, "entry", one.entry,
                 fmt::format("There is an own entry {} {} already.", one.section, one.entry));
}

void check_written_once(const Shop& shop, RuleBreaks& breaks) {
  std::set<MachineId> written;
  for (const ListingText& one : shop.all<ListingText>())
    if (!written.insert(one.machine).second)
      breaks.add(one.id, "machine", std::to_string(number(one.machine)),
                 "That machine has a listing text already.");
}

/// Each reference of a kind of record, with its column.
class References {
 public:
  References(const Shop& shop, RuleBreaks& breaks) : shop_{shop}, breaks_{breaks} {}

  void operator()(const Acquisition& r) const { one(r, "from", r.from, "person"); }
  void operator()(const Machine& r) const { one(r, "acquisition", r.acquisition, "acquisition"); }
  void operator()(const Fault& r) const { machine(r, "machine", r.machine); }
  void operator()(const Finding& r) const {
    machine(r, "machine", r.machine);
    own_fault(r, r.fault);
  }
  void operator()(const Labour& r) const {
    machine(r, "machine", r.machine);
    one(r, "acquisition", r.acquisition, "acquisition");
  }
  void operator()(const Part& r) const { one(r, "supplier", r.supplier, "person"); }
  void operator()(const Order& r) const { one(r, "supplier", r.supplier, "person"); }
  void operator()(const OrderLine& r) const {
    one(r, "order", r.order, "order");
    one(r, "part", r.part, "part");
    machine(r, "for", r.for_machine);
  }
  void operator()(const Harvest& r) const {
    machine(r, "donor", r.donor);
    one(r, "part", r.part, "part");
  }
  void operator()(const Fitted& r) const {
    machine(r, "machine", r.machine);
    one(r, "part", r.part, "part");
    one(r, "from", r.from_order, "order");
    machine(r, "from", r.from_donor);
  }
  void operator()(const Material& r) const { machine(r, "machine", r.machine); }
  void operator()(const Listing& r) const { machine(r, "machine", r.machine); }
  void operator()(const Offer& r) const { machine(r, "machine", r.machine); }
  void operator()(const Sale& r) const {
    machine(r, "machine", r.machine);
    one(r, "buyer", r.buyer, "person");
  }
  void operator()(const Return& r) const { machine(r, "machine", r.machine); }
  void operator()(const Allowance& r) const { machine(r, "machine", r.machine); }
  void operator()(const PartSale& r) const {
    one(r, "part", r.part, "part");
    one(r, "from", r.from_order, "order");
    machine(r, "from", r.from_donor);
    one(r, "buyer", r.buyer, "person");
  }
  void operator()(const Disposal& r) const { machine(r, "machine", r.machine); }
  void operator()(const Trip& r) const {
    machine(r, "machine", r.machine);
    one(r, "acquisition", r.acquisition, "acquisition");
  }
  void operator()(const Photo& r) const {
    machine(r, "machine", r.machine);
    one(r, "order", r.order, "order");
    one(r, "expense", r.expense, "expense");
  }
  void operator()(const KeptFigure& r) const { one(r, "closed_year", r.closed_year, "closed year"); }
  void operator()(const Find& r) const { machine(r, "machine", r.machine); }
  void operator()(const FindAnswer& r) const { one(r, "find", r.find, "find"); }
  void operator()(const OwnNumber& r) const { machine(r, "machine", r.machine); }
  void operator()(const Forecast& r) const {
    machine(r, "machine", r.machine);
    own_fault(r, r.fault);
  }
  void operator()(const ForecastCause& r) const { one(r, "forecast", r.forecast, "forecast"); }
  void operator()(const ListingText& r) const { machine(r, "machine", r.machine); }
  void operator()(const Deposit& r) const { one(r, "offer", r.offer, "offer"); }
  void operator()(const KnowledgeEdit&) const {}
  void operator()(const ClosedYear&) const {}
  void operator()(const Person&) const {}
  void operator()(const TaxPaid&) const {}
  void operator()(const Expense&) const {}

 private:
  template <class Record, class Id>
  void one(const Record& record, const char* column, const std::optional<Id>& id, const char* what) const {
    if (id && shop_.find(*id) == nullptr)
      breaks_.add(
          record.id, column, std::to_string(number(*id)),
          fmt::format("It names as \"{}\" a record ({} {}) that is not there.", column, what, number(*id)));
  }
  template <class Record, class Id>
  void one(const Record& record, const char* column, Id id, const char* what) const {
    one(record, column, std::optional{id}, what);
  }
  template <class Record>
  void machine(const Record& record, const char* column, std::optional<MachineId> id) const {
    one(record, column, id, "machine");
  }
  template <class Record>
  void own_fault(const Record& record, std::optional<FaultId> id) const {
    one(record, "fault", id, "fault");
    const Fault* const fault = id ? shop_.find(*id) : nullptr;
    if (fault != nullptr && fault->machine != record.machine)
      breaks_.add(record.id, "fault", fault->code,
                  fmt::format("The fault {} is one of another machine.", fault->code));
  }

  const Shop& shop_;
  RuleBreaks& breaks_;
};

}  // namespace

void check_identifiers(const Shop& shop, RuleBreaks& breaks) {
  check_unique(shop, breaks, &Person::code, "person");
  check_unique(shop, breaks, &Acquisition::code, "acquisition");
  check_unique(shop, breaks, &Machine::tag, "tag");
  check_unique(shop, breaks, &Fault::code, "fault");
  check_unique(shop, breaks, &Part::code, "part");
  check_unique(shop, breaks, &Order::code, "order");
  check_closed_once(shop, breaks);
  check_answered_once(shop, breaks);
  check_numbers_said_once(shop, breaks);
  check_entries_kept_once(shop, breaks);
  check_written_once(shop, breaks);
}

void check_references(const Shop& shop, RuleBreaks& breaks) {
  const References check{shop, breaks};
  shop.each_table([&](const auto& table) {
    for (const auto& record : table)
      check(record);
  });
}

}  // namespace secondpull
