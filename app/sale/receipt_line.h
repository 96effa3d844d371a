#pragma once

#include <optional>

#include <QWidget>

#include "core/shop/ids.h"

class QLabel;

namespace secondpull::app {

class Session;

/// The receipt of a machine that is sold, with all that went to the same buyer that day: on paper and as PDF.
/// Object names: receiptSays, receiptPrint, receiptPdf.
class ReceiptLine : public QWidget {
  Q_OBJECT
 public:
  explicit ReceiptLine(Session& session, QWidget* parent = nullptr);
  /// Shows the receipt of its last sale; hidden for a machine that is not sold.
  void setMachine(std::optional<MachineId> machine);
  void print();
  void pdf();
  void writePdfTo(const QString& path);

 signals:
  void wantsSaid(const QString& sentence, bool problem);

 private:
  Session& session_;
  std::optional<SaleId> sale_;
  QLabel* says_;
};

}  // namespace secondpull::app
