#pragma once

#include <optional>

#include <QLabel>
#include <QWidget>

#include "core/learning/repair_parts.h"

class QComboBox;

namespace secondpull::app {

class Session;

/// The part that a repair takes from the shelf: what lies there, and where the repair's own part comes from.
/// That one is chosen beforehand if it lies there; the person's choice stays until another repair. Object
/// name: "stepPart".
class ShelfChoice : public QWidget {
  Q_OBJECT
 public:
  ShelfChoice(Session& session, QWidget* parent);
  /// `own`: the part that the repair names; nullptr: it names none.
  void showFor(const std::string& repair, const learning::RepairPart* own);
  void clear();  ///< another step: what was chosen for the last one goes
  std::optional<PartId> chosen() const;

 private:
  Session& session_;
  std::string repair_;
  QComboBox* parts_;
  QLabel* from_;
};

}  // namespace secondpull::app
