#include "app/books/why_panel.h"

#include <QLabel>
#include <QVBoxLayout>

#include "app/books/plain_figures.h"
#include "app/parts/look.h"
#include "app/print/table_report.h"
#include "core/shop/describe.h"

namespace secondpull::app {
namespace {

/// The unit of a part: where the terms are other figures, theirs.
YearWhy::Unit unitOf(const YearDetail& detail, YearWhy::Unit whole) {
  if (!detail.line) return whole;
  switch (*detail.line) {
    case YearLine::hours:
      return YearWhy::Unit::minutes;
    case YearLine::miles:
      return YearWhy::Unit::tenths_of_mile;
    case YearLine::machines_sold:
      return YearWhy::Unit::machines;
    default:
      return YearWhy::Unit::money;
  }
}

std::vector<TableColumn<YearDetail>> columns(const Session& session, YearWhy::Unit unit) {
  using Row = YearDetail;
  const Session* of = &session;
  return {
      {.key = "date",
       .title = WhyPanel::tr("Day"),
       .text =
           [of](const Row& row) {
             return row.line ? QString{} : QString::fromStdString(shown_short(row.date, of->today()));
           },
       .sort = [](const Row& row) { return row.line ? QString{} : QString::fromStdString(iso(row.date)); }},
      {.key = "what",
       .title = WhyPanel::tr("What"),
       .text = [](const Row& row) { return QString::fromStdString(row.what); }},
      {.key = "size",
       .title = WhyPanel::tr("Adds"),
       .text = [of, unit](const Row& row) { return sizeCell(*of, unitOf(row, unit), row.size).text; },
       .sort = [](const Row& row) { return QVariant::fromValue<qlonglong>(row.size); },
       .number = true,
       .plain = [of, unit](const Row& row) { return sizeCell(*of, unitOf(row, unit), row.size).number; }}};
}

}  // namespace

WhyPanel::WhyPanel(Session& session, QWidget* parent) : QWidget(parent), session_{session} {
  auto* box = new QVBoxLayout{this};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid / 2);
  const auto label = [&](const char* name, const char* rank) {
    auto* made = new QLabel;
    made->setObjectName(QString::fromLatin1(name));
    made->setWordWrap(true);
    if (rank != nullptr) setRank(made, rank);
    box->addWidget(made);
    return made;
  };
  title_ = label("whyTitle", "subheading");
  figure_ = label("whyFigure", "figure");
  how_ = label("whyHow", "faded");
  table_ = new DataTable{session, QStringLiteral("books_why")};
  table_->setObjectName(QStringLiteral("whyTable"));
  table_->setAccessibleName(tr("What the figure is made of"));
  box->addWidget(table_, 1);
  sum_ = label("whySum", "faded");
  box->addStretch(0);
  connect(table_, &DataTable::opened, this, [this](int row) {
    const YearDetail& detail = model_->row(row);
    if (detail.line) return emit wantsLine(*detail.line);
    if (!detail.event) return;
    if (const auto machine = machineOf(*session_.shop(), *detail.event)) emit wantsMachine(*machine);
  });
  showNothing();
}

void WhyPanel::show(int year, const YearRow& row) {
  title_->setText(row.number.isEmpty() ? row.what : tr("Line %1: %2").arg(row.number, row.what));
  figure_->setText(row.amount.text);
  figure_->setVisible(!row.amount.text.isEmpty());
  if (!row.line) {
    table_->hide();
    return say(row.how.isEmpty() ? tr("It follows from the lines beside it; ask those.") : row.how, {});
  }
  YearWhy all;
  bool first = true;
  for (const std::string& name : row.names.empty() ? std::vector<std::string>{""} : row.names) {
    const auto why = session_.books()->why(year, *row.line, name, session_.taxRates());
    if (!why) {
      table_->hide();
      return say(QString::fromStdString(why.error().sentence), {});
    }
    if (std::exchange(first, false)) {
      all = *why;
      continue;
    }
    all.details.insert(all.details.end(), why->details.begin(), why->details.end());
  }
  auto* model = new RowModel<YearDetail>{columns(session_, all.unit), this};
  const auto count = static_cast<int>(all.details.size());
  model->setRows(std::move(all.details));
  table_->setRowModel(model);
  delete model_;
  model_ = model;
  table_->setVisible(count > 0);
  if (count > 0) table_->selectSourceRow(0);
  say(QString::fromStdString(all.how),
      count == 0     ? tr("Nothing is in it.")
      : !all.adds_up ? tr("These are its terms.")
                     : tr("%1, together %2.")
                           .arg(QString::fromStdString(counted(count, "part", "parts")), row.amount.text));
}

void WhyPanel::showNothing() {
  title_->setText(tr("Why?"));
  figure_->hide();
  table_->hide();
  say(tr("Choose a line of the year: what it is made of stands here, down to the sale or the receipt. Enter "
         "goes "
         "there."),
      {});
}

void WhyPanel::say(const QString& how, const QString& sum) {
  how_->setText(how);
  how_->setVisible(!how.isEmpty());
  sum_->setText(sum);
  sum_->setVisible(!sum.isEmpty());
}

ReportSection WhyPanel::section() const {
  if (table_->isHidden()) return {};
  return sectionOf(*table_, QStringLiteral("%1: %2").arg(title_->text(), figure_->text()));
}

std::optional<MachineId> machineOf(const Shop& shop, const AnyId& id) {
  return std::visit(
      [&](auto at) -> std::optional<MachineId> {
        using Id = decltype(at);
        if constexpr (std::is_same_v<Id, MachineId>) {
          return at;
        } else if constexpr (std::is_same_v<Id, HarvestId>) {
          const Harvest* line = shop.find(at);
          return line != nullptr ? std::optional{line->donor} : std::nullopt;
        } else {
          const auto* record = shop.find(at);
          if constexpr (requires { record->machine; })
            return record != nullptr ? std::optional<MachineId>{record->machine} : std::nullopt;
          else
            return std::nullopt;
        }
      },
      id);
}

}  // namespace secondpull::app
