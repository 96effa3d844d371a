#pragma once

#include <QWidget>

#include "app/books/year_rows.h"
#include "app/parts/data_table.h"

class QLabel;

namespace secondpull::app {

/// The answer to "why?" about a line of the year: how it comes about, and what it is made of, down to the
/// events. Enter on a part opens the machine that it is about, or the other figure that it is. Object names:
/// whyTitle, whyFigure, whyHow, whyTable, whySum.
class WhyPanel : public QWidget {
  Q_OBJECT
 public:
  explicit WhyPanel(Session& session, QWidget* parent = nullptr);
  void show(int year, const YearRow& row);
  void showNothing();
  QTableView& table() { return *table_; }
  /// What is shown, for paper; no rows when nothing is.
  ReportSection section() const;

 signals:
  void wantsMachine(MachineId machine);
  void wantsLine(secondpull::YearLine line);

 private:
  Result<YearWhy> explained(int year, const YearRow& row) const;
  void say(const QString& how, const QString& sum);
  Session& session_;
  QLabel *title_, *figure_, *how_, *sum_;
  RowModel<YearDetail>* model_ = nullptr;
  DataTable* table_;
};

/// The machine that a record is or belongs to, if it is one.
std::optional<MachineId> machineOf(const Shop& shop, const AnyId& id);

}  // namespace secondpull::app
