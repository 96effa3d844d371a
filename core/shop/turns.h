#pragma once

#include <optional>
#include <span>
#include <vector>

#include "core/shop/shop.h"

namespace secondpull {

enum class TurnKind { sale, comeback, disposal };

/// A sale, a return or a disposal: what makes a machine leave or come back.
struct Turn {
  MachineId machine{};
  Date date{};
  TurnKind kind = TurnKind::sale;
  std::int64_t entered = 0;  ///< within its kind
  AnyId record;
};

/// When each machine was here and when it was gone. A day's sales and returns may come in any order that
/// takes turns; a disposal is the last of all.
class Turns {
 public:
  explicit Turns(const Shop& shop);

  /// By day, within a day by kind, then by the order entered.
  std::span<const Turn> of(MachineId machine) const;
  /// Those of the machine that no order of their day allows: a sale or disposal of a machine that is gone, a
  /// return of one that is not sold, anything after a disposal or before it came in.
  std::vector<Turn> out_of_turn(const Machine& machine, Date came) const;
  bool sold_at_end_of(MachineId machine, Date day) const;
  /// Was it on the place at some time of that day, or parted out already? (`came`: the day it came in.)
  bool here_or_parted_on(MachineId machine, Date came, Date day) const;
  /// The last sale less returns, or the disposal: is it gone for good or sold at the end of all?
  std::optional<Turn> gone_by(MachineId machine) const;

 private:
  std::vector<Turn> turns_;  // by machine, date, kind, entered
};

}  // namespace secondpull
