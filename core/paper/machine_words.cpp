#include "core/paper/machine_words.h"

#include <fmt/format.h>

namespace secondpull::paper {

std::string kind_noun(MachineKind kind) {
  if (kind == MachineKind::other) return "machine";
  const bool mower =
      kind == MachineKind::push || kind == MachineKind::self_propelled || kind == MachineKind::zero_turn;
  return fmt::format("{}{}", word(kind), mower ? " mower" : "");
}

std::string joined(const std::vector<std::string>& words, std::string_view separator) {
  std::string all;
  for (const std::string& each : words) {
    if (each.empty()) continue;
    if (!all.empty()) all += separator;
    all += each;
  }
  return all;
}

std::string machine_name(const Machine& machine) {
  const bool named = !machine.make.empty() || !machine.model.empty();
  const bool says_kind = !named || machine.kind != MachineKind::other;
  return joined({machine.make, machine.model, says_kind ? kind_noun(machine.kind) : ""}, " ");
}

std::string inches(Tenths width) {
  constexpr std::int64_t kTenths = 10;
  return width.count % kTenths == 0 ? fmt::format("{} in", width.count / kTenths)
                                    : fmt::format("{}.{} in", width.count / kTenths, width.count % kTenths);
}

std::vector<std::string> machine_facts(const Machine& machine) {
  std::vector<std::string> facts;
  const auto fact = [&](std::string_view label, const std::string& value) {
    if (!value.empty()) facts.push_back(fmt::format("{} {}", label, value));
  };
  fact("model no.", machine.model_number);
  fact("serial", machine.serial);
  fact("engine", machine.engine);
  if (machine.year) facts.push_back(std::to_string(*machine.year));
  if (machine.deck_in) facts.push_back(inches(*machine.deck_in) + " cut");
  return facts;
}

}  // namespace secondpull::paper
