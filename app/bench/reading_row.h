#pragma once

#include <string>
#include <vector>

#include <QLabel>
#include <QWidget>

#include "core/learning/knowledge_base.h"
#include "core/shop/bench.h"

class QComboBox;
class QLineEdit;

namespace secondpull::app {

/// A reading typed as a number beside the published figure of what is read. Not there for a test in which
/// nothing is read. Object names: "stepReading", "stepReadingOf", "stepLimits".
class ReadingRow : public QWidget {
  Q_OBJECT
 public:
  explicit ReadingRow(QWidget* parent);
  /// What can be read in a test (nullptr: there is none) on a machine of that kind. What is typed stays.
  void showFor(const learning::Test* test, MachineKind kind, const learning::KnowledgeBase& base);
  void clear();
  /// Reading, unit and what was read into the finding, if something was typed.
  void writeTo(NewFinding& finding) const;

 signals:
  void entered();  ///< Enter: on to the outcomes

 private:
  void showLimits();

  std::vector<learning::Measurement> measurements_;
  QLineEdit* reading_;
  QComboBox* of_;
  QLabel* limits_;
};

}  // namespace secondpull::app
