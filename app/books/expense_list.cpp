#include "app/books/expense_list.h"

#include <QCompleter>
#include <QLineEdit>

#include "app/books/plain_figures.h"
#include "app/parts/edits.h"
#include "app/yard/spent_rows.h"
#include "core/books/year_sums.h"
#include "core/shop/bench.h"
#include "core/shop/shelf.h"

namespace secondpull::app {
namespace {

QString text(const std::string& said) {
  return QString::fromStdString(said);
}

std::vector<TableColumn<Expense>> columns(const Session& session) {
  const Session* of = &session;
  return {{.key = "date",
           .title = ExpenseList::tr("Day"),
           .text = [of](const Expense& row) { return text(shown_short(row.date, of->today())); },
           .sort = [](const Expense& row) { return text(iso(row.date)); },
           .plain = [](const Expense& row) { return text(iso(row.date)); }},
          {.key = "category",
           .title = ExpenseList::tr("Kind of cost"),
           .text = [](const Expense& row) { return text(row.category); }},
          {.key = "amount",
           .title = ExpenseList::tr("Amount"),
           .text = [of](const Expense& row) { return of->money(row.amount); },
           .sort = [](const Expense& row) { return QVariant::fromValue<qlonglong>(row.amount.minor()); },
           .number = true,
           .plain = [of](const Expense& row) { return plainMoney(*of, row.amount); }},
          {.key = "note", .title = ExpenseList::tr("Note"), .text = [](const Expense& row) {
             return text(row.note);
           }}};
}

/// What this shop has written before, then what the form has a line for.
QStringList categories(const Session& session, int year) {
  QStringList all = usedCategories(session);
  if (const FormOfYears* form = session.formLines().of(year))
    for (const FormLine& line : form->lines)
      for (const std::string& category : line.categories)
        if (!all.contains(text(category))) all << text(category);
  return all;
}

}  // namespace

ExpenseList::ExpenseList(Session& session, QWidget* parent)
    : ExpenseList(session, new RowModel<Expense>{columns(session)}, parent) {}

ExpenseList::ExpenseList(Session& session, RowModel<Expense>* model, QWidget* parent)
    : EntryList(session, QStringLiteral("expense"), model, parent), model_{model} {
  model_->setParent(this);
}

QString ExpenseList::title(bool changing) const {
  return changing ? tr("Change what was spent") : tr("What was spent for the shop");
}

QString ExpenseList::whatGoesHere() const {
  return tr(
      "Nothing was written down as spent in this year. Type the first line above: its day, what kind of cost "
      "it was, and how much.");
}

void ExpenseList::addFields(Form& form) {
  const DateEdit* day = addDay(form);
  category_ = new QLineEdit{&form};
  category_->setObjectName(QStringLiteral("expenseCategory"));
  const int year = day->value() ? int{day->value()->year()} : int{session().today().year()};
  auto* completer = new QCompleter{categories(session(), year), category_};
  completer->setCaseSensitivity(Qt::CaseInsensitive);
  completer->setFilterMode(Qt::MatchContains);
  category_->setCompleter(completer);
  amount_ = new MoneyEdit{QStringLiteral("amount"), session().currency(), &form};
  amount_->setObjectName(QStringLiteral("expenseAmount"));
  amount_->setRequired(true);
  note_ = new QLineEdit{&form};
  note_->setObjectName(QStringLiteral("expenseNote"));
  form.addField(QStringLiteral("category"), tr("Kind of cost"), category_);
  form.addField(QStringLiteral("amount"), tr("Amount"), amount_);
  form.addField(QStringLiteral("note"), tr("Where or what"), note_);
}

void ExpenseList::fill(const AnyId& record) {
  const auto shop = session().shop();
  const Expense* now = shop->find(std::get<ExpenseId>(record));
  if (now == nullptr) return;
  setDay(now->date);
  category_->setText(text(now->category));
  amount_->setValue(now->amount);
  note_->setText(text(now->note));
}

Result<Change> ExpenseList::typed(const std::optional<AnyId>& changing) const {
  const auto shop = session().shop();
  const std::string category = category_->text().trimmed().toStdString();
  const std::string note = note_->text().trimmed().toStdString();
  const Money amount = amount_->value().value_or(Money{});
  if (!changing) return add_expense(*shop, day(), category, amount, note);
  const Expense* before = shop->find(std::get<ExpenseId>(*changing));
  if (before == nullptr) return problem(tr("This line is no longer there.").toStdString());
  Expense changed = *before;
  changed.date = day();
  changed.category = category;
  changed.amount = amount;
  changed.note = note;
  return replace_line(*shop, AnyRecord{changed});
}

void ExpenseList::setRows(int year) {
  model_->setRows(expenses_of(*session().shop(), year).expenses);
}

}  // namespace secondpull::app
