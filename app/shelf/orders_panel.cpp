#include "app/shelf/orders_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include "app/parts/form.h"
#include "app/parts/look.h"
#include "app/shelf/order_form.h"

namespace secondpull::app {
namespace {

constexpr int kDetailWidth = 44 * kGrid;

QVariant sortable(Money amount) {
  return QVariant::fromValue<qlonglong>(amount.minor());
}
QVariant sortable(Date date) {
  return QString::fromStdString(iso(date));
}

QString arrivalInWords(const OrderRow& row, Date today) {
  if (row.arrived)
    return QObject::tr("came %1").arg(QString::fromStdString(shown_short(*row.arrived, today)));
  const int days = days_between(row.date, today);
  if (days == 1) return QObject::tr("under way, 1 day");
  return days <= 0 ? QObject::tr("under way") : QObject::tr("under way, %1 days").arg(days);
}

std::vector<TableColumn<OrderRow>> columns(const Session& session) {
  const Session* shop = &session;
  return {
      {.key = "standing",
       .title = QObject::tr("Where it is"),
       .text = [shop](const OrderRow& row) { return arrivalInWords(row, shop->today()); },
       .sort =
           [](const OrderRow& row) {
             // Under way before all that came; those that came, by their day.
             return QVariant{row.arrived ? QStringLiteral("1 ") + QString::fromStdString(iso(*row.arrived))
                                         : QStringLiteral("9 ") + QString::fromStdString(iso(row.date))};
           }},
      {.key = "date",
       .title = QObject::tr("Ordered"),
       .text =
           [shop](const OrderRow& row) {
             return QString::fromStdString(shown_short(row.date, shop->today()));
           },
       .sort = [](const OrderRow& row) { return sortable(row.date); },
       .shown = false},
      {.key = "supplier",
       .title = QObject::tr("Supplier"),
       .text = [](const OrderRow& row) { return row.supplier; }},
      {.key = "parts", .title = QObject::tr("Parts"), .text = [](const OrderRow& row) { return row.parts; }},
      {.key = "landed",
       .title = QObject::tr("Landed cost"),
       .text = [shop](const OrderRow& row) { return shop->money(row.landed); },
       .sort = [](const OrderRow& row) { return sortable(row.landed); },
       .number = true,
       .why =
           [shop](const OrderRow& row) {
             return QObject::tr("parts %1, freight %2, tax %3")
                 .arg(shop->money(row.goods), shop->money(row.freight), shop->money(row.tax));
           }},
  };
}

}  // namespace

OrdersPanel::OrdersPanel(Session& session, QWidget* parent)
    : ShelfPanel(session, parent),
      model_{new RowModel<OrderRow>(columns(session), this)},
      table_{new DataTable(session, QStringLiteral("shelf.orders"), this)},
      full_{new QWidget(this)},
      empty_{new EmptyState(QStringLiteral("shelf"),
                            tr("Here stand the orders: what is under way and what came."),
                            tr("Place an order"), this)},
      order_scroll_{nullptr},
      order_slot_{new QVBoxLayout},
      new_{new QPushButton(tr("Place an order  Ctrl+N"), full_)},
      detail_{new QWidget(full_)},
      title_{heading({}, detail_)},
      standing_{faded({}, detail_)},
      lines_{new QLabel(detail_)},
      receive_{new QPushButton(tr("It is here  F8"), detail_)},
      receive_slot_{new QVBoxLayout},
      came_in_{new QLabel(detail_)} {
  table_->setObjectName(QStringLiteral("orderTable"));
  table_->setAccessibleName(tr("Orders"));
  table_->setRowModel(model_);
  table_->sortBy(QStringLiteral("standing"), Qt::DescendingOrder);
  title_->setObjectName(QStringLiteral("orderTitle"));
  title_->setWordWrap(true);
  lines_->setObjectName(QStringLiteral("orderLines"));
  lines_->setTextFormat(Qt::RichText);
  lines_->setWordWrap(true);
  new_->setObjectName(QStringLiteral("newOrder"));
  receive_->setObjectName(QStringLiteral("receive"));
  setRank(receive_, "first");
  came_in_->setObjectName(QStringLiteral("cameIn"));
  came_in_->setWordWrap(true);
  setRank(came_in_, "subheading");
  came_in_->hide();

  auto* side = new QVBoxLayout(detail_);
  side->setContentsMargins(0, 0, 0, 0);
  side->setSpacing(kGrid);
  side->addWidget(came_in_);
  side->addWidget(title_);
  side->addWidget(standing_);
  side->addWidget(lines_);
  side->addWidget(receive_, 0, Qt::AlignLeft);
  side->addLayout(receive_slot_);
  side->addStretch(1);
  detail_->setFixedWidth(kDetailWidth);

  auto* left = new QVBoxLayout;
  left->setSpacing(kGrid);
  left->addWidget(new_, 0, Qt::AlignLeft);
  left->addWidget(table_, 1);
  auto* row = new QHBoxLayout(full_);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(4 * kGrid);
  row->addLayout(left, 1);
  row->addWidget(detail_);
  auto* outer = new QVBoxLayout(this);
  outer->setContentsMargins(0, 0, 0, 0);
  auto* scroll = new QScrollArea(this);
  auto* page = new QWidget(scroll);
  setRank(page, "page");
  auto* form_column = new QVBoxLayout(page);
  form_column->setContentsMargins(0, 0, 0, 0);
  form_column->addLayout(order_slot_);
  form_column->addStretch(1);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setFocusPolicy(Qt::NoFocus);
  scroll->setWidget(page);
  scroll->hide();
  order_scroll_ = scroll;
  outer->addWidget(order_scroll_, 1);
  outer->addWidget(full_, 1);
  outer->addWidget(empty_, 1);

  connect(new_, &QPushButton::clicked, this, &OrdersPanel::placeOrder);
  connect(receive_, &QPushButton::clicked, this, &OrdersPanel::receive);
  connect(empty_, &EmptyState::stepTaken, this, &OrdersPanel::placeOrder);
  connect(table_, &DataTable::opened, this, &OrdersPanel::receive);
  connect(table_, &DataTable::currentRowChanged, this, [this] {
    came_in_->hide();
    showCurrent();
  });
}

void OrdersPanel::start() {
  if (order_form_)
    order_form_->open();
  else if (model_->rowCount() > 0)
    table_->setFocus();
}

void OrdersPanel::refresh() {
  const std::optional<OrderRow> before = current();
  std::vector<OrderRow> rows = orderRows(*session().shop());
  int at = rows.empty() ? -1 : 0;
  for (std::size_t i = 0; before && i < rows.size(); ++i)
    if (rows[i].order == before->order) at = static_cast<int>(i);
  full_->setVisible(!rows.empty() && !order_form_);
  empty_->setVisible(rows.empty() && !order_form_);
  order_scroll_->setVisible(order_form_ != nullptr);
  const QString said_before = came_in_->isVisibleTo(detail_) ? came_in_->text() : QString{};
  model_->setRows(std::move(rows));
  if (at >= 0) table_->selectSourceRow(at);
  came_in_->setText(said_before);
  came_in_->setVisible(!said_before.isEmpty());
  showCurrent();
}

std::optional<OrderRow> OrdersPanel::current() const {
  const int row = table_->currentSourceRow();
  return row >= 0 ? std::optional{model_->row(row)} : std::nullopt;
}

QString OrdersPanel::linesAsTable(OrderId order) const {
  const auto shop = session().shop();
  const auto cell = [](const QString& text, bool amount, bool bold = false) {
    return QStringLiteral("<td%1 style='padding-right:16px'>%2</td>")
        .arg(amount ? QStringLiteral(" align='right'") : QString{},
             bold ? QStringLiteral("<b>%1</b>").arg(text) : text);
  };
  QString rows;
  Money landed;
  for (const LandedLine& line : landedLines(*shop, order)) {
    const Part* part = shop->find(line.part);
    QString name = part != nullptr ? QString::fromStdString(part->name) : QString{};
    if (line.quantity != 1) name = QStringLiteral("%1 × %2").arg(line.quantity).arg(name);
    if (line.for_machine) name += tr(", for #%1").arg(session().tagOf(*line.for_machine));
    rows +=
        QStringLiteral("<tr>%1%2%3</tr>")
            .arg(cell(name.toHtmlEscaped(), false), cell(session().money(line.price * line.quantity), true),
                 cell(session().money(line.landed), true, true));
    landed += line.landed;
  }
  const QString head = QStringLiteral("<tr>%1%2%3</tr>")
                           .arg(cell({}, false), cell(tr("price"), true), cell(tr("landed"), true));
  rows += QStringLiteral("<tr>%1%2%3</tr>")
              .arg(cell(tr("with freight and tax"), false), cell({}, true),
                   cell(session().money(landed), true, true));
  return QStringLiteral("<table cellpadding='2'>%1%2</table>").arg(head, rows);
}

void OrdersPanel::showCurrent() {
  const std::optional<OrderRow> row = current();
  detail_->setVisible(row.has_value());
  if (!row) return;
  if (receive_form_ && row->order != receiving_) receive_form_->leave();
  const QString supplier = row->supplier.isEmpty() ? tr("no supplier named") : row->supplier;
  title_->setText(supplier);
  standing_->setText(tr("ordered %1, %2")
                         .arg(QString::fromStdString(shown_short(row->date, session().today())),
                              arrivalInWords(*row, session().today())));
  lines_->setText(linesAsTable(row->order));
  receive_->setVisible(row->under_way() && !receive_form_);
}

void OrdersPanel::keepForm(Form* form, QVBoxLayout* slot, QPointer<Form>& kept) {
  if (form == nullptr) return;
  kept = form;
  slot->addWidget(form);
  const auto done = [this, form, &kept] {
    if (kept == form) kept.clear();
    form->hide();
    form->deleteLater();
    refresh();
    table_->setFocus();
  };
  connect(form, &Form::saved, this, done);
  connect(form, &Form::left, this, done);
  form->open();
}

void OrdersPanel::placeOrder() {
  if (order_form_) return order_form_->open();
  Form* form = orderForm(session(), this);
  full_->hide();
  empty_->hide();
  order_scroll_->show();
  keepForm(form, order_slot_, order_form_);
}

void OrdersPanel::receive() {
  const std::optional<OrderRow> row = current();
  if (!row || !row->under_way() || receive_form_) return;
  Form* form = receiveForm(session(), row->order, detail_);
  if (form == nullptr) return;
  const OrderId order = receiving_ = row->order;
  connect(form, &Form::saved, this, [this, order] {
    const std::vector<MachineId> machines = canGoOnWith(*session().shop(), order);
    if (machines.empty()) return;
    QStringList tags;
    for (const MachineId machine : machines)
      tags << QStringLiteral("#%1").arg(session().tagOf(machine));
    const QString sentence = tags.size() == 1
                                 ? tr("%1 can go on.").arg(tags.front())
                                 : tr("These can go on: %1.").arg(tags.join(QStringLiteral(", ")));
    came_in_->setText(sentence);
    came_in_->show();
    emit said(sentence, false);
  });
  receive_->hide();
  keepForm(form, receive_slot_, receive_form_);
}

}  // namespace secondpull::app
