#include "app/frame/what_now.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPainter>
#include <QStyledItemDelegate>

#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr int kMostRowsShown = 10;
constexpr int kListWidth = 100 * kGrid;
constexpr int kDetailRole = Qt::UserRole;

/// One line: picture, title, and at its end what it is or which key does it.
class FoundDelegate : public QStyledItemDelegate {
 public:
  using QStyledItemDelegate::QStyledItemDelegate;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const override {
    return {0, option.fontMetrics.height() + 2 * kGrid - 2};
  }
  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    if (option.state & QStyle::State_Selected) {
      painter->setPen(Qt::NoPen);
      painter->setBrush(look().select);
      painter->drawRoundedRect(option.rect, 4, 4);
    }
    const int side = option.fontMetrics.height();
    QRect rest = option.rect.adjusted(kGrid, 0, -kGrid, 0);
    index.data(Qt::DecorationRole)
        .value<QIcon>()
        .paint(painter, QRect{rest.left(), rest.center().y() - side / 2, side, side});
    rest.setLeft(rest.left() + side + kGrid);
    const QString title = index.data().toString(), detail = index.data(kDetailRole).toString();
    painter->setFont(option.font);
    painter->setPen(look().ink);
    const int title_width = std::min(option.fontMetrics.horizontalAdvance(title), rest.width());
    painter->drawText(rest, Qt::AlignVCenter | Qt::AlignLeft,
                      option.fontMetrics.elidedText(title, Qt::ElideRight, rest.width()));
    rest.setLeft(rest.left() + title_width + 2 * kGrid);
    painter->setPen(look().faded);
    painter->drawText(rest, Qt::AlignVCenter | Qt::AlignRight,
                      option.fontMetrics.elidedText(detail, Qt::ElideRight, rest.width()));
    painter->restore();
  }
};

}  // namespace

WhatNow::WhatNow(Find find, QWidget* over, QWidget* parent)
    : QFrame(parent),
      find_{std::move(find)},
      over_{over},
      field_{new QLineEdit{this}},
      said_{new QLabel{this}},
      list_{new QListWidget{over}} {
  setObjectName("whatNow");
  setRank(this, "foot");
  auto* row = new QHBoxLayout{this};
  row->setContentsMargins(3 * kGrid, kGrid / 2, 3 * kGrid, kGrid / 2);
  row->setSpacing(kGrid);
  auto* label = new QLabel{tr("What now?"), this};
  setRank(label, "what-now");
  label->setBuddy(field_);
  field_->setObjectName("whatNow.field");
  field_->setAccessibleName(tr("What now?"));
  field_->setAccessibleDescription(tr("Finds a tag, a machine, a person or a part, and does what you type"));
  field_->setPlaceholderText(tr("a tag, a name, a part, or what to do  (Ctrl+K)"));
  field_->setFrame(false);
  setRank(field_, "what-now");
  said_->setObjectName("whatNow.said");
  said_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  said_->setMinimumWidth(0);
  said_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
  row->addWidget(label);
  row->addWidget(field_, 4);
  row->addWidget(said_, 5);

  list_->setObjectName("whatNow.list");
  list_->setAccessibleName(tr("What was found"));
  list_->setItemDelegate(new FoundDelegate{list_});
  list_->setFocusPolicy(Qt::NoFocus);
  list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setRank(list_, "drop-up");
  list_->hide();
  connect(list_, &QListWidget::itemClicked, this, [this](QListWidgetItem* item) { run(list_->row(item)); });
  connect(field_, &QLineEdit::textEdited, this, [this] { lookUp(); });
  field_->installEventFilter(this);
  over_->installEventFilter(this);
}

void WhatNow::go() {
  if (QWidget* now = QApplication::focusWidget(); now != field_) before_ = now;
  field_->setFocus(Qt::ShortcutFocusReason);
  field_->selectAll();
  lookUp();
}

