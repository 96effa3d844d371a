#include "app/shelf/parts_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/bench/form_fields.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/form.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/shelf/part_forms.h"
#include "core/shop/bench.h"
#include "core/shop/shelf.h"

namespace secondpull::app {
namespace {

constexpr int kDetailWidth = 36 * kGrid;

QVariant sortable(Money amount) {
  return QVariant::fromValue<qlonglong>(amount.minor());
}

std::vector<TableColumn<StockRow>> columns(const Session& session) {
  const Session* shop = &session;
  return {
      {.key = "name", .title = QObject::tr("Part"), .text = [](const StockRow& row) { return row.name; }},
      {.key = "number",
       .title = QObject::tr("Number"),
       .text = [](const StockRow& row) { return row.number; }},
      {.key = "on_hand",
       .title = QObject::tr("On hand"),
       .text = [](const StockRow& row) { return QString::number(row.on_hand); },
       .sort = [](const StockRow& row) { return QVariant::fromValue<qlonglong>(row.on_hand); },
       .number = true},
      {.key = "on_order",
       .title = QObject::tr("On order"),
       .text =
           [](const StockRow& row) {
             if (row.on_order == 0) return QString{};
             return row.ordered_for.isEmpty() ? QString::number(row.on_order) : row.ordered_for;
           },
       .sort = [](const StockRow& row) { return QVariant::fromValue<qlonglong>(row.on_order); }},
      {.key = "off_donors",
       .title = QObject::tr("Off donors"),
       .text = [](const StockRow& row) { return row.off_donors; }},
      {.key = "worth",
       .title = QObject::tr("Cost of them"),
       .text = [shop](const StockRow& row) { return row.on_hand == 0 ? QString{} : shop->money(row.worth); },
       .sort = [](const StockRow& row) { return sortable(row.worth); },
       .number = true},
      {.key = "next",
       .title = QObject::tr("Next costs"),
       .text = [shop](const StockRow& row) { return row.next ? shop->money(*row.next) : QString{}; },
       .sort = [](const StockRow& row) { return sortable(row.next.value_or(Money{})); },
       .number = true},
      {.key = "reorder_at",
       .title = QObject::tr("Order at"),
       .text =
           [](const StockRow& row) { return row.reorder_at ? QString::number(*row.reorder_at) : QString{}; },
       .sort =
           [](const StockRow& row) { return QVariant::fromValue<qlonglong>(row.reorder_at.value_or(-1)); },
       .number = true,
       .shown = false},
      {.key = "supplier",
       .title = QObject::tr("Supplier"),
       .text = [](const StockRow& row) { return row.supplier; },
       .shown = false},
      {.key = "says",
       .title = QObject::tr("Runs low"),
       .text = [](const StockRow& row) { return row.low ? QObject::tr("runs low") : QString{}; },
       .why = [](const StockRow& row) { return row.says; }},
  };
}

/// The facts of a part as a form; saving is one action.
Form* partForm(Session& session, PartId part, QWidget* parent) {
  const auto shop = session.shop();
  const Part* known = shop->find(part);
  if (known == nullptr) return nullptr;
  auto* form = new Form(session, QStringLiteral("shelf.part.%1").arg(number(part)), {}, parent);
  form->setColumns(1);
  const FormFields fields{*form, QStringLiteral("part.")};
  QLineEdit* name = fields.text("name", QObject::tr("What it is called"), known->name);
  QLineEdit* maker_number = fields.text("number", QObject::tr("Number"), known->number);
  auto* supplier =
      fields.add("supplier", QObject::tr("Supplier"),
                 new RecordPicker(session, RecordPicker::Of::person, QStringLiteral("supplier"), form));
  if (known->supplier) supplier->setPicked(number(*known->supplier));
  auto* reorder = fields.add("reorder_at", QObject::tr("Order more at"),
                             new CountEdit(QStringLiteral("reorder_at"), 0, form));
  reorder->setValue(known->reorder_at);
  form->onSave([=, &session]() -> std::optional<Problem> {
    const auto now = session.shop();
    const Part* before = now->find(part);
    if (before == nullptr)
      return Problem{QObject::tr("This part is no longer in the shop.").toStdString(), {}, {}};
    if (supplier->isNew())
      return Problem{QObject::tr("Nobody called “%1” is known yet: an order from them makes them known.")
                         .arg(supplier->text())
                         .toStdString(),
                     "supplier", supplier->text().toStdString()};
    Part changed = *before;
    changed.name = textOf(name);
    changed.number = textOf(maker_number);
    changed.supplier = supplier->picked<PersonId>();
    changed.reorder_at = reorder->value();
    if (changed == *before) return std::nullopt;
    return session.perform(edit_part(*now, changed));
  });
  return form;
}

}  // namespace

PartsPanel::PartsPanel(Session& session, QWidget* parent)
    : ShelfPanel(session, parent),
      filter_{new QLineEdit(this)},
      model_{new RowModel<StockRow>(columns(session), this)},
      table_{new DataTable(session, QStringLiteral("shelf.parts"), this)},
      full_{new QWidget(this)},
      empty_{new EmptyState(QStringLiteral("shelf"), tr("Here stand the parts: bought, or taken off donors."),
                            tr("Place an order"), this)},
      detail_{new QWidget(full_)},
      name_{heading({}, detail_)},
      says_{faded({}, detail_)},
      pieces_{new QLabel(detail_)},
      facts_{new QPushButton(tr("Facts  F4"), detail_)},
      sell_{new QPushButton(tr("Sell some  F11"), detail_)},
      found_{new QPushButton(tr("Some turned up  F12"), this)},
      form_slot_{new QVBoxLayout},
      found_slot_{new QVBoxLayout},
      write_off_{new CountEdit(QStringLiteral("quantity"), 1, detail_)},
      write_off_button_{new QPushButton(tr("Write off"), detail_)} {
  filter_->setObjectName(QStringLiteral("partFilter"));
  filter_->setAccessibleName(tr("Which parts"));
  filter_->setPlaceholderText(tr("any bit of a name, number, tag; “low” for what runs low"));
  table_->setObjectName(QStringLiteral("partTable"));
  table_->setAccessibleName(tr("Parts"));
  table_->setRowModel(model_);
  table_->sortBy(QStringLiteral("name"), Qt::AscendingOrder);
  name_->setObjectName(QStringLiteral("partName"));
  name_->setWordWrap(true);
  pieces_->setObjectName(QStringLiteral("partPieces"));
  pieces_->setWordWrap(true);
  facts_->setObjectName(QStringLiteral("partFacts"));
  setRank(facts_, "quiet");
  sell_->setObjectName(QStringLiteral("sellPart"));
  setRank(sell_, "quiet");
  found_->setObjectName(QStringLiteral("foundPart"));
  found_->setToolTip(
      tr("Parts that were there and in no record: they come in at no cost, or what they cost"));
  setRank(found_, "quiet");
  write_off_->setObjectName(QStringLiteral("writeOffLine"));
  write_off_->setAccessibleName(tr("How many pieces to write off"));
  write_off_->setPlaceholderText(tr("how many"));
  write_off_->setFixedWidth(grown(12 * kGrid));
  write_off_button_->setObjectName(QStringLiteral("writeOff"));
  write_off_button_->setToolTip(tr("Lost, broken or given away: it leaves at its cost"));

  auto* writing = new QHBoxLayout;
  writing->setSpacing(kGrid);
  writing->addWidget(write_off_);
  writing->addWidget(write_off_button_);
  writing->addStretch(1);
  auto* side = new QVBoxLayout(detail_);
  side->setContentsMargins(0, 0, 0, 0);
  side->setSpacing(kGrid);
  side->addWidget(name_);
  side->addWidget(says_);
  side->addWidget(pieces_);
  auto* deeds = new QHBoxLayout;
  deeds->addWidget(facts_);
  deeds->addWidget(sell_);
  deeds->addStretch(1);
  side->addLayout(deeds);
  side->addLayout(form_slot_);
  side->addSpacing(kGrid);
  side->addWidget(faded(tr("Lost, broken, given away"), detail_));
  side->addLayout(writing);
  side->addStretch(1);
  detail_->setFixedWidth(kDetailWidth);

  auto* left = new QVBoxLayout;
  left->setSpacing(kGrid);
  auto* head = new QHBoxLayout;
  head->addWidget(filter_, 1);
  head->addWidget(found_);
  left->addLayout(head);
  left->addLayout(found_slot_);
  left->addWidget(table_, 1);
  auto* row = new QHBoxLayout(full_);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(4 * kGrid);
  row->addLayout(left, 1);
  row->addWidget(detail_);
  auto* outer = new QVBoxLayout(this);
  outer->setContentsMargins(0, 0, 0, 0);
  outer->addWidget(full_);
  outer->addWidget(empty_);

  connect(filter_, &QLineEdit::textChanged, table_, &DataTable::setFilterText);
  connect(filter_, &QLineEdit::returnPressed, table_, qOverload<>(&QWidget::setFocus));
  connect(table_, &DataTable::currentRowChanged, this, &PartsPanel::showCurrent);
  connect(table_, &DataTable::opened, this, &PartsPanel::editFacts);
  connect(facts_, &QPushButton::clicked, this, &PartsPanel::editFacts);
  connect(sell_, &QPushButton::clicked, this, &PartsPanel::sellSome);
  connect(found_, &QPushButton::clicked, this, &PartsPanel::takeFound);
  connect(write_off_, &QLineEdit::returnPressed, this, &PartsPanel::writeOff);
  connect(write_off_button_, &QPushButton::clicked, this, &PartsPanel::writeOff);
  connect(empty_, &EmptyState::stepTaken, this, &PartsPanel::wantsOrder);
}

void PartsPanel::start() {
  filter_->setFocus();
  filter_->selectAll();
}

void PartsPanel::refresh() {
  const std::optional<StockRow> before = current();
  std::vector<StockRow> rows = stockRows(*session().books());
  full_->setVisible(!rows.empty());
  empty_->setVisible(rows.empty());
  int at = rows.empty() ? -1 : 0;
  for (std::size_t i = 0; before && i < rows.size(); ++i)
    if (rows[i].part == before->part) at = static_cast<int>(i);
  model_->setRows(std::move(rows));
  if (at >= 0) table_->selectSourceRow(at);
  showCurrent();
}

std::optional<StockRow> PartsPanel::current() const {
  const int row = table_->currentSourceRow();
  return row >= 0 ? std::optional{model_->row(row)} : std::nullopt;
}

QString PartsPanel::piecesInWords(PartId part) const {
  QStringList lines;
  const auto books = session().books();
  const auto shop = session().shop();
  for (const StockReceipt& receipt : books->stock()) {
    if (receipt.part != part || receipt.quantity == 0) continue;
    const QString day = QString::fromStdString(shown_short(receipt.received, session().today()));
    QString from;
    if (receipt.donor) {
      from = tr("off #%1, %2").arg(session().tagOf(*receipt.donor), day);
    } else {
      const Order* order = receipt.order ? shop->find(*receipt.order) : nullptr;
      const Person* supplier = order != nullptr && order->supplier ? shop->find(*order->supplier) : nullptr;
      from = supplier != nullptr ? tr("%1, %2").arg(QString::fromStdString(supplier->name), day)
                                 : tr("in on %1").arg(day);
    }
    lines << tr("%1 at %2: %3").arg(receipt.quantity).arg(session().money(receipt.cost), from);
  }
  return lines.join(u'\n');
}

void PartsPanel::showCurrent() {
  const std::optional<StockRow> row = current();
  detail_->setVisible(row.has_value());
  if (!row) return;
  if (form_ && editing_ != PartId{} && row->part != editing_) form_->leave();
  name_->setText(row->name);
  QStringList says;
  for (const QString& word : {row->number, row->supplier, row->says})
    if (!word.isEmpty()) says << word;
  says_->setText(says.join(QStringLiteral(" · ")));
  says_->setVisible(!says.empty());
  pieces_->setText(row->on_hand > 0 ? piecesInWords(row->part) : tr("None on hand."));
  write_off_->clear();
  write_off_->setEnabled(row->on_hand > 0);
  write_off_button_->setEnabled(row->on_hand > 0);
  sell_->setEnabled(row->on_hand > 0);
}

void PartsPanel::editFacts() {
  if (form_) return form_->leave();
  const std::optional<StockRow> row = current();
  if (!row) return;
  editing_ = row->part;
  openForm(partForm(session(), row->part, detail_), form_slot_);
}

void PartsPanel::sellSome() {
  if (form_) form_->leave();
  const std::optional<StockRow> row = current();
  if (!row || row->on_hand == 0) return;
  editing_ = row->part;
  openForm(sellPartForm(session(), row->part, detail_), form_slot_);
}

void PartsPanel::takeFound() {
  if (form_) form_->leave();
  editing_ = PartId{};
  full_->show();  // a shop without a part yet: the form stands where they will
  empty_->hide();
  openForm(foundPartForm(session(), full_), found_slot_);
}

void PartsPanel::openForm(Form* form, QVBoxLayout* into) {
  form_ = form;
  if (!form_) return;
  into->addWidget(form_);
  const auto done = [this, form] {
    form->hide();
    form->deleteLater();
    const bool any = model_->rowCount() > 0;
    full_->setVisible(any);
    empty_->setVisible(!any);
    table_->setFocus();
  };
  connect(form_, &Form::saved, this, done);
  connect(form_, &Form::left, this, done);
  form_->open();
}

void PartsPanel::startWriteOff() {
  write_off_->setFocus();
}

void PartsPanel::writeOff() {
  const std::optional<StockRow> row = current();
  if (!row) return;
  if (const auto wrong = write_off_->problem()) {
    write_off_->markProblem();
    emit said(QString::fromStdString(wrong->sentence), true);
    return;
  }
  const auto shop = session().shop();
  if (const auto failed = session().perform(
          write_off_part(*shop, session().today(), row->part, write_off_->value().value_or(1))))
    emit said(QString::fromStdString(failed->sentence), true);
  else
    table_->setFocus();
}

}  // namespace secondpull::app
