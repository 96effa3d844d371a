#pragma once

#include <vector>

#include "core/books/books.h"
#include "core/lessons/mean.h"

namespace secondpull::lessons {

/// Hours of one kind of work.
struct TimeOfWork {
  Work work = Work::other;
  Minutes minutes;
  std::size_t machines = 0;  ///< on which any of it was done
};

/// Where the hours of the machines that have gone went.
struct TimeSpent {
  std::size_t machines = 0;         ///< that have gone, kept ones too
  Minutes minutes;                  ///< all on them, as in the books
  Mean each;                        ///< minutes of a machine
  std::vector<TimeOfWork> by_work;  ///< most first; they add up to `minutes`
  Minutes shop_in_general;          ///< logged on no machine, whenever
};

/// A machine's share of the hours of its acquisition is of the kinds of work that those were, in proportion.
TimeSpent time_spent(const Books& books);

}  // namespace secondpull::lessons
