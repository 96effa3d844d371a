#pragma once

#include <memory>
#include <vector>

#include "core/books/books.h"
#include "core/learning/knowledge_base.h"
#include "core/learning/machine_case.h"
#include "core/market/days_to_sell.h"

/// The planner at work in a shop: from its records to the plans of all machines that wait.
namespace secondpull::planning {

/// Hours a week that there are for the bench.
struct HoursAWeek {
  double hours = 0;      ///< 0: neither said nor to be seen from the record
  bool guessed = false;  ///< from the record, not said by the owner
};

/// So many weeks of the record tell how many hours a week are worked where the owner does not say.
inline constexpr int kWeeksLookedBack = 8;

/// What the plans of a shop's machines are made from: its records on a day, its knowledge base, and what the
/// record teaches, worked out once for all machines. Never changes; threads may share it.
class Situation {
 public:
  /// `books` are those of the shop to be planned; none of the three is null.
  Situation(std::shared_ptr<const Books> books, std::shared_ptr<const learning::KnowledgeBase> base,
            Date today);

  /// The machines that wait for a decision: here and not for sale, in the order entered.
  const std::vector<MachineId>& waiting() const { return waiting_; }
  /// The case of a machine that is here, with what it has cost so far as sunk and the numbers said for it.
  /// Problems: those of learning::case_of_machine.
  Result<learning::MachineCase> case_of(MachineId machine, double hour_value) const;

  /// The same as it was before a finding was made.
  Result<learning::MachineCase> case_before(FindingId finding, double hour_value) const;

  /// What a machine, here or not, will fetch once it runs and how long it will wait for its buyer.
  learning::SaleForecast sale_of(const Machine& machine) const;

  /// As the owner says, else the mean of the hours logged in the last kWeeksLookedBack weeks.
  HoursAWeek hours_a_week() const;
  /// Own hours logged since the week's Monday, today included.
  double hours_this_week() const;

  const Shop& shop() const { return books_->shop(); }
  const Books& books() const { return *books_; }
  const learning::KnowledgeBase& base() const { return *base_; }
  const learning::Learned& learned() const { return learned_; }
  const market::PriceModel& prices() const { return prices_; }
  const std::vector<market::TimeForSale>& times_for_sale() const { return times_; }
  Date today() const { return today_; }

 private:
  learning::Terms terms_of(MachineId machine, double hour_value) const;

  std::shared_ptr<const Books> books_;
  std::shared_ptr<const learning::KnowledgeBase> base_;
  Date today_;
  learning::Learned learned_;
  market::PriceModel prices_;
  std::vector<market::TimeForSale> times_;
  std::vector<MachineId> waiting_;
};

}  // namespace secondpull::planning
