#include "core/shop/codes.h"

#include <algorithm>

#include "core/typed_words.h"

namespace secondpull {
namespace {

/// The number behind the prefix, or 0 if the code is not made so.
std::int64_t numbered(std::string_view code, std::string_view prefix) {
  if (!code.starts_with(prefix)) return 0;
  return whole_number(code.substr(prefix.size())).value_or(0);
}

template <class Record>
std::int64_t largest(const Shop& shop, std::string_view prefix) {
  std::int64_t most = 0;
  for (const Record& record : shop.all<Record>())
    most = std::max(most, numbered(record.code, prefix));
  return most;
}

bool plain_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c & 0x80) != 0;
}

bool same_part(const Part& part, std::string_view name, std::string_view number) {
  return same_word(part.name, name) && same_word(part.number, number);
}

}  // namespace

std::string next_acquisition_code(const Shop& shop) {
  return "A" + std::to_string(largest<Acquisition>(shop, "A") + 1);
}

std::string next_order_code(const Shop& shop) {
  std::int64_t most = largest<Order>(shop, "O");
  for (const Machine& machine : shop.all<Machine>())
    most = std::max(most, numbered(machine.tag, "O"));
  return "O" + std::to_string(most + 1);
}

std::string next_fault_code(const Shop& shop) {
  return "F" + std::to_string(largest<Fault>(shop, "F") + 1);
}
std::string next_person_code(const Shop& shop) {
  return "P" + std::to_string(largest<Person>(shop, "P") + 1);
}

std::string slug(std::string_view name) {
  std::string made;
  for (const char c : name) {
    const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if (plain_letter(small))
      made += small;
    else if (!made.empty() && made.back() != '-')
      made += '-';
  }
  if (!made.empty() && made.back() == '-') made.pop_back();
  return made.empty() ? "part" : made;
}

Result<std::optional<PersonId>> choose_person(const Shop& shop, Change& change, const PersonChoice& choice,
                                              std::string_view field) {
  if (choice.known) {
    if (shop.find(*choice.known) == nullptr)
      return problem("That person is not in the shop's records any more: choose somebody else.",
                     std::string{field});
    return choice.known;
  }
  const std::string_view name = trimmed(choice.new_name);
  if (name.empty()) return std::nullopt;
  return change.add(Person{.code = next_person_code(shop), .name = std::string{name}});
}

Result<PartId> PartChooser::choose(const PartChoice& choice) {
  if (choice.known) {
    if (shop_.find(*choice.known) == nullptr)
      return problem("That part is not in the shop's records any more: choose another one.", "part");
    return *choice.known;
  }
  const std::string_view name = trimmed(choice.new_name);
  const std::string_view number = trimmed(choice.new_number);
  if (name.empty()) return problem("The part has no name: say what it is.", "part");
  for (const Part& part : shop_.all<Part>())
    if (same_part(part, name, number)) return part.id;
  for (const auto& [id, part] : added_)
    if (same_part(part, name, number)) return id;
  Part part{.name = std::string{name}, .number = std::string{number}};
  part.code = unique_code(part.name);
  const PartId id = change_.add(part);
  added_[id] = std::move(part);
  return id;
}

std::string PartChooser::name(PartId part) const {
  if (const Part* const known = shop_.find(part)) return known->name;
  const auto at = added_.find(part);
  return at == added_.end() ? std::string{} : at->second.name;
}

std::string PartChooser::unique_code(const std::string& name) const {
  const auto taken = [&](const std::string& code) {
    const auto same = [&](const Part& part) { return part.code == code; };
    return std::any_of(shop_.all<Part>().begin(), shop_.all<Part>().end(), same) ||
           std::any_of(added_.begin(), added_.end(), [&](const auto& entry) { return same(entry.second); });
  };
  const std::string first = slug(name);
  std::string code = first;
  for (int next = 2; taken(code); ++next)
    code = first + "-" + std::to_string(next);
  return code;
}

}  // namespace secondpull
