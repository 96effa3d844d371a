#pragma once

#include <optional>
#include <vector>

#include "app/parts/data_table.h"
#include "core/shop/records.h"

namespace secondpull::app {

class Session;

/// An open offer whose buyer said when they come.
struct Coming {
  OfferId offer{};
  MachineId machine{};
  Date comes{};
  QString who, tag, name;
  Money amount, deposit;
};

/// Who comes when, over all machines that are here: those overdue first.
std::vector<Coming> comingBuyers(const Session& session);

/// The table of them.
class ComingList : public DataTable {
  Q_OBJECT
 public:
  explicit ComingList(Session& session, QWidget* parent = nullptr);
  void reload();
  const std::vector<Coming>& rows() const { return rows_; }

 signals:
  void chosen(secondpull::OfferId offer, secondpull::MachineId machine);

 private:
  Session& session_;
  std::vector<Coming> rows_;
  RowModel<Coming>* model_;
};

}  // namespace secondpull::app
