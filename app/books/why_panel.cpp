#include "app/books/why_panel.h"

#include <QLabel>
#include <QVBoxLayout>

#include "app/books/plain_figures.h"
#include "app/parts/look.h"
#include "app/print/table_report.h"
#include "core/shop/describe.h"

namespace secondpull::app {
namespace {

std::vector<TableColumn<YearDetail>> columns(const Session& session) {
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
       .text = [of](const Row& row) { return sizeCell(*of, row.unit, row.size).text; },
       .sort = [](const Row& row) { return QVariant::fromValue<qlonglong>(row.size); },
       .number = true,
       .plain = [of](const Row& row) { return sizeCell(*of, row.unit, row.size).number; }}};
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
  const auto all = explained(year, row);
  if (!all) {
    table_->hide();
    return say(QString::fromStdString(all.error().sentence), {});
  }
  auto* model = new RowModel<YearDetail>{columns(session_), this};
  const auto count = static_cast<int>(all->details.size());
  model->setRows(all->details);
  table_->setRowModel(model);
  delete model_;
  model_ = model;
  table_->setVisible(count > 0);
  if (count > 0) table_->selectSourceRow(0);
  say(QString::fromStdString(all->how),
      count == 0      ? tr("Nothing is in it.")
      : !all->adds_up ? tr("These are its terms.")
                      : tr("%1, together %2.")
                            .arg(QString::fromStdString(counted(count, "part", "parts")), row.amount.text));
}

Result<YearWhy> WhyPanel::explained(int year, const YearRow& row) const {
  // What is asked about: the categories or places of a figure that has them; or a figure of its own, and the
  // categories of expense that stand on its line of the form as well.
  std::vector<std::pair<YearLine, std::string>> asked;
  if (row.names.empty() || !has_names(*row.line)) asked.emplace_back(*row.line, std::string{});
  for (const std::string& name : row.names)
    asked.emplace_back(has_names(*row.line) ? *row.line : YearLine::expenses, name);

  std::optional<YearWhy> all;
  for (const auto& [line, name] : asked) {
    auto why = session_.books()->why(year, line, name, session_.taxRates());
    if (!why) return why;
    if (all)
      all->details.insert(all->details.end(), why->details.begin(), why->details.end());
    else
      all = *std::move(why);
  }
  return *std::move(all);
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
