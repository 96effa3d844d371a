#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/shop/positions.h"
#include "core/shop/shop.h"

namespace secondpull {

/// The records of a shop sorted by the machine they belong to, so that a question about one machine does not
/// read the whole shop. Pointers stay good as long as the Shop given lives and is not changed. Lines are in
/// order of (date, entered).
class ByMachine {
 public:
  explicit ByMachine(const Shop& shop);
  struct Lines {
    const Machine* machine = nullptr;
    const Acquisition* acquisition = nullptr;
    std::vector<const Fault*> faults;
    std::vector<const Finding*> findings;
    std::vector<const Labour*> labour;              ///< of the machine itself
    std::vector<const Labour*> acquisition_labour;  ///< of its acquisition
    std::vector<const Fitted*> fitted;
    std::vector<const Harvest*> harvested;  ///< as donor
    std::vector<const Material*> materials;
    std::vector<const Listing*> listings;
    std::vector<const Offer*> offers;
    std::vector<const Sale*> sales;
    std::vector<const Return*> returns;
    std::vector<const Allowance*> allowances;
    std::vector<const Disposal*> disposals;
    std::vector<const Trip*> trips;         ///< of the machine itself
    std::vector<const OrderLine*> ordered;  ///< lines ordered for it, by the day of the order
    std::vector<const Photo*> photos;       ///< in the order entered
  };
  const Lines& of(MachineId id) const;  ///< empty Lines for an unknown id

 private:
  Positions<Machine> places_;
  std::vector<Lines> lines_;  // by place
  Lines none_;
};

/// The lines of one machine alone, where nothing is asked about the others. Empty for an unknown id.
ByMachine::Lines lines_of(const Shop& shop, MachineId id);

/// Where the machine stands, by the rules of the exchange folder: by the last sale or disposal if it is gone;
/// else for sale, waiting on parts, test run, on the bench or in the yard.
Stage stage_of(const ByMachine::Lines& lines);

/// Is the machine itself still here (in hand, not sold, scrapped, parted out or kept)?
bool is_here(Stage stage);

/// The day it last came in: its acquisition, or the last return.
Date here_since(const ByMachine::Lines& lines);

/// The first day of work on it since it last came in: the earliest finding, part, material or labour (its
/// acquisition's too) other than pickup. Nothing if there was none.
std::optional<Date> bench_since(const ByMachine::Lines& lines);

/// Where it stands in words: "in the yard since 3 May", "short 1 part, due about Fri 6 Mar", "out front since
/// 3 May at $195", "sold to Ruel for $160". A day on which parts are due is "about" where it is guessed from
/// how long that supplier's orders took.
std::string standing(const Shop& shop, const ByMachine::Lines& lines, Date today);

}  // namespace secondpull
