#include "app/lessons/knowledge_list.h"

#include <algorithm>

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/parts/look.h"

namespace secondpull::app {

KnowledgeList::KnowledgeList(Session& session, QWidget* parent)
    : QWidget(parent),
      search_{new QLineEdit{this}},
      section_{new QComboBox{this}},
      table_{new DataTable{session, QStringLiteral("knowledge"), this}},
      model_{std::make_unique<RowModel<EntryRow>>(entryColumns())} {
  search_->setObjectName(QStringLiteral("knowledgeSearch"));
  search_->setPlaceholderText(tr("Search names and other words"));
  search_->setAccessibleName(tr("Search the knowledge base"));
  search_->setClearButtonEnabled(true);
  connect(search_, &QLineEdit::textChanged, this, &KnowledgeList::filter);
  connect(search_, &QLineEdit::returnPressed, this, [this] {
    if (table_->shownRows() == 0) return;
    table_->setFocus();
    if (!table_->currentIndex().isValid()) table_->selectRow(0);
  });
  makeSections();
  auto* fresh = new QPushButton{tr("New…"), this};
  fresh->setObjectName(QStringLiteral("knowledgeNew"));
  auto* menu = new QMenu{fresh};
  for (const SectionSpec& each : editedSections())
    if (each.can_be_new)
      connect(menu->addAction(tr("New %1").arg(each.one)), &QAction::triggered, this,
              [this, section = QString::fromLatin1(each.id)] { emit wantsNew(section); });
  fresh->setMenu(menu);
  table_->setObjectName(QStringLiteral("knowledgeTable"));
  table_->setAccessibleName(tr("Entries"));
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setRowModel(model_.get());
  connect(table_, &DataTable::currentRowChanged, this, [this](int row) {
    if (filling_ || row < 0) return;
    const EntryRow& at = rows_[static_cast<std::size_t>(row)];
    if (current_ == Key{at.section, at.id}) return;
    current_ = Key{at.section, at.id};
    emit chosen(at.section, at.id);
  });
  connect(table_, &DataTable::opened, this, &KnowledgeList::opened);
  auto* rest =
      faded(tr("Read from the program and not changed here: cautions, published measurements, figures of the "
               "trade as a whole, publications."),
            this);
  rest->setWordWrap(true);
  setRank(rest, "small");

  auto* head = new QHBoxLayout;
  head->addWidget(section_, 1);
  head->addWidget(fresh);
  auto* column = new QVBoxLayout{this};
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid);
  column->addWidget(search_);
  column->addLayout(head);
  column->addWidget(table_, 1);
  column->addWidget(rest);
}

void KnowledgeList::makeSections() {
  section_->setObjectName(QStringLiteral("knowledgeSection"));
  section_->setAccessibleName(tr("Which entries"));
  section_->addItem(tr("Everything"), QString{});
  for (const SectionSpec& each : editedSections())
    section_->addItem(each.many, QString::fromLatin1(each.id));
  section_->addItem(tr("Own entries"), QStringLiteral("own"));
  connect(section_, &QComboBox::currentIndexChanged, this, &KnowledgeList::filter);
}

void KnowledgeList::setRows(std::vector<EntryRow> rows) {
  const bool was_filling = std::exchange(filling_, true);
  rows_ = std::move(rows);
  model_->setRows(rows_);
  filter();
  filling_ = was_filling;
}

void KnowledgeList::setCurrent(const std::optional<Key>& key) {
  current_ = key;
  mark();
}

void KnowledgeList::show(const QString& section) {
  search_->clear();
  section_->setCurrentIndex(std::max(0, section_->findData(section)));
}

void KnowledgeList::start() {
  search_->setFocus();
}

void KnowledgeList::filter() {
  const bool was_filling = std::exchange(filling_, true);
  const QString wanted = section_->currentData().toString();
  table_->setFilterText(search_->text());
  table_->setRowFilter([this, wanted](int at) {
    const EntryRow& row = rows_[static_cast<std::size_t>(at)];
    return wanted.isEmpty() || row.section == wanted || (wanted == "own" && (row.is_own || row.is_typed));
  });
  filling_ = was_filling;
  mark();
}

void KnowledgeList::mark() {
  if (!current_) return;
  const bool was_filling = std::exchange(filling_, true);
  for (std::size_t at = 0; at < rows_.size(); ++at)
    if (Key{rows_[at].section, rows_[at].id} == *current_) table_->selectSourceRow(static_cast<int>(at));
  filling_ = was_filling;
}

}  // namespace secondpull::app
