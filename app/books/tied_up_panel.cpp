#include "app/books/tied_up_panel.h"

#include <climits>

#include <QHBoxLayout>
#include <QLabel>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "app/books/earning_detail.h"
#include "app/books/head_line.h"
#include "app/books/money_bars.h"
#include "app/books/plain_figures.h"
#include "app/parts/figure_words.h"
#include "app/parts/form.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/parts/two_sides.h"
#include "app/print/table_report.h"
#include "core/books/year_sums.h"

namespace secondpull::app {
namespace {

constexpr int kTableLeast = 60 * kGrid;
constexpr int kBarsWidth = 48 * kGrid;

QString text(const std::string& said) {
  return QString::fromStdString(said);
}

QString whatItIs(const Session& session, const TiedUp& row) {
  if (row.machine)
    return QStringLiteral("#%1 %2").arg(session.tagOf(*row.machine), session.nameOf(*row.machine));
  const auto shop = session.shop();
  const Part* part = row.parts ? shop->find(row.parts->part) : nullptr;
  return QStringLiteral("%1 x %2")
      .arg(row.parts ? row.parts->quantity : 0)
      .arg(part != nullptr ? text(part->name) : TiedUpPanel::tr("a part"));
}

QString whereItIs(const Session& session, const TiedUp& row) {
  if (row.machine)
    return text(standing(*session.shop(), session.books()->by_machine().of(*row.machine), session.today()));
  if (row.parts && row.parts->donor)
    return TiedUpPanel::tr("on the shelf, off #%1").arg(session.tagOf(*row.parts->donor));
  return TiedUpPanel::tr("on the shelf");
}

std::vector<TableColumn<TiedUp>> columns(const Session& session) {
  using Row = TiedUp;
  const Session* of = &session;
  return {{.key = "what",
           .title = TiedUpPanel::tr("What"),
           .text = [of](const Row& row) { return whatItIs(*of, row); }},
          {.key = "where",
           .title = TiedUpPanel::tr("Where it stands"),
           .text = [of](const Row& row) { return whereItIs(*of, row); }},
          {.key = "since",
           .title = TiedUpPanel::tr("Since"),
           .text = [of](const Row& row) { return text(shown_short(row.since, of->today())); },
           .sort = [](const Row& row) { return text(iso(row.since)); },
           .plain = [](const Row& row) { return text(iso(row.since)); }},
          {.key = "days",
           .title = TiedUpPanel::tr("Days"),
           .text = [](const Row& row) { return QString::number(row.days); },
           .sort = [](const Row& row) { return row.days; },
           .number = true},
          {.key = "amount",
           .title = TiedUpPanel::tr("Money in it"),
           .text = [of](const Row& row) { return of->money(row.amount); },
           .sort = [](const Row& row) { return QVariant::fromValue<qlonglong>(row.amount.minor()); },
           .number = true,
           .why = [of](const Row& row) { return row.machine ? whyCost(*of, *row.machine) : QString{}; },
           .plain = [of](const Row& row) { return plainMoney(*of, row.amount); }}};
}

QString nameOf(const TiedUpClass& age) {
  if (age.to_days == INT_MAX) return TiedUpPanel::tr("over a year");
  return age.from_days == 0 ? TiedUpPanel::tr("up to %1 days").arg(age.to_days)
                            : TiedUpPanel::tr("%1 to %2 days").arg(age.from_days).arg(age.to_days);
}

}  // namespace

TiedUpPanel::TiedUpPanel(Session& session, QWidget* parent) : BooksPanel(session, parent) {
  auto* content = new QWidget;
  auto* box = new QVBoxLayout{content};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  machines_ = figureNamed(tr("In machines"), "tiedUpMachines");
  parts_ = figureNamed(tr("In parts"), "tiedUpParts");
  total_ = figureNamed(tr("Together"), "tiedUpTotal");
  model_ = new RowModel<TiedUp>{columns(session), this};
  table_ = new DataTable{session, QStringLiteral("books_tied_up")};
  table_->setObjectName(QStringLiteral("tiedUpTable"));
  table_->setAccessibleName(tr("What money lies in, the longest first"));
  table_->setRowModel(model_);
  table_->sortBy(QStringLiteral("days"), Qt::DescendingOrder);
  connect(table_, &DataTable::opened, this, [this](int row) {
    if (const auto& machine = model_->row(row).machine)
      emit wantsMachine(*machine);
    else
      emit wantsPage(tr("Shelf"));
  });
  auto* charts = new QWidget;
  auto* side = new QVBoxLayout{charts};
  side->setContentsMargins(0, 0, 0, 0);
  side->setSpacing(3 * kGrid);
  auto* title = new QLabel{tr("For how long")};
  setRank(title, "subheading");
  side->addWidget(title);
  bars_ = new MoneyBars{tr("Money tied up by how long it has been"),
                        tr("money in it, %1").arg(text(session.currency().code)), session.currency()};
  bars_->setObjectName(QStringLiteral("tiedUpBars"));
  bars_->setMaximumHeight(grown(28 * kGrid));
  side->addWidget(bars_, 1);
  side->addStretch(1);
  auto* sides = new TwoSides{tr("Table or chart"),
                             QStringLiteral("tiedUpSides"),
                             {table_, tr("table"), kTableLeast},
                             {charts, tr("chart"), kBarsWidth, 0},
                             TwoSides::Between::gap};
  box->addWidget(
      new HeadLine{{machines_, parts_, total_, sides->words()}, heading(tr("Money tied up today"))});
  box->addWidget(sides, 1);

  whole_ = layOut(content, tr("Money that lies in machines and parts stands here, and for how long."),
                  tr("Log a machine"), tr("Yard"));
}

void TiedUpPanel::refresh() {
  std::vector<TiedUp> all = tied_up(*session().books(), session().today());
  whole_->setCurrentIndex(all.empty() ? 0 : 1);
  const TiedUpSum sum = together(all);
  machines_->setFigure(
      session().money(sum.machines),
      tr("What every machine and hulk here has cost so far: what was paid, parts, materials and "
         "outside work. Own hours are not in it."));
  parts_->setFigure(session().money(sum.parts), tr("What the parts on hand cost, freight and tax included."));
  total_->setFigure(
      session().money(sum.total()),
      tr("Machines %1 and parts %2.").arg(session().money(sum.machines), session().money(sum.parts)));
  std::vector<MoneyBar> bars;
  for (const TiedUpClass& age : by_age(all))
    bars.push_back({.name = nameOf(age), .amount = session().money(age.amount), .to = age.amount});
  bars_->setBars(std::move(bars));
  model_->setRows(std::move(all));
}

Report TiedUpPanel::report() const {
  Report made{.title = tr("Money tied up"), .file_name = QStringLiteral("tied-up")};
  const TiedUpSum sum = together(model_->rows());
  ReportSection section = sectionOf(*table_);
  ReportRow row{.cells = {tr("together")}, .sum = true};
  for (const QString& key : keysOf(*table_).mid(1))
    row.cells.push_back(key == QLatin1String("amount") ? moneyCell(session(), sum.total()) : ReportCell{});
  section.rows.push_back(std::move(row));
  ReportSection ages{.heading = tr("For how long"), .columns = {{tr("Days")}, {tr("Money in it"), true}}};
  for (const TiedUpClass& age : by_age(model_->rows()))
    ages.rows.push_back({{nameOf(age), moneyCell(session(), age.amount)}});
  made.sections = {std::move(section), std::move(ages)};
  return made;
}

}  // namespace secondpull::app
