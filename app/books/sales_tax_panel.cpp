#include "app/books/sales_tax_panel.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QVBoxLayout>

#include "app/books/earning_detail.h"
#include "app/books/head_line.h"
#include "app/books/plain_figures.h"
#include "app/books/tax_paid_list.h"
#include "app/parts/choices.h"
#include "app/parts/form.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/print/table_report.h"
#include "core/books/year_sums.h"

namespace secondpull::app {
namespace {

std::vector<TableColumn<TaxOfPlace>> columns(const Session& session) {
  using Row = TaxOfPlace;
  const Session* of = &session;
  const auto amount = [of](const char* key, const QString& title, Money Row::*member) {
    return TableColumn<Row>{
        .key = QString::fromLatin1(key),
        .title = title,
        .text = [of, member](const Row& row) { return of->money(row.*member); },
        .sort = [member](const Row& row) { return QVariant::fromValue<qlonglong>((row.*member).minor()); },
        .number = true,
        .plain = [of, member](const Row& row) { return plainMoney(*of, row.*member); }};
  };
  return {{.key = "place",
           .title = SalesTaxPanel::tr("Place"),
           .text =
               [](const Row& row) {
                 return row.place.empty() ? SalesTaxPanel::tr("no place said")
                                          : QString::fromStdString(row.place);
               }},
          amount("before", SalesTaxPanel::tr("Owed before"), &Row::owed_before),
          amount("collected", SalesTaxPanel::tr("Collected"), &Row::collected),
          amount("handed_on", SalesTaxPanel::tr("Handed on"), &Row::handed_on),
          amount("owed", SalesTaxPanel::tr("Owed at the end"), &Row::owed)};
}

}  // namespace

SalesTaxPanel::SalesTaxPanel(Session& session, QWidget* parent) : BooksPanel(session, parent) {
  auto* box = new QVBoxLayout{this};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  before_ = figureNamed(tr("Owed before"), "salesTaxBefore");
  collected_ = figureNamed(tr("Collected"), "salesTaxCollected");
  handed_on_ = figureNamed(tr("Handed on"), "salesTaxHandedOn");
  owed_ = figureNamed(tr("Owed at the end"), "salesTaxOwed");
  which_ = new WordRow{tr("By place, or handed on"), {tr("by place"), tr("handed on")}};
  which_->setObjectName(QStringLiteral("salesTaxWhich"));
  box->addWidget(new HeadLine{{before_, collected_, handed_on_, owed_, which_}, heading(tr("Sales tax"))});
  none_ =
      faded(tr("No sales tax was collected or handed on up to the end of this year. It stands here by place, "
               "from the tax that is entered with a sale."));
  none_->setObjectName(QStringLiteral("salesTaxNone"));
  none_->setWordWrap(true);
  box->addWidget(none_);
  model_ = new RowModel<TaxOfPlace>{columns(session), this};
  table_ = new DataTable{session, QStringLiteral("books_sales_tax")};
  table_->setObjectName(QStringLiteral("salesTaxTable"));
  table_->setAccessibleName(tr("Sales tax by place"));
  table_->setRowModel(model_);
  box->addWidget(table_, 2);
  box->addSpacing(kGrid);
  paid_ = new TaxPaidList{session, this};
  box->addWidget(paid_, 3);
  box->addStretch(0);  // below the table by place where it stands alone
  connect(paid_, &EntryList::said, this, &BooksPanel::said);
  connect(which_, &WordRow::chosen, this, &SalesTaxPanel::fit);
  fit();
}

void SalesTaxPanel::fit() {
  const bool places = !model_->rows().empty(), one = isTextLarge() && places;
  which_->setVisible(one);
  none_->setVisible(!places);
  table_->setVisible(places && (!one || which_->current() == 0));
  paid_->setVisible(!one || which_->current() == 1);
}

void SalesTaxPanel::changeEvent(QEvent* event) {
  BooksPanel::changeEvent(event);
  if (event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange) fit();
}

void SalesTaxPanel::refresh() {
  const std::vector<TaxOfPlace> places = session().books()->sales_tax(year());
  const TaxOfPlace sum = together(places);
  before_->setFigure(session().money(sum.owed_before), tr("What was owed when the year began."));
  collected_->setFigure(session().money(sum.collected),
                        tr("With sales of the year, less what went back with refunds."));
  handed_on_->setFigure(session().money(sum.handed_on),
                        tr("Paid in the year. It is no expense: it was never yours."));
  owed_->setFigure(session().money(sum.owed),
                   tr("%1 owed before, and %2 collected, less %3 handed on.")
                       .arg(session().money(sum.owed_before), session().money(sum.collected),
                            session().money(sum.handed_on)));
  model_->setRows(places);
  fit();
  // As high as its rows, so that what was handed on follows close below.
  table_->setMaximumHeight(table_->horizontalHeader()->sizeHint().height() +
                           table_->verticalHeader()->defaultSectionSize() *
                               (static_cast<int>(places.size()) + 1));
  paid_->refresh(year());
}

void SalesTaxPanel::start() {
  if (paid_->isHidden())
    table_->setFocus();
  else
    paid_->start();
}

Report SalesTaxPanel::report() const {
  Report made{.title = tr("Sales tax %1").arg(year()),
              .file_name = QStringLiteral("sales-tax-%1").arg(year())};
  ReportSection places = sectionOf(*table_, tr("By place"));
  const TaxOfPlace sum = together(model_->rows());
  ReportRow row{.cells = {tr("together")}, .sum = true};
  for (const QString& key : keysOf(*table_).mid(1))
    row.cells.push_back(key == QLatin1String("before")      ? moneyCell(session(), sum.owed_before)
                        : key == QLatin1String("collected") ? moneyCell(session(), sum.collected)
                        : key == QLatin1String("handed_on") ? moneyCell(session(), sum.handed_on)
                                                            : moneyCell(session(), sum.owed));
  places.rows.push_back(std::move(row));
  made.sections.push_back(std::move(places));
  if (const TaxHandedOn paid = handed_on_in(*session().shop(), year()); !paid.payments.empty())
    made.sections.push_back(sectionOf(paid_->table(), tr("Handed on")));
  return made;
}

}  // namespace secondpull::app
