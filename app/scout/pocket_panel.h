#pragma once

#include <QWidget>

#include "app/parts/data_table.h"
#include "app/print/report.h"
#include "core/planning/backlog_plan.h"
#include "core/planning/pocket_card.h"

class QLabel;
class QVBoxLayout;

namespace secondpull::app {

class ReportBar;
class Session;

/// The card for the pocket, on screen and for paper. Object names: "pocketTable", "pocketSays".
class PocketPanel : public QWidget {
  Q_OBJECT
 public:
  PocketPanel(Session& session, QWidget* parent = nullptr);
  void showWorking();
  void showCard(planning::PocketCard card, const planning::HourValue& hour);
  Report report() const;

 signals:
  void said(const QString& sentence, bool problem);

 private:
  QString nameOf(const planning::PocketCard::Row& row) const;
  QString cell(const std::optional<Money>& most) const;

  Session& session_;
  planning::PocketCard card_;
  planning::HourValue hour_;
  QLabel* says_;
  ReportBar* bar_;
  QVBoxLayout* box_;
  DataTable* table_ = nullptr;
  std::unique_ptr<RowModel<planning::PocketCard::Row>> model_;
};

}  // namespace secondpull::app
