#pragma once

#include <functional>
#include <vector>

#include <QString>

#include "app/parts/data_table.h"
#include "core/books/books.h"
#include "core/books/earned.h"

namespace secondpull::app {

class Session;

/// What one machine that is gone earned, with the words it is sorted and grouped by.
struct EarningRow {
  MachineFigures figures;
  QString tag, name;
  QString became;  ///< "sold to Ruel for $160"
  QString kind, source, make;
  std::optional<Date> left;  ///< absent while a donor's hulk is still here
  std::optional<Money> gross_per_hour;
};

/// Every machine sold, scrapped, parted out or kept, the one that left last first.
std::vector<EarningRow> earningRows(const Session& session);
std::vector<TableColumn<EarningRow>> earningColumns(const Session& session);

QString yearOf(const EarningRow& row);   ///< "2026" in which it left; empty for a hulk still here
QString monthOf(const EarningRow& row);  ///< "2026-05", likewise
QString monthInWords(Date day);          ///< "May 2026"

enum class GroupBy { machine, kind, source, make, month, year };

/// Machines that have a word in common, and what they earned together.
struct GroupRow {
  QString key;    ///< what they share: also the name of the group
  QVariant sort;  ///< months in their order, words by letter
  Earned earned;
  std::vector<int> rows;  ///< of the machines, as earningRows gave them
};

/// One group for each value, `by` not machine. Every row that passes is in exactly one group; without
/// `passes` all do.
std::vector<GroupRow> grouped(const std::vector<EarningRow>& rows, GroupBy by,
                              const std::function<bool(const EarningRow&)>& passes = {});
std::vector<TableColumn<GroupRow>> groupColumns(const Session& session, GroupBy by);

}  // namespace secondpull::app
