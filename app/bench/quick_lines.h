#pragma once

#include <functional>

#include <QString>

#include "core/calendar/minutes.h"
#include "core/money/money.h"
#include "core/result.h"
#include "core/shop/words.h"

namespace secondpull::app {

/// Own hours as one typed line: "1h20 repair", "45m diag no spark at the coil", "clean 30".
struct LabourEntry {
  Minutes minutes;
  Work work = Work::repair;
  QString note;
};

/// Reads a line of hours: a length of time first or last, a kind of work (its first three letters do), the
/// rest as the note. Without a kind of work it is `otherwise`. The problem names the field "minutes".
Result<LabourEntry> readLabour(const QString& line, Work otherwise);

/// What was used up and what it cost, as one typed line: "degreaser 3.50", "4 fuel line, a foot".
struct MaterialEntry {
  QString what;
  Money cost;
};

/// Reads a line of material: what it was and an amount, first or last. Problems name "what" or "cost".
Result<MaterialEntry> readMaterial(const QString& line, const Currency& currency);

/// A part and how many of it: "plug", "plug x2", "2 x plug".
struct PartEntry {
  QString name;
  std::int64_t quantity = 1;
};

/// The most pieces that a part line takes as a quantity: beyond it, "x 87" is part of the name (a belt's
/// length).
constexpr std::int64_t kMostPieces = 20;

/// Reads a part line. `matches` says whether a text fits any known part: a name that has an "x" and a number
/// of its own is then left whole.
PartEntry readPart(const QString& line, const std::function<bool(const QString&)>& matches);

}  // namespace secondpull::app
