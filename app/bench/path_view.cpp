#include "app/bench/path_view.h"

#include <algorithm>

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QPainterPath>
#include <QPushButton>
#include <QStyledItemDelegate>
#include <QVBoxLayout>

#include "app/parts/flow.h"
#include "app/parts/look.h"
#include "core/shop/bench.h"

namespace secondpull::app {
namespace {

constexpr int kStringLeft = kGrid;    ///< where the string runs
constexpr int kTextLeft = 4 * kGrid;  ///< where the words begin
constexpr int kLeastDayWidth = 8 * kGrid;

/// One line of the path: a small tag on the string, the day, what happened, what it took.
class PathDelegate : public QStyledItemDelegate {
 public:
  PathDelegate(const DayBookModel& model, QObject* parent) : QStyledItemDelegate(parent), model_{model} {}

  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    const DayBookLine& line = model_.line(index.row());
    const int lines = line.more.isEmpty() ? 1 : 2;
    return {option.rect.width(), lines * (QFontMetrics{option.font}.height() + 2) + kGrid};
  }

  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    const Look& now = look();
    const DayBookLine& line = model_.line(index.row());
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    const QRect box = option.rect;
    const bool chosen = option.state & QStyle::State_Selected;
    if (chosen) painter->fillRect(box.adjusted(kTextLeft - kGrid, 0, 0, 0), now.select);
    paintString(*painter, box, index.row());

    const QFontMetrics metrics{option.font};
    const int first = box.top() + kGrid / 2 + metrics.ascent();
    painter->setFont(option.font);
    painter->setPen(now.faded);
    painter->drawText(box.left() + kTextLeft, first, model_.dayOf(index.row()));

    const QString amount = model_.amountOf(index.row());
    const int amount_width = metrics.horizontalAdvance(amount);
    painter->setPen(now.ink);
    painter->drawText(box.right() - kGrid - amount_width, first, amount);
    const int day_width = metrics.horizontalAdvance(model_.longestDay()) + 2 * kGrid;
    const int left = box.left() + kTextLeft + std::max(kLeastDayWidth, day_width);
    const int room = box.right() - kGrid - left - (amount.isEmpty() ? 0 : amount_width + kGrid);
    painter->drawText(left, first, metrics.elidedText(line.what, Qt::ElideRight, room));
    if (!line.more.isEmpty()) {
      painter->setPen(now.faded);
      painter->drawText(left, first + metrics.height() + 2,
                        metrics.elidedText(line.more, Qt::ElideRight, box.right() - kGrid - left));
    }
    painter->restore();
  }

 private:
  void paintString(QPainter& painter, const QRect& box, int row) const {
    const Look& now = look();
    const qreal x = box.left() + kStringLeft + 0.5;
    const qreal knot = box.top() + kGrid / 2 + QFontMetrics{painter.font()}.height() / 2.0;
    painter.setPen(QPen{now.edge, 1});
    painter.drawLine(QPointF{x, row == 0 ? knot : box.top()},
                     QPointF{x, row + 1 == model_.rowCount() ? knot : box.bottom() + 1});
    // The tag: its cut corners towards the string, its hole on it.
    QPainterPath tag;
    const qreal half = 5;
    tag.moveTo(x - 3, knot);
    tag.lineTo(x + 2, knot - half);
    tag.lineTo(x + 2 * kGrid - 4, knot - half);
    tag.lineTo(x + 2 * kGrid - 4, knot + half);
    tag.lineTo(x + 2, knot + half);
    tag.closeSubpath();
    painter.setBrush(model_.line(row).editable ? now.card : now.paper);
    painter.drawPath(tag);
    painter.setBrush(now.edge);
    painter.setPen(Qt::NoPen);
    painter.drawEllipse(QPointF{x + 2, knot}, 1.5, 1.5);
  }

  const DayBookModel& model_;
};

}  // namespace

DayBookModel::DayBookModel(Session& session, QObject* parent)
    : QAbstractListModel(parent), session_{session} {}

void DayBookModel::setLines(std::vector<DayBookLine> lines) {
  beginResetModel();
  lines_ = std::move(lines);
  endResetModel();
}

int DayBookModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(lines_.size());
}

QString DayBookModel::dayOf(int row) const {
  if (row > 0 && line(row - 1).date == line(row).date) return {};
  return QString::fromStdString(shown_short(line(row).date, session_.today()));
}

QString DayBookModel::longestDay() const {
  QString longest;
  for (int row = 0; row < rowCount(); ++row)
    if (const QString day = dayOf(row); day.size() > longest.size()) longest = day;
  return longest;
}

