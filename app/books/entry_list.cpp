#include "app/books/entry_list.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QShortcut>
#include <QVBoxLayout>

#include "app/parts/edits.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "core/shop/bench.h"

namespace secondpull::app {
namespace {

std::int64_t numberOf(const AnyId& id) {
  return std::visit([](auto at) { return number(at); }, id);
}

}  // namespace

EntryList::EntryList(Session& session, const QString& name, RowModelBase* model, QWidget* parent)
    : QWidget(parent), session_{session}, name_{name} {
  box_ = new QVBoxLayout{this};
  box_->setContentsMargins(0, 0, 0, 0);
  box_->setSpacing(kGrid);
  table_ = new DataTable{session, QStringLiteral("books_") + name};
  table_->setObjectName(name + QStringLiteral("Table"));
  table_->setRowModel(model);
  box_->addWidget(table_, 1);
  nothing_ = faded({}, this);
  nothing_->setObjectName(name + QStringLiteral("Nothing"));
  nothing_->setWordWrap(true);
  nothing_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
  box_->addWidget(nothing_, 1);
  const auto button = [&](const char* what, const QString& text, const QString& key) {
    auto* made = new QPushButton{text, this};
    made->setObjectName(name + QString::fromLatin1(what));
    made->setToolTip(key);
    setRank(made, "quiet");
    return made;
  };
  change_ = button("Change", tr("Change this line"), tr("Enter"));
  remove_ = button("Remove", tr("Remove it"), tr("Delete"));
  auto* line = new QHBoxLayout;
  line->addWidget(change_);
  line->addWidget(remove_);
  line->addStretch(1);
  box_->addLayout(line);
  connect(change_, &QPushButton::clicked, this, &EntryList::change);
  connect(remove_, &QPushButton::clicked, this, &EntryList::remove);
  connect(table_, &DataTable::opened, this, &EntryList::change);
  auto* key = new QShortcut{Qt::Key_Delete, table_};
  key->setContext(Qt::WidgetShortcut);
  connect(key, &QShortcut::activated, this, &EntryList::remove);
}

void EntryList::refresh(int year) {
  const bool other = year != year_;
  year_ = year;
  const int row = table_->currentSourceRow();
  const std::optional<AnyId> chosen = row >= 0 ? std::optional{recordAt(row)} : std::nullopt;
  setRows(year);
  for (int at = 0; chosen && at < table_->shownRows(); ++at)
    if (recordAt(at) == *chosen) table_->selectSourceRow(at);
  const bool any = table_->shownRows() > 0;
  table_->setVisible(any);
  nothing_->setVisible(!any);
  nothing_->setText(whatGoesHere());
  for (QPushButton* button : {change_, remove_})
    button->setVisible(any);
  if (other || !form_) {
    last_day_.reset();
    makeForm(std::nullopt);
  }
}

void EntryList::start() {
  if (form_) form_->open();
}

DateEdit* EntryList::addDay(Form& form) {
  const Date today = session_.today();
  const bool past = static_cast<int>(today.year()) != year_;
  day_ = new DateEdit{QStringLiteral("date"),
                      past ? Date{std::chrono::year{year_} / std::chrono::December / 31} : today, &form};
  day_->setObjectName(name_ + QStringLiteral("Day"));
  day_->setRequired(true);
  form.addField(QStringLiteral("date"), tr("Day"), day_);
  return day_;
}

Date EntryList::day() const {
  return day_->value().value_or(session_.today());
}

void EntryList::setDay(Date date) {
  day_->setValue(date);
}

void EntryList::makeForm(const std::optional<AnyId>& changing) {
  if (form_) {
    form_->disconnect(this);
    form_->hide();
    form_->setParent(nullptr);  // out of the tree at once: its fields have the names of the next ones
    form_->deleteLater();
  }
  const QString draft = changing ? QStringLiteral("books.%1.%2").arg(name_).arg(numberOf(*changing))
                                 : QStringLiteral("books.%1").arg(name_);
  form_ = new Form{session_, draft, title(changing.has_value()), this};
  form_->setObjectName(name_ + QStringLiteral("Form"));
  form_->setTitleShown(!isTextLarge());  // the table below needs its height
  form_->setColumns(fieldsInARow());
  form_->setSaveText(changing ? tr("Save the change") : tr("Write it down"));
  addFields(*form_);
  if (changing) {
    fill(*changing);
  } else {
    const Date today = session_.today();
    if (last_day_)
      day_->setValue(last_day_);
    else if (static_cast<int>(today.year()) == year_)
      day_->setValue(today);
    fillNew();
  }
  form_->onSave([this, changing] {
    const Date written = day();
    const auto wrong = session_.perform(typed(changing));
    if (!wrong) last_day_ = written;
    return wrong;
  });
  connect(form_, &Form::saved, this, [this] {
    selectNewest();
    makeForm(std::nullopt);
    form_->open();
  });
  connect(form_, &Form::left, this, [this, changing] {
    if (changing)
      makeForm(std::nullopt);
    else
      form_->show();
    table_->setFocus();
  });
  box_->insertWidget(0, form_);
  form_->show();
}

void EntryList::selectNewest() {
  int newest = -1;
  for (int row = 0; row < table_->shownRows(); ++row)
    if (newest < 0 || numberOf(recordAt(row)) > numberOf(recordAt(newest))) newest = row;
  if (newest >= 0) table_->selectSourceRow(newest);
}

void EntryList::change() {
  const int row = table_->currentSourceRow();
  if (row < 0) return;
  makeForm(recordAt(row));
  form_->open();
}

void EntryList::remove() {
  const int row = table_->currentSourceRow();
  if (row < 0) return;
  if (const auto wrong = session_.perform(remove_line(*session_.shop(), recordAt(row))))
    emit said(QString::fromStdString(wrong->sentence), true);
}

}  // namespace secondpull::app
