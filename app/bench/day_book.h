#pragma once

#include <optional>
#include <vector>

#include <QString>

#include "core/books/books.h"

namespace secondpull::app {

/// One line of what happened to a machine, ready to be shown.
struct DayBookLine {
  AnyId record;
  Date date{};
  std::int64_t entered = 0;
  QString what;  ///< "compression test: 90 psi"
  QString more;  ///< second rank: "reading 90 psi", a note
  std::optional<Minutes> minutes;
  std::optional<Money> amount;  ///< what it put on the machine's account: costs negative
  bool removable = false;       ///< a line that can be taken out by itself
  bool editable = false;        ///< a line that can be changed in place
};

/// Everything that happened to one machine, newest first; on one day what was entered later comes first.
/// Empty for an unknown machine.
std::vector<DayBookLine> dayBook(const Books& books, MachineId machine);

}  // namespace secondpull::app
