#include "core/books/ledger.h"

namespace secondpull::bookkeeping {

namespace {

constexpr std::size_t kUsualLegs = 3;

}  // namespace

void Ledger::reserve(std::size_t events) {
  happenings_.reserve(events);
  entries_.reserve(events * kUsualLegs);
}

void Ledger::open(Date date, Turn turn, AnyId event) {
  close();
  happenings_.push_back({date, turn, event, entries_.size()});
}

void Ledger::post(const Leg& leg) {
  if (leg.amount.is_zero()) return;
  entries_.push_back({leg, static_cast<std::uint32_t>(happenings_.size() - 1)});
}

std::uint32_t Ledger::name(std::string_view text) {
  const auto known = numbers_.find(text);
  if (known != numbers_.end()) return known->second;
  const auto number = static_cast<std::uint32_t>(names_.size());
  names_.emplace_back(text);
  numbers_.emplace(names_.back(), number);
  return number;
}

std::pair<const Ledger::Entry*, const Ledger::Entry*> Ledger::legs(std::size_t happening) const {
  const std::size_t end =
      happening + 1 < happenings_.size() ? happenings_[happening + 1].first_entry : entries_.size();
  return {entries_.data() + happenings_[happening].first_entry, entries_.data() + end};
}

void Ledger::close() {
  if (!happenings_.empty() && happenings_.back().first_entry == entries_.size()) happenings_.pop_back();
}

}  // namespace secondpull::bookkeeping
