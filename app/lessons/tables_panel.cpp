#include "app/lessons/tables_panel.h"

#include <algorithm>

#include <QAbstractProxyModel>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "app/parts/choices.h"
#include "app/parts/flow.h"
#include "app/parts/form.h"
#include "app/parts/look.h"
#include "app/parts/two_sides.h"
#include "app/print/table_report.h"

namespace secondpull::app {
namespace {

constexpr int kTableLeast = 66 * kGrid;
constexpr int kChartLeast = 56 * kGrid;

QLabel* wrapped(const char* rank, QWidget* parent) {
  auto* label = new QLabel{parent};
  label->setWordWrap(true);
  setRank(label, rank);
  return label;
}

}  // namespace

PlainSentence::PlainSentence(const QString& name, QWidget* parent)
    : QWidget(parent),
      sentence_{wrapped("subheading", this)},
      to_do_{wrapped("", this)},
      answer_{wrapped("", this)},
      ask_{new QPushButton{tr("why?"), this}} {
  sentence_->setObjectName(name);
  sentence_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  to_do_->setObjectName(name + QStringLiteral("ToDo"));
  setRank(ask_, "quiet");
  ask_->setObjectName(name + QStringLiteral("Why"));
  ask_->setAccessibleName(tr("why? The numbers behind the sentence"));
  answer_->setObjectName(QStringLiteral("why"));
  answer_->setTextFormat(Qt::RichText);
  answer_->hide();
  auto* words = new QVBoxLayout;
  words->setSpacing(kGrid / 2);
  words->addWidget(sentence_);
  words->addWidget(to_do_);
  auto* line = new QHBoxLayout;
  line->setSpacing(kGrid);
  line->addLayout(words, 1);
  line->addWidget(ask_, 0, Qt::AlignTop);
  auto* box = new QVBoxLayout{this};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid / 2);
  box->addLayout(line);
  box->addWidget(answer_);
  connect(ask_, &QPushButton::clicked, this, [this] { answer_->setVisible(!answer_->isVisibleTo(this)); });
}

void PlainSentence::say(const QString& sentence, const QString& to_do, const QString& why) {
  sentence_->setText(sentence);
  to_do_->setText(to_do);
  to_do_->setVisible(!to_do.isEmpty());
  answer_->setText(why);
  ask_->setVisible(!why.isEmpty());
  if (why.isEmpty()) answer_->hide();
}

QString PlainSentence::sentence() const {
  return to_do_->text().isEmpty() ? sentence_->text() : sentence_->text() + QLatin1Char(' ') + to_do_->text();
}

TablesPanel::TablesPanel(Session& session, const QString& name, const QString& title, QWidget* parent)
    : LessonsPanel(session, parent), name_{name}, title_{title} {
  tables_ = new QStackedWidget;
}

void TablesPanel::addTable(const QString& word, const QString& accessible, const QString& table_name,
                           RowModelBase* model) {
  auto* made = new DataTable{session(), QStringLiteral("lessons_") + table_name};
  made->setObjectName(table_name);
  made->setAccessibleName(accessible);
  made->setRowModel(model);
  tables_->addWidget(made);
  views_.push_back({.word = word, .table = made});
  connect(made, &DataTable::currentRowChanged, this, [this, made] {
    if (tables_->currentWidget() == made) markRow();
  });
  connect(made->model(), &QAbstractItemModel::layoutChanged, this, [this, made] {
    if (tables_->currentWidget() == made) followTable();
  });
}