QString DayBookModel::amountOf(int row) const {
  QStringList parts;
  if (line(row).minutes) parts << QString::fromStdString(shown(*line(row).minutes));
  if (line(row).amount) parts << session_.money(*line(row).amount);
  return parts.join(QStringLiteral(" · "));
}

QVariant DayBookModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const DayBookLine& at = line(index.row());
  const auto whole = [&] {
    QStringList parts{QString::fromStdString(shown_short(at.date, session_.today())), at.what};
    for (const QString& part : {at.more, amountOf(index.row())})
      if (!part.isEmpty()) parts << part;
    return parts.join(QStringLiteral(", "));
  };
  switch (role) {
    case Qt::DisplayRole:
      return at.what;
    case Qt::ToolTipRole:
    case Qt::AccessibleTextRole:
      return whole();
    default:
      return {};
  }
}

PathView::PathView(Session& session, QWidget* parent)
    : BenchPanel(session, parent),
      model_{new DayBookModel(session, this)},
      list_{new QListView(this)},
      change_{new QPushButton(tr("Change  F2"), this)},
      remove_{new QPushButton(tr("Take out  Del"), this)} {
  list_->setObjectName(QStringLiteral("pathList"));
  list_->setAccessibleName(tr("The path so far"));
  list_->setModel(model_);
  list_->setItemDelegate(new PathDelegate(*model_, list_));
  list_->setUniformItemSizes(false);
  list_->setResizeMode(QListView::Adjust);
  list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  list_->setFrameShape(QFrame::NoFrame);
  list_->installEventFilter(this);
  change_->setObjectName(QStringLiteral("pathChange"));
  remove_->setObjectName(QStringLiteral("pathRemove"));
  setRank(change_, "quiet");
  setRank(remove_, "quiet");

  auto* title = new QLabel(tr("The path so far"), this);
  setRank(title, "subheading");
  auto* head_box = new QWidget(this);
  auto* head = new Flow(head_box, kGrid);
  head->setContentsMargins(0, 0, 0, 0);
  title->setMinimumHeight(change_->sizeHint().height());  // so that the words of the row stand in line
  head->addWidget(title);
  head->addWidget(change_);
  head->addWidget(remove_);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid / 2);
  column->addWidget(head_box);
  column->addWidget(list_, 1);

  connect(change_, &QPushButton::clicked, this, &PathView::changeCurrent);
  connect(remove_, &QPushButton::clicked, this, &PathView::removeCurrent);
  connect(list_, &QListView::doubleClicked, this, &PathView::changeCurrent);
  connect(list_->selectionModel(), &QItemSelectionModel::currentChanged, this, &PathView::showDeeds);
  connect(model_, &QAbstractItemModel::modelReset, this, &PathView::showDeeds);
}

void PathView::refresh() {
  const int row = list_->currentIndex().row();
  model_->setLines(dayBook(*session().books(), machine()));
  if (row >= 0) list_->setCurrentIndex(model_->index(std::min(row, model_->rowCount() - 1)));
  showDeeds();
}

void PathView::start() {
  list_->setFocus();
  if (!list_->currentIndex().isValid() && model_->rowCount() > 0) list_->setCurrentIndex(model_->index(0));
}

void PathView::showDeeds() {
  const int row = list_->currentIndex().row();
  const bool any = row >= 0 && row < model_->rowCount();
  change_->setEnabled(any && model_->line(row).editable);
  remove_->setEnabled(any && model_->line(row).removable);
}

void PathView::changeCurrent() {
  const int row = list_->currentIndex().row();
  if (row >= 0 && model_->line(row).editable) emit wantsChange(model_->line(row).record);
}

void PathView::removeCurrent() {
  const int row = list_->currentIndex().row();
  if (row < 0 || !model_->line(row).removable) return;
  const auto shop = session().shop();
  if (const auto failed = session().perform(remove_line(*shop, model_->line(row).record)))
    emit said(QString::fromStdString(failed->sentence), true);
}

bool PathView::eventFilter(QObject* watched, QEvent* event) {
  if (watched == list_ && event->type() == QEvent::KeyPress) {
    switch (static_cast<QKeyEvent*>(event)->key()) {
      case Qt::Key_Delete:
        removeCurrent();
        return true;
      case Qt::Key_F2:
      case Qt::Key_Return:
      case Qt::Key_Enter:
        changeCurrent();
        return true;
      default:
        break;
    }
  }
  return BenchPanel::eventFilter(watched, event);
}

}  // namespace secondpull::app
