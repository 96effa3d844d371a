#pragma once

#include <optional>
#include <span>
#include <vector>

#include "core/learning/beta.h"
#include "core/learning/shrink.h"
#include "core/result.h"

namespace secondpull::market {

using learning::Interval;

/// How long something was waited for. What had not come when one stopped looking is censored: it takes
/// longer.
struct Wait {
  double days = 0;    ///< >= 0
  bool came = false;  ///< else censored
};

/// After so many days, as Kaplan and Meier have it.
struct SurvivalStep {
  double days = 0;
  std::size_t waiting = 0;  ///< just before: neither come nor censored; censored on that very day counts
  std::size_t came = 0;     ///< on that day, > 0
  double still = 1;         ///< the part that has not come after it
  double deviation = 0;     ///< of that, by Greenwood; 0 where nothing is left
  Interval interval;        ///< of that, on the scale of ln(-ln); 0 to 1 where nothing is left
};

/// In days; nothing where it was not reached as long as one looked.
struct WaitQuantile {
  std::optional<double> days;
  std::optional<double> low;  ///< the bounds: where the steps' intervals reach it
  std::optional<double> high;
};

struct Survival {
  std::vector<SurvivalStep> steps;        ///< one for each day on which something came, in their order
  double still(double days) const;        ///< the part that has not come after so many days
  WaitQuantile quantile(double p) const;  ///< after how many days the part p has come; p in (0, 1)
};

/// The Kaplan-Meier estimate with intervals of that level in (0, 1). A problem names `days` or `level`.
/// Source: E. L. Kaplan, P. Meier, Nonparametric estimation from incomplete observations, Journal of the
/// American Statistical Association 53 (1958); M. Greenwood, The natural duration of cancer (1926); the scale
/// as R's survival offers it under "log-log" (all from memory).
Result<Survival> kaplan_meier(std::span<const Wait> waits, double level);

/// How long it takes by what was known beforehand: a tenth has come after `low` days, half after `typical`,
/// nine tenths after `high`. Between them, and beyond, what is left shrinks by the same part each day. Each
/// is held at least half a day after the one before.
class KnownWait {
 public:
  explicit KnownWait(const learning::Range& days);
  double still(double days) const;

 private:
  struct Corner {
    double days = 0;
    double hazard = 0;  ///< -ln of what is left
  };
  std::vector<Corner> corners_;
};

/// Own waits beside as many believed ones. With K believed ones that follow S0 exactly, n own ones, N(t) of
/// them longer than t and c(u) of them censored at u:
///
///     S(t) = (K S0(t) + N(t)) / (K + n)  x  product over u <= t of (K S0(u) + N(u) + c(u)) / (K S0(u) +
///     N(u))
///
/// the mean of the Dirichlet process after censored observations. Without own waits it is S0, without
/// censored ones the weighted mean of S0 and the own, and with ever more own ones Kaplan and Meier's
/// estimate. Source: V. Susarla, J. Van Ryzin, Nonparametric Bayesian estimation of survival curves from
/// incomplete observations, Journal of the American Statistical Association 71 (1976) (from memory).
class MixedWait {
 public:
  /// `believed` > 0; waits as in `kaplan_meier`, which are taken to be right.
  MixedWait(KnownWait known, double believed, std::span<const Wait> own);

  double still(double days) const;
  /// What is known of that part: the Beta distribution with its mean and variance; exactly, without censored
  /// waits.
  learning::Beta chance_still(double days) const;
  double quantile(double p) const;  ///< after how many days the part p has come; p in (0, 1)
  /// Between which bounds that lies with probability `level`.
  Interval quantile_interval(double p, double level) const;

 private:
  struct Moments {
    double first = 1;
    double second = 1;
  };
  Moments moments(double days) const;

  KnownWait known_;
  double believed_;
  std::vector<Wait> own_;  // in order of days
};

}  // namespace secondpull::market
