#pragma once

#include <optional>

#include <QWidget>

#include "core/shop/ids.h"

namespace secondpull::app {

class PaperButton;
class Session;

/// The selected machine beside the table: its tag and name, where it stands, photos, what it does wrong and a
/// note (both typed in place), and what is done with a machine most often. Files may be dropped anywhere on
/// it.
///
/// Object names: "machineStrip", "stripTag", "stripName", "stripStanding", "photoStrip", "addPhoto",
/// "stripSymptom", "stripNote", "openOnBench", "putForSale", "scrap", "paperButton"; while an amount is asked
/// for: "amountBar", "amountEdit".
class MachineStrip : public QWidget {
  Q_OBJECT
 public:
  explicit MachineStrip(Session& session, QWidget* parent = nullptr);
  ~MachineStrip() override;
  void setMachine(std::optional<MachineId> machine);
  std::optional<MachineId> machine() const;
  void reload();      ///< after records changed
  void putForSale();  ///< asks for the price in place
  void scrap();       ///< asks for the scrap money in place
  void addPhotos();   ///< asks for files
  PaperButton& papers() const;

 signals:
  void wantsBench(MachineId machine);
  void wantsSaid(const QString& sentence, bool problem);

 protected:
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;

 private:
  struct Impl;
  Impl* impl_;  // a child object
};

}  // namespace secondpull::app
