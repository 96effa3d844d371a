#pragma once

#include <QPointer>

#include "app/shelf/shelf_panel.h"

class QLabel;
class QVBoxLayout;

namespace secondpull::app {

class Form;

/// Parting out a donor: what is taken off it with a value each (pre-filled as guesses), what is left as the
/// hulk, and beside it, as it is typed, how the donor's basis splits. Object names: "partOut.donor",
/// "partOut.date", "partOut.hulk_value", "partOut.hulk_here", "partOut.scrap", "partOut.hulk_gone",
/// "partingSplit", and those of PartRows.
class PartOutPanel : public ShelfPanel {
  Q_OBJECT
 public:
  PartOutPanel(Session& session, QWidget* parent);
  void refresh() override;
  void start() override;
  void setDonor(MachineId donor);

 private:
  void makeForm();
  void showSplit();

  struct Fields;
  std::shared_ptr<Fields> fields_;
  QVBoxLayout* slot_;
  QPointer<Form> form_;
  QLabel* split_;
};

}  // namespace secondpull::app
