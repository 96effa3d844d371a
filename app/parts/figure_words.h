#pragma once

#include <vector>

#include <QString>

#include "core/books/books.h"
#include "core/books/earned.h"

namespace secondpull::app {

class Session;

// Answers to "why?" about a machine's figures, as rich text.

/// The lines and their sum as a small table: day, what, amount.
QString linesInWords(const Session& session, const std::vector<FigureLine>& lines, const QString& sum_name);

QString whyCost(const Session& session, MachineId machine);         ///< what it has cost so far, line by line
QString whyGrossProfit(const Session& session, MachineId machine);  ///< without trips and overheads
QString whyProfit(const Session& session, MachineId machine);       ///< every line
/// "$77.76 over 3 h 20 min: $23.33 an hour"; says so where there are no hours yet.
QString perHourInWords(const Session& session, Money amount, Minutes minutes);

/// "sale price", "fee", "parts": the name of a step from price to profit.
QString word(StepKind kind);

}  // namespace secondpull::app
