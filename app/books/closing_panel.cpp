#include "app/books/closing_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/books/plain_figures.h"
#include "app/books/why_panel.h"
#include "app/books/year_rows.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/parts/two_sides.h"
#include "app/print/table_report.h"

namespace secondpull::app {
namespace {

constexpr int kYearsWidth = 56 * kGrid;
constexpr int kChecksLeast = 50 * kGrid;

QString text(const std::string& said) {
  return QString::fromStdString(said);
}

QString stateOf(const ClosingPanel::YearState& row) {
  if (!row.closed) return ClosingPanel::tr("open");
  return row.same ? ClosingPanel::tr("closed on %1").arg(text(shown(*row.closed)))
                  : ClosingPanel::tr("closed, but its figures have moved");
}

std::vector<TableColumn<ClosingPanel::YearState>> yearColumns(const Session& session) {
  using Row = ClosingPanel::YearState;
  const Session* of = &session;
  return {{.key = "year",
           .title = ClosingPanel::tr("Year"),
           .text = [](const Row& row) { return QString::number(row.year); },
           .sort = [](const Row& row) { return row.year; }},
          {.key = "state", .title = ClosingPanel::tr("How it stands"), .text = stateOf},
          {.key = "profit",
           .title = ClosingPanel::tr("Net profit"),
           .text = [of](const Row& row) { return of->money(row.net_profit); },
           .sort =
               [](const Row& row) {
                 return QVariant::fromValue<qlonglong>(row.net_profit.value_or(Money{}).minor());
               },
           .number = true,
           .plain = [of](const Row& row) { return plainMoney(*of, row.net_profit); }}};
}

QString sizeText(const Session& session, const KeptAgainstNow& row, const std::optional<std::int64_t>& size) {
  return size ? sizeCell(session, unit_of(row.line), *size).text : ClosingPanel::tr("none");
}

std::vector<TableColumn<KeptAgainstNow>> keptColumns(const Session& session) {
  using Row = KeptAgainstNow;
  const Session* of = &session;
  return {{.key = "what",
           .title = ClosingPanel::tr("Figure"),
           .text =
               [](const Row& row) {
                 const QString what = text(std::string{shown(row.line)});
                 return row.name.empty() ? what : QStringLiteral("%1: %2").arg(what, text(row.name));
               }},
          {.key = "kept",
           .title = ClosingPanel::tr("When it was closed"),
           .text = [of](const Row& row) { return sizeText(*of, row, row.kept); },
           .number = true},
          {.key = "now",
           .title = ClosingPanel::tr("By the records now"),
           .text = [of](const Row& row) { return sizeText(*of, row, row.now); },
           .number = true}};
}

/// What a person does about it.
QString stepOf(const UnfinishedItem& item) {
  switch (item.what) {
    case Unfinished::trips_no_rate:
    case Unfinished::trips_lacking:
      return ClosingPanel::tr("to the trips");
    case Unfinished::sales_unpaid_word:
      return ClosingPanel::tr("to the first machine");
    case Unfinished::orders_under_way:
      return ClosingPanel::tr("to the orders");
    case Unfinished::tax_owed:
      return ClosingPanel::tr("to the sales tax");
    case Unfinished::hulks_here:
      return ClosingPanel::tr("to the first hulk");
    case Unfinished::year_not_over:
      return {};
  }
  return {};
}

std::vector<TableColumn<UnfinishedItem>> checkColumns() {
  using Row = UnfinishedItem;
  return {{.key = "must",
           .title = ClosingPanel::tr("Has to be"),
           .text =
               [](const Row& row) {
                 return row.blocks ? ClosingPanel::tr("first") : ClosingPanel::tr("worth a look");
               }},
          {.key = "what",
           .title = ClosingPanel::tr("What"),
           .text = [](const Row& row) { return text(row.sentence); },
           .why = [](const Row& row) { return text(row.sentence); }},
          {.key = "step", .title = ClosingPanel::tr("Enter goes"), .text = stepOf}};
}

}  // namespace

ClosingPanel::ClosingPanel(Session& session, QWidget* parent) : BooksPanel(session, parent) {
  const auto table = [&](const char* name, const QString& accessible, RowModelBase* model) {
    auto* made = new DataTable{session, QString::fromLatin1(name)};
    made->setObjectName(QString::fromLatin1(name));
    made->setAccessibleName(accessible);
    made->setRowModel(model);
    return made;
  };
  const auto label = [](const char* rank) {
    auto* made = new QLabel;
    made->setWordWrap(true);
    setRank(made, rank);
    return made;
  };
  years_model_ = new RowModel<YearState>{yearColumns(session), this};
  checks_model_ = new RowModel<UnfinishedItem>{checkColumns(), this};
  kept_model_ = new RowModel<KeptAgainstNow>{keptColumns(session), this};
  years_ = table("closingYears", tr("Where each year stands"), years_model_);
  years_->sortBy(QStringLiteral("year"), Qt::DescendingOrder);
  checks_ = table("closingChecks", tr("What is worth a look before the year is closed"), checks_model_);
  checks_->setWordWrap(true);
  kept_ = table("closingDrift", tr("Kept figures beside those of now"), kept_model_);

  title_ = heading({});
  says_ = label("faded");
  says_->setObjectName(QStringLiteral("closingSays"));
  do_ = new QPushButton;
  do_->setObjectName(QStringLiteral("closingDo"));
  setRank(do_, "first");
  checks_title_ = label("subheading");
  kept_title_ = label("subheading");
  connect(do_, &QPushButton::clicked, this, &ClosingPanel::closeOrOpen);
  connect(checks_, &DataTable::opened, this, [this](int row) { go(checks_model_->row(row)); });
  connect(years_, &DataTable::opened, this, [this](int row) {
    sides_->turnTo(1);
    emit wantsYear(years_model_->row(row).year);
  });

  auto* checks = new QWidget;
  auto* right = new QVBoxLayout{checks};
  right->setContentsMargins(0, 0, 0, 0);
  right->setSpacing(kGrid);
  right->addWidget(title_);
  right->addWidget(says_);
  auto* button = new QHBoxLayout;
  button->addWidget(do_);
  button->addStretch(1);
  right->addLayout(button);
  right->addSpacing(kGrid);
  right->addWidget(checks_title_);
  right->addWidget(checks_, 2);
  right->addWidget(kept_title_);
  right->addWidget(kept_, 2);
  right->addStretch(0);
  auto* years = new QWidget;
  auto* left = new QVBoxLayout{years};
  left->setContentsMargins(0, 0, 0, 0);
  left->setSpacing(kGrid);
  years_title_ = label("subheading");
  years_title_->setText(tr("The years"));
  left->addWidget(years_title_);
  left->addWidget(years_, 1);
  left->addStretch(0);
  years_->setMinimumWidth(grown(kYearsWidth));
  sides_ = new TwoSides{tr("The years, or the one chosen"),
                        QStringLiteral("closingSides"),
                        {years, tr("the years"), kYearsWidth, 1},
                        {checks, tr("one year"), kChecksLeast, 2},
                        TwoSides::Between::gap};
  sides_->setGap(4 * kGrid);
  auto* box = new QVBoxLayout{this};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  box->addWidget(sides_->words());
  box->addWidget(sides_, 1);
}

void ClosingPanel::refresh() {
  const auto books = session().books();
  const auto shop = session().shop();
  std::vector<YearState> states;
  for (const int each : books->dated_years()) {
    YearState& state = states.emplace_back(YearState{.year = each});
    if (const ClosedYear* kept = closed(*shop, each)) {
      state.closed = kept->closed;
      const auto moved = drift(*books, session().taxRates(), each);
      state.same = moved && moved->empty();
    }
    if (const auto figures = books->year(each, session().taxRates())) state.net_profit = figures->net_profit;
  }
  sides_->setGone(states.empty() ? std::optional{0} : std::nullopt);
  years_model_->setRows(states);
  for (std::size_t at = 0; at < states.size(); ++at)
    if (states[at].year == year()) years_->selectSourceRow(static_cast<int>(at));
  showChecks();
  showKept();
}

void ClosingPanel::showChecks() {
  const auto books = session().books();
  items_ = unfinished(*books, session().mileageRates(), year(), session().today());
  const bool is_closed = closed(*session().shop(), year()) != nullptr;
  const bool nothing = !books->years();
  const bool blocked =
      std::any_of(items_.begin(), items_.end(), [](const auto& item) { return item.blocks; });
  title_->setText(is_closed ? tr("%1 is closed").arg(year()) : tr("Closing %1").arg(year()));
  says_->setText(
      nothing ? tr("A year that is over can be closed here: its figures are then kept, and nothing can "
                   "move them until it is opened again. There is nothing in the books yet.")
      : is_closed
          ? tr("Its figures are kept. What would move them is refused until the year is opened again; "
               "opening it can be taken back like anything else.")
          : tr("Closing keeps the figures of the year: from then on an entry that would move them is "
               "refused and says what it would move. A closed year can be opened again."));
  do_->setText(is_closed ? tr("Open %1 again").arg(year()) : tr("Close %1").arg(year()));
  do_->setEnabled(!nothing && (is_closed || !blocked));
  checks_title_->setText(items_.empty() ? tr("Nothing is unfinished.") : tr("Before it is closed"));
  checks_title_->setVisible(!is_closed && !nothing);
  checks_->setVisible(!is_closed && !nothing && !items_.empty());
  checks_model_->setRows(items_);
  checks_->resizeRowsToContents();
}

void ClosingPanel::showKept() {
  const bool is_closed = closed(*session().shop(), year()) != nullptr;
  const auto moved = is_closed ? drift(*session().books(), session().taxRates(), year())
                               : Result<std::vector<KeptAgainstNow>>{};
  kept_title_->setVisible(is_closed);
  kept_title_->setText(!moved           ? text(moved.error().sentence)
                       : moved->empty() ? tr("The figures kept are those of the records now.")
                                        : tr("Figures that have moved since it was closed"));
  kept_model_->setRows(moved ? *moved : std::vector<KeptAgainstNow>{});
  kept_->setVisible(moved && !moved->empty());
}

void ClosingPanel::start() {
  sides_->turnTo(1);
  if (!checks_->isHidden())
    checks_->setFocus();
  else
    do_->setFocus();
}

void ClosingPanel::closeOrOpen() {
  const bool is_closed = closed(*session().shop(), year()) != nullptr;
  const auto wrong = session().perform(
      is_closed ? reopen_year(*session().shop(), year())
                : close_year(*session().books(), session().taxRates(), year(), session().today()));
  if (wrong) emit said(text(wrong->sentence), true);
}

void ClosingPanel::go(const UnfinishedItem& item) {
  switch (item.what) {
    case Unfinished::trips_no_rate:
    case Unfinished::trips_lacking:
      return emit wantsTrips();
    case Unfinished::orders_under_way:
      return emit wantsPage(tr("Shelf"));
    case Unfinished::tax_owed:
      return emit wantsView(BooksView::sales_tax);
    case Unfinished::sales_unpaid_word:
    case Unfinished::hulks_here:
      if (const auto machine =
              item.records.empty() ? std::nullopt : machineOf(*session().shop(), item.records.front()))
        emit wantsMachine(*machine);
      return;
    case Unfinished::year_not_over:
      return;
  }
}

Report ClosingPanel::report() const {
  Report made{.title = tr("Closing of the years"), .file_name = QStringLiteral("closing")};
  made.sections.push_back(sectionOf(*years_, tr("The years")));
  if (!items_.empty() && !checks_->isHidden())
    made.sections.push_back(sectionOf(*checks_, tr("Before %1 is closed").arg(year())));
  if (!kept_->isHidden()) made.sections.push_back(sectionOf(*kept_, kept_title_->text()));
  return made;
}

}  // namespace secondpull::app
