#pragma once

#include <array>
#include <optional>
#include <vector>

#include <QString>

#include "app/parts/data_table.h"
#include "core/shop/shop.h"

namespace secondpull::app {

class Session;

/// One machine as the Yard shows it.
struct YardRow {
  MachineId machine{};
  Stage stage = Stage::in_the_yard;
  bool here = true;  ///< the machine, or a donor's hulk, stands on the place
  QString tag;
  QString what;
  QString kind;
  QString standing;
  Date since{};  ///< the day it last came in
  int days = 0;  ///< here; for one that is gone: held
  std::optional<Money> money_in;
  std::optional<Minutes> minutes;
  std::optional<Money> asking;  ///< of a listing that has not ended
  QString from;
  QString symptom;
  QString model_number;
  QString engine;
  // From its plan, as far as it has one.
  std::optional<double> worth_per_hour;  ///< whole units of the currency; how dear an hour may be
  QString next_step;
  QString next_why;  ///< a sentence: why, or why there is no plan
};

/// Every machine of the shop, in order entered.
std::vector<YardRow> yardRows(const Session& session);

/// Puts what is known of its plan into a row.
void addPlan(Session& session, YardRow& row);

/// The Yard's columns; the ones seldom asked for are there to be chosen.
std::vector<TableColumn<YardRow>> yardColumns(const Session& session);

/// Where a machine stands, as the words above the table put it.
enum class YardGroup { all_here, in_the_yard, on_the_bench, waiting, for_sale, gone };
inline constexpr std::array kYardGroups{YardGroup::all_here, YardGroup::in_the_yard, YardGroup::on_the_bench,
                                        YardGroup::waiting,  YardGroup::for_sale,    YardGroup::gone};
QString wordOf(YardGroup group);
bool isIn(YardGroup group, const YardRow& row);

/// Today in a few lines of rich text, quiet ones left out: who comes when for which machine, what is on the
/// way, the hours of this week. A machine is a link whose address is its id.
QStringList todayLines(const Session& session);

/// What an hour is worth, and this week's hours against the machines that wait: work these, stop these now.
/// Rich text, a machine is a link as above; empty while no plan is known.
QString weekLine(Session& session);

}  // namespace secondpull::app
