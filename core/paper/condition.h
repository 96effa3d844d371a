#pragma once

#include <deque>
#include <string>
#include <vector>

#include "core/learning/knowledge_base.h"
#include "core/shop/stage.h"

namespace secondpull::paper {

/// The records of a machine as they once stood.
struct LinesThen {
  ByMachine::Lines lines;
  std::deque<Fault> faults;  ///< those that stood otherwise then; `lines` points at them
  explicit LinesThen(const ByMachine::Lines& lines_in) : lines{lines_in} {}
  // A copy would point at the faults of the one it was made of.
  LinesThen(const LinesThen&) = delete;
  LinesThen& operator=(const LinesThen&) = delete;
  LinesThen(LinesThen&&) = default;
  LinesThen& operator=(LinesThen&&) = default;
};
/// As they stood when it was sold: what came after the sale is left out; on its day, what was entered after
/// it.
LinesThen before_sale(const ByMachine::Lines& lines, const Sale& sale);

/// What a buyer should know of a machine, each a few words.
struct Condition {
  /// Faults that are open or were given up, what it came in with where nobody looked into it, what its
  /// condition says and is not done, looks before the sale that it did not pass.
  std::vector<std::string> wrong;
  std::vector<std::string> mended;  ///< "Surges (intake leak): carburettor cleaned"
  std::vector<std::string> fitted;  ///< "spark plug", "2 x blade (used)"
  std::vector<std::string> work;    ///< done besides, in the knowledge base's words
  std::vector<std::string> passed;  ///< looks before the sale
  std::string test_run;             ///< "ran through, 15 min, on 3 May 2026"; empty: none counts
  bool ran_through = false;
  std::string recall;  ///< "looked up on 4 May 2026: none found"; empty: not looked up since it came in
};
/// @param lines  of the machine, as of `day`
Condition condition_of(const Shop& shop, const ByMachine::Lines& lines, const learning::KnowledgeBase& base,
                       Date day);

/// Sold as is, in one sentence that promises nothing and leaves local law its due.
inline constexpr std::string_view kAsIsWords =
    "It is sold as it stands: nobody promises that it runs, lasts or suits a purpose. Where local law gives "
    "a "
    "buyer rights that cannot be signed away, these hold.";

}  // namespace secondpull::paper
