#pragma once

#include <QString>

#include "core/books/books.h"

namespace secondpull::app {

class Session;

// Answers to "why?" on the bench, as rich text.

QString whyMoneyIn(const Session& session, MachineId machine);   ///< what it has cost, line by line
QString whyHoursIn(const Session& session, MachineId machine);   ///< its hours by kind of work
QString whyProfitOf(const Session& session, MachineId machine);  ///< every line of its account
/// How the figures of a sale that has not happened come about.
QString whyIfSold(const Session& session, const MachineFigures& figures, Money price);

}  // namespace secondpull::app
