#pragma once

#include <functional>
#include <vector>

#include <QKeySequence>
#include <QWidget>

#include "core/shop/shop.h"

namespace secondpull::app {

class Session;

/// One screen: a word on the wire and what it shows. The frame owns it, shows one at a time and forwards
/// changes to it.
class Page : public QWidget {
  Q_OBJECT
 public:
  explicit Page(Session& session, QWidget* parent = nullptr) : QWidget(parent), session_{session} {}

  virtual QString word() const = 0;      ///< as it stands on the wire: "Yard"
  virtual QString iconName() const = 0;  ///< in resources/icons
  virtual QKeySequence key() const = 0;  ///< "Alt+1"...
  /// Shows what changed; an empty list means everything may have. Called for hidden pages too: note it and do
  /// the work in showEvent.
  virtual void refresh(const std::vector<AnyId>& ids) = 0;
  /// Turns to one machine, where the screen is about one.
  virtual void openMachine(MachineId) {}
  /// Puts the focus where a person starts.
  virtual void start() {}
  /// Things one can do here, for the What-now line: (words to type, what it does).
  struct Deed {
    QString words;  ///< "log a machine"
    QKeySequence key;
    std::function<void()> run;
  };
  virtual std::vector<Deed> deeds() { return {}; }

 signals:
  void wantsMachine(MachineId machine);  ///< open it on the Bench
  void wantsPage(const QString& word,
                 MachineId machine);                      ///< go to another screen, about this machine if any
  void wantsSaid(const QString& sentence, bool problem);  ///< a sentence for the What-now line

 protected:
  Session& session() const { return session_; }

 private:
  Session& session_;
};

}  // namespace secondpull::app
