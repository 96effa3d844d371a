#include "app/books/tax_paid_list.h"

#include <QCompleter>
#include <QLineEdit>

#include "app/books/plain_figures.h"
#include "app/parts/edits.h"
#include "core/books/year_sums.h"
#include "core/shop/bench.h"
#include "core/shop/side_trades.h"

namespace secondpull::app {
namespace {

QString text(const std::string& said) {
  return QString::fromStdString(said);
}

std::vector<TableColumn<TaxPaid>> columns(const Session& session) {
  using Row = TaxPaid;
  const Session* of = &session;
  return {{.key = "date",
           .title = TaxPaidList::tr("Handed on"),
           .text = [of](const Row& row) { return text(shown_short(row.date, of->today())); },
           .sort = [](const Row& row) { return text(iso(row.date)); },
           .plain = [](const Row& row) { return text(iso(row.date)); }},
          {.key = "place",
           .title = TaxPaidList::tr("To which place"),
           .text =
               [](const Row& row) {
                 return row.place.empty() ? TaxPaidList::tr("no place said") : text(row.place);
               }},
          {.key = "amount",
           .title = TaxPaidList::tr("Amount"),
           .text = [of](const Row& row) { return of->money(row.amount); },
           .sort = [](const Row& row) { return QVariant::fromValue<qlonglong>(row.amount.minor()); },
           .number = true,
           .plain = [of](const Row& row) { return plainMoney(*of, row.amount); }}};
}

}  // namespace

TaxPaidList::TaxPaidList(Session& session, QWidget* parent)
    : TaxPaidList(session, new RowModel<TaxPaid>{columns(session)}, parent) {}

TaxPaidList::TaxPaidList(Session& session, RowModel<TaxPaid>* model, QWidget* parent)
    : EntryList(session, QStringLiteral("taxPaid"), model, parent), model_{model} {
  model_->setParent(this);
}

QString TaxPaidList::title(bool changing) const {
  return changing ? tr("Change what was handed on") : tr("Sales tax handed on");
}

QString TaxPaidList::whatGoesHere() const {
  return tr(
      "Nothing was handed on in this year. What you pay to a place is typed above; it lowers what is owed.");
}

void TaxPaidList::addFields(Form& form) {
  addDay(form);
  place_ = new QLineEdit{&form};
  place_->setObjectName(QStringLiteral("taxPaidPlace"));
  QStringList places;
  const auto shop = session().shop();
  for (const Sale& sale : shop->all<Sale>())
    places << text(sale.place);
  for (const PartSale& sale : shop->all<PartSale>())
    places << text(sale.place);
  places.removeAll(QString{});
  places.removeDuplicates();
  auto* completer = new QCompleter{places, place_};
  completer->setCaseSensitivity(Qt::CaseInsensitive);
  completer->setFilterMode(Qt::MatchContains);
  place_->setCompleter(completer);
  amount_ = new MoneyEdit{QStringLiteral("amount"), session().currency(), &form};
  amount_->setObjectName(QStringLiteral("taxPaidAmount"));
  amount_->setRequired(true);
  form.addField(QStringLiteral("place"), tr("To which place"), place_, 2);
  form.addField(QStringLiteral("amount"), tr("Amount"), amount_);
}

void TaxPaidList::fill(const AnyId& record) {
  const auto shop = session().shop();
  const TaxPaid* now = shop->find(std::get<TaxPaidId>(record));
  if (now == nullptr) return;
  setDay(now->date);
  place_->setText(text(now->place));
  amount_->setValue(now->amount);
}

Result<Change> TaxPaidList::typed(const std::optional<AnyId>& changing) const {
  const auto shop = session().shop();
  TaxPaid paid;
  if (changing) {
    const TaxPaid* before = shop->find(std::get<TaxPaidId>(*changing));
    if (before == nullptr) return problem(tr("This line is no longer there.").toStdString());
    paid = *before;
  }
  paid.date = day();
  paid.place = place_->text().trimmed().toStdString();
  paid.amount = amount_->value().value_or(Money{});
  return changing ? replace_line(*shop, AnyRecord{paid}) : pay_tax(*shop, paid);
}

void TaxPaidList::setRows(int year) {
  model_->setRows(handed_on_in(*session().shop(), year).payments);
}

}  // namespace secondpull::app
