#include "core/shop/guess.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdint>
#include <map>

namespace secondpull {
namespace {

/// What a machine that has not been tried may fetch, in percent of what its kind sells for once it runs:
/// common practice, no source.
std::int64_t share_percent(Worth worth) {
  switch (worth) {
    case Worth::good:
      return 50;
    case Worth::middling:
      return 25;
    case Worth::for_parts:
      break;
  }
  return 10;
}

struct Sum {
  Money price;
  std::int64_t count = 0;
  void add(Money amount) {
    price += amount;
    ++count;
  }
};

Money whole_units(Money amount, const Currency& currency) {
  std::int64_t unit = 1;
  for (int digit = 0; digit < currency.digits; ++digit)
    unit *= 10;
  return Money::from_minor(scale(amount, 1, unit).minor() * unit);
}

template <class Word, class Record, class Pick>
Word most_frequent(const Table<Record>& records, Word otherwise, Pick pick) {
  std::map<Word, std::int64_t> counts;
  for (const Record& record : records)
    ++counts[pick(record)];
  const auto most = std::max_element(counts.begin(), counts.end(),
                                     [](const auto& a, const auto& b) { return a.second < b.second; });
  return most == counts.end() ? otherwise : most->first;
}

bool same_letters(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](unsigned char x, unsigned char y) { return std::tolower(x) == std::tolower(y); });
}

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

}  // namespace

std::vector<Money> guessed_values(const Shop& shop, std::span<const WorthGuess> machines, Money paid) {
  std::map<MachineKind, Sum> by_kind;
  Sum all;
  for (const Sale& sale : shop.all<Sale>()) {
    const Machine* machine = shop.find(sale.machine);
    if (machine == nullptr) continue;
    by_kind[machine->kind].add(sale.price);
    all.add(sale.price);
  }

  std::vector<Money> values;
  if (machines.empty()) return values;
  if (all.count == 0) {
    std::vector<std::int64_t> shares;
    for (const WorthGuess& machine : machines)
      shares.push_back(share_percent(machine.worth));
    return split(std::max(paid, Money{}), shares);
  }
  for (const WorthGuess& machine : machines) {
    const auto own = by_kind.find(machine.kind);
    const Sum& sum = own == by_kind.end() ? all : own->second;
    values.push_back(
        whole_units(scale(sum.price, share_percent(machine.worth), 100 * sum.count), shop.settings.currency));
  }
  return values;
}

MachineKind usual_kind(const Shop& shop) {
  return most_frequent(shop.all<Machine>(), MachineKind::push,
                       [](const Machine& machine) { return machine.kind; });
}

Source usual_source(const Shop& shop) {
  return most_frequent(shop.all<Acquisition>(), Source::curb,
                       [](const Acquisition& acquisition) { return acquisition.source; });
}

MakeAndModel split_make_model(const Shop& shop, std::string_view line) {
  const std::string_view text = trimmed(line);
  std::string_view known;
  for (const Machine& machine : shop.all<Machine>()) {
    const std::string& make = machine.make;
    const bool starts = !make.empty() && text.size() >= make.size() &&
                        same_letters(text.substr(0, make.size()), make) &&
                        (text.size() == make.size() || text[make.size()] == ' ');
    if (starts && make.size() > known.size()) known = make;
  }
  if (!known.empty()) return {std::string{known}, std::string{trimmed(text.substr(known.size()))}};

  const auto space = text.find(' ');
  if (space != std::string_view::npos)
    return {std::string{text.substr(0, space)}, std::string{trimmed(text.substr(space))}};
  const bool has_digit =
      std::any_of(text.begin(), text.end(), [](unsigned char c) { return std::isdigit(c); });
  return has_digit ? MakeAndModel{{}, std::string{text}} : MakeAndModel{std::string{text}, {}};
}

}  // namespace secondpull
