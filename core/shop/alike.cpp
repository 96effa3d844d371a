#include "core/shop/alike.h"

#include <algorithm>
#include <optional>

#include "core/typed_words.h"

namespace secondpull {
namespace {

bool same(const std::string& a, const std::string& b) {
  return !trimmed(a).empty() && same_word(trimmed(a), trimmed(b));
}

std::optional<Alike::By> alike_by(const Machine& a, const Machine& b) {
  if (same(a.model_number, b.model_number)) return Alike::By::model_number;
  if (same(a.make, b.make) && same(a.model, b.model)) return Alike::By::make_and_model;
  if (same(a.engine, b.engine)) return Alike::By::engine;
  return std::nullopt;
}

Alike told(const Shop& shop, const ByMachine::Lines& lines, Alike::By by) {
  Alike alike{.machine = lines.machine->id, .by = by};
  for (const Fault* fault : lines.faults)
    if (fault->how != FaultEnd::mistaken) alike.faults.emplace_back(fault->symptom, fault->cause);
  for (const Fitted* fitted : lines.fitted) {
    const Part* const part = shop.find(fitted->part);
    if (part != nullptr && std::find(alike.parts.begin(), alike.parts.end(), part->name) == alike.parts.end())
      alike.parts.push_back(part->name);
  }
  if (!lines.sales.empty()) alike.sale = lines.sales.back();
  return alike;
}

}  // namespace

std::vector<Alike> machines_alike(const Shop& shop, const ByMachine& by_machine, MachineId id,
                                  std::size_t most) {
  std::vector<Alike> all;
  const Machine* const machine = shop.find(id);
  if (machine == nullptr) return all;
  for (const Machine& other : shop.all<Machine>())
    if (other.id != id)
      if (const auto by = alike_by(*machine, other)) all.push_back(told(shop, by_machine.of(other.id), *by));
  std::stable_sort(all.begin(), all.end(), [](const Alike& a, const Alike& b) {
    return a.by != b.by ? a.by < b.by : number(a.machine) > number(b.machine);
  });
  if (all.size() > most) all.resize(most);
  return all;
}

}  // namespace secondpull