void TablesPanel::layOut(const std::vector<QWidget*>& figures, const QString& when_empty, const QString& step,
                         const QString& screen) {
  auto* content = new QWidget;
  auto* box = new QVBoxLayout{content};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(2 * kGrid);
  if (!figures.empty()) {
    auto* row = new QWidget;
    auto* flow = new Flow{row, 5 * kGrid};
    flow->setContentsMargins(0, 0, 0, 0);
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    row->setSizePolicy(policy);
    for (QWidget* figure : figures)
      flow->addWidget(figure);
    box->addWidget(row);
  }
  sentence_ = new PlainSentence{name_ + QStringLiteral("Sentence")};
  box->addWidget(sentence_);

  chart_side_ = new QWidget;
  auto* side = new QVBoxLayout{chart_side_};
  side->setContentsMargins(0, 0, 0, 0);
  side->setSpacing(kGrid);
  chart_title_ = wrapped("small", chart_side_);
  chart_ = new RangeChart;
  chart_->setObjectName(name_ + QStringLiteral("Chart"));
  side->addWidget(chart_title_);
  side->addWidget(chart_, 1);
  connect(chart_, &RangeChart::rowChosen, this, [this](int row) {
    table(view())->selectSourceRow(shown_[static_cast<std::size_t>(row)]);
    table(view())->setFocus();
  });
  sides_ = new TwoSides{tr("Table or chart"),
                        name_ + QStringLiteral("Sides"),
                        {tables_, tr("table"), kTableLeast, 3},
                        {chart_side_, tr("chart"), kChartLeast, 2},
                        TwoSides::Between::gap};
  QStringList all;
  for (const View& each : views_)
    all << each.word;
  words_ = new WordRow{tr("What the table shows"), all};
  words_->setObjectName(name_ + QStringLiteral("Views"));
  words_->setVisible(all.size() > 1);
  connect(words_, &WordRow::chosen, this, &TablesPanel::showView);
  auto* line = new QHBoxLayout;
  line->addWidget(words_);
  line->addStretch(1);
  line->addWidget(sides_->words());
  box->addLayout(line);
  box->addWidget(sides_, 1);

  auto* empty = new EmptyState{QStringLiteral("lessons"), when_empty, step};
  connect(empty, &EmptyState::stepTaken, this, [this, screen] { emit wantsPage(screen); });
  whole_ = new QStackedWidget;
  whole_->addWidget(empty);
  whole_->addWidget(content);
  auto* outer = new QVBoxLayout{this};
  outer->setContentsMargins(0, 0, 0, 0);
  outer->addWidget(whole_);
}

void TablesPanel::setEmpty(bool empty) {
  whole_->setCurrentIndex(empty ? 0 : 1);
}

int TablesPanel::view() const {
  return std::max(0, words_->current());
}

void TablesPanel::turnTo(int view) {
  words_->setCurrent(view);
  showView();
}

void TablesPanel::say(int at, LessonSays says) {
  views_[static_cast<std::size_t>(at)].says = std::move(says);
  if (at == view()) showView();
}

void TablesPanel::showView() {
  const View& now = views_[static_cast<std::size_t>(view())];
  tables_->setCurrentWidget(now.table);
  sentence_->say(now.says.sentence, now.says.to_do, now.says.why);
  followTable();
}

void TablesPanel::followTable() {
  const View& now = views_[static_cast<std::size_t>(view())];
  RangeChartOf chart = now.says.chart;
  chart.rows.clear();
  shown_.clear();
  const auto* proxy = qobject_cast<const QAbstractProxyModel*>(now.table->model());
  for (int row = 0; proxy != nullptr && row < proxy->rowCount(); ++row) {
    const int source = proxy->mapToSource(proxy->index(row, 0)).row();
    const auto& rows = now.says.chart_rows;
    const auto at = std::find(rows.begin(), rows.end(), source);
    if (at == rows.end()) continue;
    chart.rows.push_back(now.says.chart.rows[static_cast<std::size_t>(at - rows.begin())]);
    shown_.push_back(source);
  }
  sides_->setGone(now.says.chart.title.isEmpty() ? std::optional{1} : std::nullopt);
  chart_title_->setText(chart.rows.empty() ? tr("A chart stands here once there is something to compare.")
                                           : chart.title);
  chart_->setChart(std::move(chart));
  markRow();
}

void TablesPanel::markRow() {
  const auto at = std::find(shown_.begin(), shown_.end(), table(view())->currentSourceRow());
  chart_->setCurrent(at == shown_.end() ? -1 : static_cast<int>(at - shown_.begin()));
}

void TablesPanel::start() {
  if (whole_->currentIndex() == 0) return whole_->currentWidget()->setFocus();
  sides_->turnTo(0);
  table(view())->setFocus();
}

Report TablesPanel::report() const {
  Report made{.title = title_, .file_name = name_};
  if (whole_->currentIndex() == 0) return made;
  for (const View& each : views_) {
    made.sections.push_back(sectionOf(*each.table, each.word));
    QString sentence = each.says.sentence;
    if (!each.says.to_do.isEmpty()) sentence += QLatin1Char(' ') + each.says.to_do;
    if (!sentence.isEmpty()) made.notes << sentence;
  }
  made.notes << notes();
  return made;
}

}  // namespace secondpull::app
