#pragma once

#include "app/parts/form.h"
#include "core/shop/intake.h"

namespace secondpull::app {

/// Logs a machine, or a lot for one price, in place. The fields that a dead machine at the curb needs come
/// first and start with guesses from the shop's record; the rest stands under "more". Enter saves from any
/// field and leaves the form ready for the next; Enter on a form in which nothing was typed closes it.
///
/// Object names: form "yard.log-machine"; fields "kindRow", "whatEdit", "sourceRow", "priceEdit",
/// "milesEdit", "symptomEdit", "fromPicker", "tagEdit", "dateEdit", "countEdit" (how many: above 1 it is a
/// lot, see lot_rows.h); "moreButton"; under more "modelNumberEdit", "serialEdit", "engineEdit", "yearEdit",
/// "deckEdit", "conditionEdit", "valueThenEdit", "pickupCostEdit", "giverBasisEdit", "minutesEdit",
/// "destinationEdit", "noteEdit", "openingBox"; "save", "leave".
class LogForm : public Form {
  Q_OBJECT
 public:
  explicit LogForm(Session& session, QWidget* parent = nullptr);
  ~LogForm() override;
  void openForOne();
  void openForLot();

 signals:
  void logged(MachineId machine);  ///< the first of what was logged

 private:
  struct Entry;
  Entry* entry_;  // a child object
};

}  // namespace secondpull::app
