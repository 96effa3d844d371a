#include "core/decision/layout.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace secondpull::decision {
namespace {

/// Gives out room in the two words of a key while there is some.
class Fields {
 public:
  /// The token that adds 1 to a new digit of so many values.
  Key take(std::size_t values) {
    const auto width = static_cast<unsigned>(std::bit_width(values - 1));
    for (const bool second : {false, true}) {
      unsigned& used = second ? used_second_ : used_first_;
      if (used + width > bits_of_word) continue;
      const std::uint64_t one = width == 0 ? 0 : std::uint64_t{1} << used;
      used += width;
      return second ? Key{0, one} : Key{one, 0};
    }
    full_ = true;
    return {};
  }
  bool full() const { return full_; }

 private:
  static constexpr unsigned bits_of_word = 64;
  unsigned used_first_ = 0;
  unsigned used_second_ = 0;
  bool full_ = false;
};

/// A sequence of well scattered numbers (Steele, Lea and Flood 2014, SplitMix).
class Scatter {
 public:
  Key next() { return {word(), word()}; }

 private:
  std::uint64_t word() {
    state_ += 0x9E3779B97F4A7C15U;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
  }
  std::uint64_t state_ = 0;
};

Key times(const Key& token, std::uint64_t count) {
  return {token.first * count, token.second * count};
}

void give_tokens(const Model& model, Layout& layout) {
  Fields fields;
  std::vector<Key> of_slot;
  for (const auto& members : model.slot_tests) {
    std::size_t values = 1;
    for (const std::size_t test : members)
      values += layout.tests[test].outcomes.size();
    of_slot.push_back(fields.take(values));
  }
  for (Layout::Repair& repair : layout.repairs)
    repair.token = fields.take(static_cast<std::size_t>(repair.tries) + 1);
  Scatter scatter;
  if (fields.full())
    for (Layout::Repair& repair : layout.repairs)
      repair.token = scatter.next();
  for (std::size_t slot = 0; slot < model.slot_tests.size(); ++slot) {
    std::uint64_t answer = 0;
    for (const std::size_t test : model.slot_tests[slot])
      for (Layout::Outcome& outcome : layout.tests[test].outcomes) {
        ++answer;
        outcome.token = fields.full() ? scatter.next() : times(of_slot[slot], answer);
      }
  }
}

}  // namespace

Layout::Layout(const Model& model) : slots(model.slot_tests.size()), running(model.running_worth) {
  for (const Model::Cause& cause : model.causes)
    prior.push_back(cause.weight);
  scale = std::max(1.0, std::abs(running));
  for (const Model::Repair& from : model.repairs) {
    Repair repair{from.cost.full, from.tries, {}, {}};
    for (std::size_t cause = 0; cause < prior.size(); ++cause)
      if (from.cures[cause] > 0) repair.cures.push_back({cause, from.cures[cause]});
    scale = std::max(scale, repair.cost);
    depth += static_cast<std::size_t>(repair.tries);
    repairs.push_back(std::move(repair));
  }
  for (const Model::Test& from : model.tests) {
    Test test{from.cost.full, from.slot, {}};
    for (const auto& row : from.likelihood)
      test.outcomes.push_back({{}, row});
    scale = std::max(scale, test.cost);
    tests.push_back(std::move(test));
  }
  for (const Model::Stop& from : model.stops) {
    stops.push_back({from.by_cause, from.worth});
    for (const double worth : from.worth)
      scale = std::max(scale, std::abs(worth));
  }
  depth += slots;
  give_tokens(model, *this);
}

}  // namespace secondpull::decision
