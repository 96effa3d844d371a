#include "app/parts/data_table.h"

#include <algorithm>

#include <QApplication>
#include <QClipboard>
#include <QContextMenuEvent>
#include <QHeaderView>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QKeyEvent>
#include <QMenu>
#include <QScrollBar>
#include <QSortFilterProxyModel>
#include <QTimer>

#include "app/frame/session.h"
#include "app/parts/look.h"
#include "app/parts/natural_order.h"

namespace secondpull::app {
namespace {

constexpr int kCellPad = 11;           // on both sides of a cell's text: 8 of the style sheet, 3 of Qt
constexpr int kRowPad = 12;            // added to the height of the text
constexpr int kRememberAfterMs = 400;  // one write for a whole drag
constexpr int kMeasuredRows = 200;     // rows looked at for the natural widths
constexpr int kLeastTextWidth = 136;   // a text column is not squeezed below it
constexpr int kMostTextWidth = 420;    // nor asks for more by itself

bool isText(const QVariant& value) {
  return value.typeId() == QMetaType::QString;
}

class Sieve : public QSortFilterProxyModel {
 public:
  explicit Sieve(QObject* parent) : QSortFilterProxyModel(parent) {
    setSortRole(RowModelBase::SortRole);
    setDynamicSortFilter(true);
  }
  void setSourceModel(QAbstractItemModel* model) override {
    haystacks_.clear();
    QSortFilterProxyModel::setSourceModel(model);
    if (model != nullptr)
      connect(model, &QAbstractItemModel::modelAboutToBeReset, this, [this] { haystacks_.clear(); });
  }
  void setText(const QString& text) {
    words_ = text.toCaseFolded().split(' ', Qt::SkipEmptyParts);
    invalidateFilter();
  }
  void setRows(std::function<bool(int)> rows) {
    rows_ = std::move(rows);
    invalidateFilter();
  }

 protected:
  bool filterAcceptsRow(int row, const QModelIndex& parent) const override {
    if (rows_ && !rows_(row)) return false;
    if (words_.isEmpty()) return true;
    const QString& text = haystack(row, parent);
    return std::all_of(words_.begin(), words_.end(),
                       [&](const QString& word) { return text.contains(word); });
  }
  bool lessThan(const QModelIndex& left, const QModelIndex& right) const override {
    const QVariant a = left.data(RowModelBase::SortRole), b = right.data(RowModelBase::SortRole);
    // What is not known stands last, whichever way the column is sorted.
    if (!a.isValid() || !b.isValid()) {
      if (a.isValid() == b.isValid()) return false;
      return a.isValid() == (sortOrder() == Qt::AscendingOrder);
    }
    if (isText(a) && isText(b)) return naturallyBefore(a.toString(), b.toString());
    return QVariant::compare(a, b) == QPartialOrdering::Less;
  }

 private:
  const QString& haystack(int row, const QModelIndex& parent) const {
    auto at = haystacks_.find(row);
    if (at == haystacks_.end()) {
      QString text;
      for (int column = 0; column < sourceModel()->columnCount(parent); ++column)
        text += sourceModel()->index(row, column, parent).data().toString().toCaseFolded() + '\n';
      at = haystacks_.insert(row, text);
    }
    return *at;
  }
  QStringList words_;
  std::function<bool(int)> rows_;
  mutable QHash<int, QString> haystacks_;
};

}  // namespace

struct DataTable::Impl : public QObject {
  Impl(Session& session_in, const QString& name, DataTable* table_in)
      : QObject(table_in), session{session_in}, key{"table." + name}, table{table_in}, sieve{this} {
    remember.setSingleShot(true);
    remember.setInterval(kRememberAfterMs);
    connect(&remember, &QTimer::timeout, this, [this] { write(); });
  }
  Session& session;
  QString key;
  DataTable* table;
  Sieve sieve;
  QTimer remember;
  bool settled = false;      ///< the columns are set up: what changes now, the person changed
  bool own_widths = false;   ///< the person set a width
  bool own_sorting = false;  ///< the person chose a sorting

