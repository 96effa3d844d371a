#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>

#include "core/result.h"
#include "core/shop/change.h"

namespace secondpull {

// What the actions of a shop day check before they make a change, each with a sentence that says what to do.

/// What is wrong, or nothing.
using Objection = std::optional<Problem>;

/// The first of them that is something.
Objection first_of(std::initializer_list<Objection> objections);

Objection check_amount(Money amount, const Shop& shop, std::string_view field);
Objection check_quantity(std::int64_t quantity);
Objection check_minutes(Minutes minutes, std::string_view field);
/// Of one trip.
Objection check_miles(Tenths miles);
/// Of make.
Objection check_year(int year);
Objection check_day(Date date, std::string_view field);
/// Text that a record cannot do without.
Objection check_said(std::string_view text, std::string_view field);

/// The machine is in the records, and had come in on that day.
Objection check_machine(const Shop& shop, MachineId machine, Date date);
/// It is, and is here: not sold, scrapped, parted out or kept.
Objection check_here(const Shop& shop, MachineId machine, Date date);
/// The sales, returns and disposals of the machine, with those of the change, take turns, and its allowances
/// still go to a buyer.
Objection check_turns(const Shop& shop, const Change& change, MachineId machine);
/// The part is in stock for all its uses, with those of the change.
Objection check_stock(const Shop& shop, const Change& change, PartId part);

/// Ends the listings of a machine that leaves, and forgets where the owner said it stands.
void take_off_the_place(const Shop& shop, Change& change, MachineId machine, Date date);
/// Forgets where the owner said the machine stands.
void forget_stage(const Shop& shop, Change& change, MachineId machine);

}  // namespace secondpull
