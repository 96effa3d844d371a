#pragma once

#include <vector>

#include <QAbstractButton>
#include <QKeySequence>
#include <QWidget>

#include "core/shop/ids.h"

namespace secondpull::app {

class WireWord;
class HangingTag;
class ClockTag;

/// The line along the top of the window: the screens' words stand on it, and from it hang the tags of the
/// machines in hand and the running clock. It draws and tells what was clicked; it decides nothing.
class Wire : public QWidget {
  Q_OBJECT
 public:
  struct Word {
    QString word;
    QKeySequence key;
    bool small = false;  ///< stands smaller, at the right end
    QString icon = {};   ///< drawn in the place of the word
  };
  struct Tag {
    MachineId machine{};
    QString number;
    QString says;  ///< the machine's name and where it stands
  };
  struct Running {
    MachineId machine{};
    QString number;
    QString time;  ///< "0:42"
  };

  explicit Wire(QWidget* parent = nullptr);
  void setWords(const std::vector<Word>& words);
  void setCurrent(const QString& word);
  void setTags(const std::vector<Tag>& tags);
  void setCurrentMachine(std::optional<MachineId> machine);
  void setClock(const std::optional<Running>& clock);

  /// Where the wire hangs at that distance from its left end.
  qreal heightAt(qreal x) const;
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 signals:
  void wordChosen(const QString& word);
  void machineChosen(MachineId machine);
  void clockChosen();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  void arrange();
  std::vector<WireWord*> words_;
  std::vector<HangingTag*> tags_;
  ClockTag* clock_;
  std::optional<MachineId> current_machine_;
};

}  // namespace secondpull::app
