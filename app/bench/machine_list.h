#pragma once

#include <QWidget>

#include "app/parts/data_table.h"
#include "core/shop/stage.h"

class QLineEdit;

namespace secondpull::app {

class Session;

/// The machines that are here, to pick one for the bench. Object names: "machineFilter", "machineList".
class MachineList : public QWidget {
  Q_OBJECT
 public:
  MachineList(Session& session, QWidget* parent);
  void refresh();
  void start();
  /// The machines here in order of tag, numbers as numbers: the order of "previous" and "next".
  static std::vector<MachineId> here(const Session& session);

 signals:
  void picked(MachineId machine);
  void wantsLogging();  ///< the shop has no machine yet

 private:
  struct Row {
    MachineId machine{};
    QString tag;
    QString name;
    QString standing;
    int days = 0;
    Money cost;
    Minutes minutes;
  };
  Session& session_;
  QLineEdit* filter_;
  RowModel<Row>* model_;
  DataTable* table_;
  QWidget* empty_;
  QWidget* full_;
};

}  // namespace secondpull::app
