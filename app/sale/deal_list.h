#pragma once

#include <optional>
#include <vector>

#include <QWidget>

#include "core/shop/deal.h"

class QComboBox;
class QHBoxLayout;
class QLabel;
class QPushButton;
class QVBoxLayout;

namespace secondpull::app {

class CountEdit;
class MoneyEdit;
class RecordPicker;
class Session;

/// What else goes with a machine in one deal: a line for each thing, with what it counts for when the price
/// is split and, beside it, what it then gets of the price. Enter in one of the two pickers adds what it
/// names. Object names: dealMachine, dealPart (the pickers), dealAddMachine, dealAddPart; of the lines, from
/// 0 on: dealValue0, dealCount1, dealSoldAs1, dealShare0, dealLeave1.
class DealList : public QWidget {
  Q_OBJECT
 public:
  DealList(Session& session, MachineId first, QWidget* parent = nullptr);

  /// Is there more in the deal than the first machine?
  bool isSeveral() const { return lines_.size() > 1; }
  /// What cannot be read, shown where it stands; nothing if all can.
  std::optional<Problem> problem() const;
  /// Puts what stands here into the deal. The first machine's way of selling and offer are not known here.
  void fill(Deal& deal) const;
  /// Shows what each thing gets; none: nothing.
  void showShares(const std::vector<DealShare>& shares);
  void add(MachineId machine);
  void add(PartId part);

  // As text, for the form's draft.
  QString draft() const;
  void read(const QString& draft);

 signals:
  void edited();  ///< by the person: things or values

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  struct Line {
    std::optional<MachineId> machine;
    std::optional<PartId> part;
    int number = 0;  ///< in its widgets' names
    QWidget* widget = nullptr;
    QHBoxLayout* row = nullptr;    ///< of its controls
    CountEdit* count = nullptr;    ///< of a part
    QComboBox* sold_as = nullptr;  ///< of a machine but the first
    MoneyEdit* value = nullptr;
    QLabel* share = nullptr;
  };
  Line& addLine(const QString& name, const QString& guess);
  void remove(const QWidget* line);
  void takePicked(RecordPicker* from);  ///< adds what stands in it, if that names something
  void showLines();

  Session& session_;
  std::vector<Line> lines_;  // the first machine first, then in the order added
  int next_ = 0;
  QVBoxLayout* box_;
  QLabel* hint_;
  RecordPicker *machine_, *part_;
};

}  // namespace secondpull::app
