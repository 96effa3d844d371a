#include "app/books/year_table.h"

#include <QHeaderView>
#include <QTableView>

#include "app/parts/look.h"

namespace secondpull::app {
namespace {

enum Column { kNumber, kWhat, kAmount, kColumns };
constexpr int kCellPad = 11;  // on both sides of a cell's text, as the style sheet has it
constexpr int kRowPad = 10;   // added to the height of the text

}  // namespace

void YearTable::setSections(const std::vector<YearSection>& sections) {
  beginResetModel();
  rows_.clear();
  for (const YearSection& section : sections) {
    rows_.push_back({section.title, {}, true});
    for (const YearRow& row : section.rows)
      rows_.push_back({{}, row, false});
  }
  endResetModel();
}

const YearRow* YearTable::rowAt(int row) const {
  if (row < 0 || row >= rowCount()) return nullptr;
  const At& at = rows_[static_cast<std::size_t>(row)];
  return at.is_title ? nullptr : &at.row;
}

int YearTable::rowOf(YearLine line) const {
  for (int row = 0; row < rowCount(); ++row)
    if (const YearRow* at = rowAt(row); at != nullptr && at->line == line) return row;
  return -1;
}

void YearTable::layOut(QTableView& view) const {
  view.clearSpans();
  for (int row = 0; row < rowCount(); ++row) {
    const At& at = rows_[static_cast<std::size_t>(row)];
    if (at.is_title || at.row.kind == YearRow::Kind::words) view.setSpan(row, 0, 1, kColumns);
  }
  QHeaderView& header = *view.horizontalHeader();
  QFont bold = view.font();
  bold.setBold(true);
  const QFontMetrics metrics{bold};
  // A sentence that spans a row would make its first column as wide as itself: widths are worked out here.
  int amount = metrics.horizontalAdvance(tr("Amount"));
  for (const At& at : rows_)
    amount = std::max(amount, metrics.horizontalAdvance(at.row.amount.text));
  header.setSectionResizeMode(QHeaderView::Fixed);
  header.setSectionResizeMode(kWhat, QHeaderView::Stretch);
  header.resizeSection(kNumber, metrics.horizontalAdvance(QStringLiteral("Line 00b")) + kCellPad);
  header.resizeSection(kAmount, amount + 2 * kCellPad);
  const int line = metrics.height() + kRowPad;
  const int width = view.viewport()->width() - 2 * kCellPad;
  for (int row = 0; row < rowCount(); ++row) {
    const At& at = rows_[static_cast<std::size_t>(row)];
    int height = line;
    if (at.is_title && row > 0) height += kGrid;
    if (!at.is_title && at.row.kind == YearRow::Kind::words)
      height =
          view.fontMetrics().boundingRect(0, 0, width, 10 * line, Qt::TextWordWrap, at.row.what).height() +
          kRowPad;
    view.setRowHeight(row, height);
  }
}

int YearTable::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

QVariant YearTable::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const At& at = rows_[static_cast<std::size_t>(index.row())];
  const bool words = !at.is_title && at.row.kind == YearRow::Kind::words;
  switch (role) {
    case Qt::DisplayRole:
      if (at.is_title) return index.column() == kNumber ? QVariant{at.title} : QVariant{};
      if (words) return index.column() == kNumber ? QVariant{at.row.what} : QVariant{};
      return index.column() == kNumber ? at.row.number
             : index.column() == kWhat ? at.row.what
                                       : at.row.amount.text;
    case Qt::FontRole: {
      QFont font;
      if (at.is_title || at.row.kind == YearRow::Kind::sum) font.setBold(true);
      return font;
    }
    case Qt::ForegroundRole:
      return words ? QVariant{QBrush{look().faded}} : QVariant{};
    case Qt::TextAlignmentRole:
      if (at.is_title) return QVariant::fromValue(Qt::Alignment{Qt::AlignLeft | Qt::AlignBottom});
      return QVariant::fromValue(
          Qt::Alignment{(index.column() == kAmount ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter});
    case Qt::AccessibleTextRole:
      if (at.is_title) return at.title;
      return QStringList{at.row.number, at.row.what, at.row.amount.text}.join(u' ').trimmed();
    default:
      return {};
  }
}

QVariant YearTable::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  if (role == Qt::DisplayRole)
    return section == kNumber ? tr("Line") : section == kWhat ? tr("What") : tr("Amount");
  if (role == Qt::TextAlignmentRole)
    return QVariant::fromValue(
        Qt::Alignment{(section == kAmount ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter});
  return {};
}

Qt::ItemFlags YearTable::flags(const QModelIndex& index) const {
  const YearRow* row = rowAt(index.row());
  const bool choosable = row != nullptr && row->kind != YearRow::Kind::words;
  return choosable ? Qt::ItemIsEnabled | Qt::ItemIsSelectable : Qt::ItemIsEnabled;
}

}  // namespace secondpull::app
