#pragma once

#include <string>
#include <vector>

#include "core/learning/knowledge_base.h"
#include "core/shop/stage.h"

namespace secondpull::planning {

/// How long a machine runs before it may go for sale, where nobody says otherwise. Common practice, no
/// source.
inline constexpr int kTestRunMinutes = 15;

/// Something to be done or looked at between the last repair and the sale.
struct FinishItem {
  enum class What { work, test_run, check };
  What what = What::check;
  std::string step;     ///< as a finding writes it down
  std::string name;     ///< as a person reads it
  bool must = false;    ///< failed, it keeps the machine from being sold as running
  std::string outcome;  ///< of its latest finding since the machine came in; empty: still to do
};
/// The known work that its condition names, the test run, then the knowledge base's looks before the sale for
/// that kind of machine, in its order. A test run made before the last fault ended counts no more.
std::vector<FinishItem> finishing(const ByMachine::Lines& lines, const learning::KnowledgeBase& base);

}  // namespace secondpull::planning
