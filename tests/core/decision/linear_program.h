#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

struct glp_prob;

namespace secondpull::test {

/// A linear program, solved by GLPK: the referee for what the planner says.
class LinearProgram {
 public:
  enum class Aim { smallest, largest };
  using Terms = std::vector<std::pair<std::size_t, double>>;  ///< variable and factor

  struct Solved {
    double objective = 0;
    std::vector<double> values;  ///< by variable
    std::vector<double> prices;  ///< by row: change of the objective for one more of its bound
  };

  explicit LinearProgram(Aim aim);

  /// A variable of at least 0, or of any sign; its number.
  std::size_t add_variable(double in_objective, bool any_sign = false);
  std::size_t add_at_most(const Terms& terms, double bound);
  std::size_t add_at_least(const Terms& terms, double bound);
  std::size_t add_equal(const Terms& terms, double bound);

  /// Nothing if it has no solution, or none that is finite.
  std::optional<Solved> solve() const;

 private:
  struct Delete {
    void operator()(glp_prob* program) const;
  };
  std::unique_ptr<glp_prob, Delete> program_;

  std::size_t add_row(const Terms& terms, int kind, double bound);
};

}  // namespace secondpull::test
