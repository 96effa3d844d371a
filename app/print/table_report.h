#pragma once

#include "app/print/report.h"

class QTableView;

namespace secondpull::app {

/// The columns and rows of a table as they are shown, in their order.
ReportSection sectionOf(const QTableView& table, const QString& heading = {});

/// The keys of those columns, in that order.
QStringList keysOf(const QTableView& table);

}  // namespace secondpull::app
