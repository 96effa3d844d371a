#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/learning/knowledge.h"
#include "core/shop/stage.h"

namespace secondpull::learning {

/// A sale of this shop, and what was known of the machine.
struct OwnSale {
  MachineKind kind = MachineKind::push;
  SoldAs as = SoldAs::running;
  std::string symptom;  ///< id; of a machine sold as is, if the knowledge base knows it; else empty
  double price = 0;     ///< in whole units of the currency
  double deducted = 0;  ///< fee and delivery
  Date date{};
  std::optional<Date> listed;  ///< the first listing of this sort since it last came in, if there was one
  bool over = false;           ///< the time in which it would have come back is over
  bool came_back = false;  ///< within that time: brought back, money given back, or work on it as a comeback
  SaleId sale{};
  MachineId machine{};
};

/// Within so many days of its sale a machine comes back if it does, unless its own warranty is longer.
/// Common practice, no source.
inline constexpr int kComebackDays = 30;

/// Every sale, in order of id. How it was sold says the sale, or else the machine's last listing before it; a
/// sale of which neither says it is left out. The symptom of one sold as is: of its latest fault that had not
/// been mended by then, else the one it came with.
std::vector<OwnSale> own_sales(const ByMachine& by_machine, const Shop& shop, const Knowledge& knowledge,
                               Date today);

/// What a running machine of that kind fetches: own running sales of the kind, drawn towards the knowledge's.
PriceBelief running_price(const std::vector<OwnSale>& own, const KindFigures& known,
                          const Currency& currency);

/// What one sold as is with that symptom fetches: own as-is sales of the kind with other symptoms drawn
/// towards the knowledge's, and those with this symptom drawn towards that. No sale counts twice.
PriceBelief as_is_price(const std::vector<OwnSale>& own, const KindFigures& known, const std::string& symptom,
                        const Currency& currency);

/// The part of the price that went to fees and delivery, over all sales of that sort: sum by sum, so that
/// dear machines count more. 0 without a sale.
double deducted_share(const std::vector<OwnSale>& own, SoldAs as);

/// The chance that a machine sold running comes back: the knowledge base's counts and own sales whose time is
/// over. Sales whose time is not over are left out, come back or not: those that did would else be counted
/// before those that do not.
Beta comeback_chance(const std::vector<OwnSale>& own, const Beta& known);

/// What is expected of this very machine and no record of sales tells.
struct Expected {
  std::optional<PriceBelief> price;  ///< a better forecast than that of its kind
  double days = 0;                   ///< until it is sold
  double comeback_cost = 0;          ///< money that a comeback costs, its hours apart
  std::vector<diagnosis::KnownWork> known_work;
};

/// The sale of a machine of that kind once it runs. Its hours are those of selling and, weighed with its
/// chance, of the comeback.
diagnosis::Revived revived(const std::vector<OwnSale>& own, const KindFigures& known,
                           const Knowledge& knowledge, const Expected& expected, const Currency& currency);

}  // namespace secondpull::learning
