#pragma once

#include <QLabel>
#include <QWidget>

#include "app/frame/session.h"
#include "core/shop/shop.h"

class QHBoxLayout;
class QLineEdit;

namespace secondpull::app {

/// A part of the bench: shows one machine and follows it.
class BenchPanel : public QWidget {
  Q_OBJECT
 public:
  BenchPanel(Session& session, QWidget* parent) : QWidget(parent), session_{session} {}
  /// Turns to a machine; what was typed for another one goes.
  void about(MachineId machine) {
    if (machine_ != machine) {
      machine_ = machine;
      turned();
    }
    refresh();
  }
  MachineId machine() const { return machine_; }
  /// Shows the records as they are now. Called for a machine that is in the shop.
  virtual void refresh() = 0;

 signals:
  void said(const QString& sentence, bool problem);

 protected:
  Session& session() const { return session_; }
  /// Another machine: empty the fields.
  virtual void turned() {}

 private:
  Session& session_;
  MachineId machine_{};
};

/// The quiet lines under a typed line: how it is understood or what is wrong with it, and the caution of what
/// it names. The labels are called `name` + "Hint" and `name` + "Care".
class HintLine : public QWidget {
  Q_OBJECT
 public:
  explicit HintLine(const QString& name, QWidget* parent = nullptr);
  void quiet(const QString& text);
  void problem(const Problem& problem);
  void clearHint() { quiet({}); }
  /// Shows the cautions for these words; none where they are harmless.
  void careFor(const QString& words);

 private:
  void showWhatThereIs();

  QLabel* says_;
  QLabel* care_;
};

constexpr int kWidestCard = 180;  ///< of the card, in grid units: beyond it the eye loses the line
constexpr int kLabelWidth = 13;   ///< of a typed line's label, in grid units

/// "Hours  F6" before a typed line; the label is the field's buddy.
QHBoxLayout* typedRow(const QString& label, const QString& key, QWidget* field, QWidget* parent);

/// Completes what is typed in the field from texts used before, found anywhere in them.
void completeFrom(QLineEdit* field, const QStringList& texts);

}  // namespace secondpull::app
