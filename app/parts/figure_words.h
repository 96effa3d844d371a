#pragma once

#include <QString>

#include "core/books/books.h"
#include "core/books/earned.h"

namespace secondpull::app {

class Session;

// Answers to "why?" about a machine's figures, as rich text.

QString whyCost(const Session& session, MachineId machine);         ///< what it has cost so far, line by line
QString whyHours(const Session& session, MachineId machine);        ///< its hours by kind of work
QString whyGrossProfit(const Session& session, MachineId machine);  ///< without trips and overheads
QString whyProfit(const Session& session, MachineId machine);       ///< every line
/// How the figures of a sale at that price, which has not happened, come about.
QString whyIfSold(const Session& session, const MachineFigures& figures, Money price);
/// "$77.76 over 3 h 20 min: $23.33 an hour"; says so where there are no hours yet.
QString perHourInWords(const Session& session, Money amount, Minutes minutes);

/// "sale price", "fee", "parts": the name of a step from price to profit.
QString word(StepKind kind);

}  // namespace secondpull::app
