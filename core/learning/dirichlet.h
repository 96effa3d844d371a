#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace secondpull::learning {

/// What is known of how often each of several causes is the one: the Dirichlet distribution, by its counts.
/// Counts are cases seen or believed beforehand, >= 0; the order in which causes were first named is kept.
class Dirichlet {
 public:
  using Counts = std::vector<std::pair<std::string, double>>;

  Dirichlet() = default;
  explicit Dirichlet(const Counts& counts);  ///< a cause named twice has the sum

  /// Counts `cases` more of that cause; a cause not known before comes last.
  void add(std::string_view cause, double cases = 1);
  /// Takes a cause out: the others keep their counts, which is the distribution given that it is not the one.
  void remove(std::string_view cause);

  const Counts& counts() const { return counts_; }
  double count(std::string_view cause) const;  ///< 0 for an unknown cause
  double total() const;
  /// How often the cause is the one, on average: its share of all counts; 0 if there are none.
  double mean(std::string_view cause) const;

 private:
  Counts counts_;
};

}  // namespace secondpull::learning