  QString columnKey(int column) const {
    return sieve.headerData(column, Qt::Horizontal, RowModelBase::KeyRole).toString();
  }
  int columnOf(const QString& column_key) const {
    for (int column = 0; column < sieve.columnCount(); ++column)
      if (columnKey(column) == column_key) return column;
    return -1;
  }
  void touched() {
    if (settled) remember.start();
  }
  void read();
  void write();
  void fit();
  void chooseColumns(const QPoint& where);
  QString selectionText() const;
};

void DataTable::Impl::read() {
  const QJsonObject kept = QJsonDocument::fromJson(session.preference(key).toUtf8()).object();
  QHeaderView& header = *table->horizontalHeader();
  const QJsonArray columns = kept["columns"].toArray();
  own_widths = kept["own_widths"].toBool();
  int visual = 0;
  for (const auto& entry : columns) {
    const QJsonObject column = entry.toObject();
    const int logical = columnOf(column["key"].toString());
    if (logical < 0) continue;  // a column of another version
    header.moveSection(header.visualIndex(logical), visual++);
    header.setSectionHidden(logical, column["hidden"].toBool());
    if (own_widths)
      header.resizeSection(logical, std::max(column["width"].toInt(), header.minimumSectionSize()));
  }
  if (const int sorted = columnOf(kept["sort"].toString()); sorted >= 0) {
    own_sorting = true;
    table->sortByColumn(sorted, kept["descending"].toBool() ? Qt::DescendingOrder : Qt::AscendingOrder);
  }
}

void DataTable::Impl::write() {
  const QHeaderView& header = *table->horizontalHeader();
  QJsonArray columns;
  for (int visual = 0; visual < header.count(); ++visual) {
    const int logical = header.logicalIndex(visual);
    columns.append(QJsonObject{{"key", columnKey(logical)},
                               {"hidden", header.isSectionHidden(logical)},
                               {"width", table->columnWidth(logical)}});
  }
  QJsonObject kept{{"columns", columns}, {"own_widths", own_widths}};
  if (own_sorting) {
    kept["sort"] = columnKey(header.sortIndicatorSection());
    kept["descending"] = header.sortIndicatorOrder() == Qt::DescendingOrder;
  }
  session.setPreference(key, QString::fromUtf8(QJsonDocument{kept}.toJson(QJsonDocument::Compact)));
}

/// Gives each column the width of what stands in it; text columns share what is left over or what is short.
void DataTable::Impl::fit() {
  if (own_widths || sieve.columnCount() == 0) return;
  const bool was_settled = std::exchange(settled, false);
  QHeaderView& header = *table->horizontalHeader();
  const QFontMetrics metrics = table->fontMetrics();
  const int pad = 2 * kCellPad + 2;
  struct Width {
    int column, natural, least;
    bool text;
  };
  std::vector<Width> widths;
  int total = 0, text_columns = 0;
  for (int column = 0; column < sieve.columnCount(); ++column) {
    if (header.isSectionHidden(column)) continue;
    const int title = header.sectionSizeHint(column);
    int widest = title;
    for (int row = 0; row < std::min(sieve.rowCount(), kMeasuredRows); ++row)
      widest = std::max(widest, metrics.horizontalAdvance(sieve.index(row, column).data().toString()) + pad);
    const auto alignment =
        sieve.headerData(column, Qt::Horizontal, Qt::TextAlignmentRole).value<Qt::Alignment>();
    const bool text = (alignment & Qt::AlignLeft) != 0;
    if (text) widest = std::min(widest, kMostTextWidth);
    widths.push_back({column, widest, std::min(widest, std::max(title, kLeastTextWidth)), text});
    total += widest;
    if (text) ++text_columns;
  }
  // What is left over goes to the columns that are wider than most; what is short comes off what they have
  // above the least.
  const int spare = table->viewport()->width() - total;
  const int average = widths.empty() ? 0 : total / static_cast<int>(widths.size());
  const auto share = [&](const Width& width) {
    if (!width.text) return 0;
    if (spare < 0) return width.natural - width.least;
    return width.natural >= average || text_columns == 1 ? width.natural : 0;
  };
  int shares = 0;
  for (const Width& width : widths)
    shares += share(width);
  for (const Width& width : widths) {
    int size = width.natural;
    const auto part = shares > 0 ? static_cast<std::int64_t>(std::max(spare, -shares)) * share(width) : 0;
    // Shortened columns round up what they give, or the rounding would leave a pixel to scroll.
    if (part >= 0 && shares > 0) size += static_cast<int>(part / shares);
    if (part < 0) size -= static_cast<int>((-part + shares - 1) / shares);
    header.resizeSection(width.column, size);
  }
  settled = was_settled;
}

void DataTable::Impl::chooseColumns(const QPoint& where) {
  QMenu menu(table);
  QHeaderView& header = *table->horizontalHeader();
  QAction* copy = menu.addAction(tr("Copy"));
  copy->setShortcut(QKeySequence::Copy);
  copy->setEnabled(table->selectionModel() != nullptr && table->selectionModel()->hasSelection());
  connect(copy, &QAction::triggered, this, [this] { QApplication::clipboard()->setText(selectionText()); });
  menu.addSection(tr("Columns"));
  for (int visual = 0; visual < header.count(); ++visual) {
    const int column = header.logicalIndex(visual);
    QAction* action = menu.addAction(sieve.headerData(column, Qt::Horizontal).toString());
    action->setCheckable(true);
    action->setChecked(!header.isSectionHidden(column));
    action->setEnabled(header.isSectionHidden(column) || header.count() - header.hiddenSectionCount() > 1);
    connect(action, &QAction::toggled, this, [this, column](bool shown) {
      table->setColumnHidden(column, !shown);
      fit();
      touched();
    });
  }
  menu.addSeparator();
  connect(menu.addAction(tr("Widths by themselves")), &QAction::triggered, this, [this] {
    own_widths = false;
    fit();
    touched();
  });
  menu.exec(where);
}

QString DataTable::Impl::selectionText() const {
  if (table->selectionModel() == nullptr) return {};
  QModelIndexList rows = table->selectionModel()->selectedRows();
  std::sort(rows.begin(), rows.end(),
            [](const QModelIndex& a, const QModelIndex& b) { return a.row() < b.row(); });
  const QHeaderView& header = *table->horizontalHeader();
  QStringList lines;
  for (const QModelIndex& row : rows) {
    QStringList cells;
    for (int visual = 0; visual < header.count(); ++visual) {
      const int column = header.logicalIndex(visual);
      if (header.isSectionHidden(column)) continue;
      QString cell = sieve.index(row.row(), column).data().toString();
      cells.append(cell.replace('\t', ' ').replace('\n', ' '));
    }
    lines.append(cells.join('\t'));
  }
  return lines.join('\n');
}

DataTable::DataTable(Session& session, const QString& name, QWidget* parent)
    : QTableView(parent), impl_{new Impl{session, name, this}} {
  setObjectName(name);
  setModel(&impl_->sieve);
  setSelectionBehavior(SelectRows);
  setSelectionMode(ExtendedSelection);
  setEditTriggers(NoEditTriggers);
  setShowGrid(false);
  setWordWrap(false);
  setTabKeyNavigation(false);
  setCornerButtonEnabled(false);
  setHorizontalScrollMode(ScrollPerPixel);
  setMouseTracking(true);
  verticalHeader()->hide();
  verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
  verticalHeader()->setDefaultSectionSize(fontMetrics().height() + kRowPad);
  QHeaderView& header = *horizontalHeader();
  header.setSectionsMovable(true);
  header.setHighlightSections(false);
  header.setSortIndicatorShown(true);
  header.setSectionsClickable(true);
  header.setMinimumSectionSize(4 * kGrid);
  header.setContextMenuPolicy(Qt::CustomContextMenu);
  header.setToolTip(
      tr("Click sorts, a drag moves; a right click, or the menu key in the table, chooses columns."));
  header.setSortIndicator(-1, Qt::AscendingOrder);  // the page's own order until somebody sorts
  setSortingEnabled(true);

  connect(&header, &QHeaderView::customContextMenuRequested, this,
          [this](const QPoint& at) { impl_->chooseColumns(horizontalHeader()->mapToGlobal(at)); });
  connect(&header, &QHeaderView::sectionMoved, impl_, [this] { impl_->touched(); });
  connect(&header, &QHeaderView::sectionResized, impl_, [this] {
    if (!impl_->settled) return;
    impl_->own_widths = true;
    impl_->touched();
  });
  connect(&header, &QHeaderView::sortIndicatorChanged, impl_, [this] {
    if (!impl_->settled) return;
    impl_->own_sorting = true;
    impl_->touched();
  });
  connect(selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          [this] { emit currentRowChanged(currentSourceRow()); });
  connect(this, &QTableView::doubleClicked, this, [this] { emit opened(currentSourceRow()); });
}

void DataTable::setRowModel(RowModelBase* model) {
  Impl& in = *impl_;
  in.settled = false;
  in.sieve.setSourceModel(model);
  for (int column = 0; column < model->columnCount(); ++column)
    setColumnHidden(column, !model->headerData(column, Qt::Horizontal, RowModelBase::ShownRole).toBool());
  in.read();
  in.fit();
  connect(model, &QAbstractItemModel::modelReset, impl_, [this] { impl_->fit(); });
  connect(model, &QAbstractItemModel::dataChanged, impl_, [this] { impl_->fit(); });
  in.settled = true;
}

void DataTable::setFilterText(const QString& text) {
  impl_->sieve.setText(text);
}
void DataTable::setRowFilter(std::function<bool(int source_row)> filter) {
  impl_->sieve.setRows(std::move(filter));
}

void DataTable::sortBy(const QString& column_key, Qt::SortOrder order) {
  const int column = impl_->columnOf(column_key);
  if (column < 0 || impl_->own_sorting) return;
  const bool was_settled = std::exchange(impl_->settled, false);
  sortByColumn(column, order);
  impl_->settled = was_settled;
}

int DataTable::currentSourceRow() const {
  const QModelIndex at = impl_->sieve.mapToSource(currentIndex());
  return at.isValid() ? at.row() : -1;
}

void DataTable::selectSourceRow(int row) {
  if (impl_->sieve.sourceModel() == nullptr) return;
  const QModelIndex at = impl_->sieve.mapFromSource(impl_->sieve.sourceModel()->index(row, 0));
  if (!at.isValid()) return;
  // The current cell must be one that is shown, else the keyboard has nowhere to stand.
  const int column = horizontalHeader()->logicalIndexAt(0);
  setCurrentIndex(at.siblingAtColumn(std::max(column, 0)));
  scrollTo(at);
}

int DataTable::shownRows() const {
  return impl_->sieve.rowCount();
}

void DataTable::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
    if (currentSourceRow() >= 0) emit opened(currentSourceRow());
    return;
  }
  if (event->matches(QKeySequence::Copy)) {
    QApplication::clipboard()->setText(impl_->selectionText());
    return;
  }
  QTableView::keyPressEvent(event);
}

void DataTable::contextMenuEvent(QContextMenuEvent* event) {
  impl_->chooseColumns(event->globalPos());
}

void DataTable::resizeEvent(QResizeEvent* event) {
  QTableView::resizeEvent(event);
  impl_->fit();
}

void DataTable::hideEvent(QHideEvent* event) {
  QTableView::hideEvent(event);
  if (!impl_->remember.isActive()) return;
  impl_->remember.stop();
  impl_->write();
}

void DataTable::changeEvent(QEvent* event) {
  QTableView::changeEvent(event);
  if (event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange) {
    verticalHeader()->setDefaultSectionSize(fontMetrics().height() + kRowPad);
    if (impl_ != nullptr) impl_->fit();
  }
}

}  // namespace secondpull::app