void WhatNow::say(const QString& sentence, bool problem) {
  sentence_ = sentence;
  problem_ = problem;
  showSaid();
}

QString WhatNow::said() const {
  return sentence_;
}

void WhatNow::showSaid() {
  const QString shown = problem_ ? tr("Not done: %1").arg(sentence_) : sentence_;
  said_->setText(fontMetrics().elidedText(shown, Qt::ElideRight, said_->width()));
  said_->setToolTip(shown);
  said_->setAccessibleName(shown);
  setRank(said_, problem_ ? "problem" : "faded");
}

void WhatNow::lookUp() {
  found_ = find_(field_->text());
  list_->clear();
  for (const Found& found : found_) {
    auto* item = new QListWidgetItem{icon(found.icon, look().accent), found.title, list_};
    item->setData(kDetailRole, found.detail);
    item->setData(Qt::AccessibleDescriptionRole, found.detail);
  }
  if (found_.empty() && !field_->text().trimmed().isEmpty()) {
    auto* nothing =
        new QListWidgetItem{tr("Nothing here answers to “%1”.").arg(field_->text().trimmed()), list_};
    nothing->setFlags(Qt::NoItemFlags);
  }
  list_->setCurrentRow(found_.empty() ? -1 : 0);
  list_->setVisible(list_->count() > 0 && field_->hasFocus());
  place();
}

void WhatNow::place() {
  if (list_->isHidden() || list_->count() == 0) return;
  const int rows = std::min(list_->count(), kMostRowsShown);
  const int pad = 2 * list_->frameWidth() + kGrid;
  const int height = std::min(rows * list_->sizeHintForRow(0) + pad, over_->height() - kGrid);
  const int width = std::min(kListWidth, over_->width() - 4 * kGrid);
  const QPoint foot = mapTo(over_->window(), QPoint{0, 0});
  const QPoint at = over_->mapFrom(over_->window(), foot);
  list_->setGeometry(2 * kGrid, at.y() - height, width, height);
  list_->raise();
}

void WhatNow::leave() {
  list_->hide();
  field_->clear();
  if (before_)
    before_->setFocus();
  else
    field_->clearFocus();
}

void WhatNow::run(int row) {
  if (row < 0 || row >= static_cast<int>(found_.size())) return;
  const std::function<void()> deed = found_[static_cast<std::size_t>(row)].run;
  leave();
  if (deed) deed();
}

bool WhatNow::eventFilter(QObject* watched, QEvent* event) {
  if (watched == over_) {
    if (event->type() == QEvent::Resize) place();
    return false;
  }
  if (event->type() == QEvent::FocusIn && static_cast<QFocusEvent*>(event)->reason() == Qt::MouseFocusReason)
    QMetaObject::invokeMethod(
        this, [this] { lookUp(); }, Qt::QueuedConnection);
  if (event->type() == QEvent::FocusOut) list_->hide();
  if (event->type() == QEvent::KeyPress) {
    auto* key = static_cast<QKeyEvent*>(event);
    const int last = list_->count() - 1;
    switch (key->key()) {
      case Qt::Key_Down:
        list_->setCurrentRow(list_->currentRow() >= last ? 0 : list_->currentRow() + 1);
        return true;
      case Qt::Key_Up:
        list_->setCurrentRow(list_->currentRow() <= 0 ? last : list_->currentRow() - 1);
        return true;
      case Qt::Key_Return:
      case Qt::Key_Enter:
        run(std::max(list_->currentRow(), 0));
        return true;
      case Qt::Key_Escape:
        leave();
        return true;
      default:
        break;
    }
  }
  return QFrame::eventFilter(watched, event);
}

void WhatNow::resizeEvent(QResizeEvent* event) {
  QFrame::resizeEvent(event);
  showSaid();
  place();
}

void WhatNow::changeEvent(QEvent* event) {
  QFrame::changeEvent(event);
  if (event->type() == QEvent::FontChange && said_ != nullptr) showSaid();
}

}  // namespace secondpull::app
