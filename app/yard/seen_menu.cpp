#include "app/yard/seen_menu.h"

#include <QKeyEvent>
#include <QMenu>
#include <QMouseEvent>

#include "app/frame/session.h"
#include "core/learning/knowledge_base.h"

namespace secondpull::app {
namespace {

/// A menu in which several are ticked before it closes.
class TickMenu : public QMenu {
 public:
  using QMenu::QMenu;

 protected:
  void mouseReleaseEvent(QMouseEvent* event) override {
    QAction* const at = actionAt(event->position().toPoint());
    if (at != nullptr && at->isCheckable())
      at->trigger();
    else
      QMenu::mouseReleaseEvent(event);
  }
  void keyPressEvent(QKeyEvent* event) override {
    if (event->key() == Qt::Key_Space && activeAction() != nullptr)
      activeAction()->trigger();
    else
      QMenu::keyPressEvent(event);
  }
};

}  // namespace

SeenMenu::SeenMenu(Session& session, const QString& name, QWidget* parent)
    : QToolButton(parent), menu_{new TickMenu(this)} {
  setObjectName(name);
  menu_->setObjectName(name + QStringLiteral("Menu"));
  setPopupMode(QToolButton::InstantPopup);
  setMenu(menu_);
  const auto base = session.knowledge();
  for (const learning::PieceOfWork& work : base->knowledge.known_work) {
    QAction* const action = menu_->addAction(QString::fromStdString(work.name));
    action->setCheckable(true);
    connect(action, &QAction::toggled, this, [this] {
      showSeen();
      emit edited();
    });
    lines_.push_back({action, work.kinds});
  }
  showSeen();
}

void SeenMenu::setKind(MachineKind kind) {
  for (const Line& line : lines_)
    line.action->setVisible(line.action->isChecked() || learning::fits(line.kinds, kind));
}

QStringList SeenMenu::seen() const {
  QStringList names;
  for (const Line& line : lines_)
    if (line.action->isChecked()) names << line.action->text();
  return names;
}

void SeenMenu::setSeen(const QStringList& names) {
  for (const Line& line : lines_) {
    line.action->setChecked(names.contains(line.action->text()));
    if (line.action->isChecked()) line.action->setVisible(true);  // so that it can be taken back
  }
}

void SeenMenu::showSeen() {
  const QStringList names = seen();
  setText(names.isEmpty()     ? tr("nothing")
          : names.size() == 1 ? names.front()
                              : tr("%1 things").arg(names.size()));
  setToolTip(names.join(QStringLiteral(", ")));
}

}  // namespace secondpull::app
