#include "app/scout/pocket_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

#include "app/bench/step_words.h"
#include "app/frame/session.h"
#include "app/parts/look.h"
#include "app/print/report_bar.h"
#include "app/print/table_report.h"
#include "core/learning/knowledge_base.h"

namespace secondpull::app {
namespace {

QString text(std::string_view words) {
  return QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
}

}  // namespace

PocketPanel::PocketPanel(Session& session, QWidget* parent)
    : QWidget(parent),
      session_{session},
      says_{faded({}, this)},
      bar_{new ReportBar([this] { return report(); }, this)},
      box_{new QVBoxLayout{this}} {
  says_->setObjectName(QStringLiteral("pocketSays"));
  says_->setWordWrap(true);
  box_->setContentsMargins(0, 0, 0, 0);
  box_->setSpacing(kGrid);
  auto* line = new QHBoxLayout;
  line->addWidget(says_, 1);
  line->addWidget(bar_);
  box_->addLayout(line);
  connect(bar_, &ReportBar::said, this, &PocketPanel::said);
  showWorking();
}

void PocketPanel::showWorking() {
  bar_->setEnabled(false);
  says_->setText(tr("The card is being worked out."));
}

QString PocketPanel::nameOf(const planning::PocketCard::Row& row) const {
  if (row.symptom.empty()) return tr("Not tried");
  const auto base = session_.knowledge();
  const auto* symptom = base->knowledge.symptom(row.symptom);
  return text(symptom != nullptr ? symptom->name : row.symptom);
}

QString PocketPanel::cell(const std::optional<Money>& most) const {
  if (!most) return QString{QChar{0x2014}};
  return most->is_zero() ? tr("leave it") : text(shown_short(*most, session_.currency()));
}

void PocketPanel::showCard(planning::PocketCard card, const planning::HourValue& hour) {
  card_ = std::move(card);
  hour_ = hour;
  bar_->setEnabled(true);
  says_->setText(tr("The most to pay, by what it is and what it does."));
  std::vector<TableColumn<planning::PocketCard::Row>> columns;
  columns.push_back({.key = "symptom",
                     .title = tr("What it does"),
                     .text = [this](const auto& row) { return nameOf(row); },
                     .sort = [](const auto& row) { return QVariant{text(row.symptom)}; }});
  for (std::size_t kind = 0; kind < card_.kinds.size(); ++kind)
    columns.push_back({.key = text(word(card_.kinds[kind])),
                       .title = text(word(card_.kinds[kind])),
                       .text = [this, kind](const auto& row) { return cell(row.most_to_pay[kind]); },
                       .sort =
                           [kind](const auto& row) {
                             return QVariant::fromValue(row.most_to_pay[kind] ? row.most_to_pay[kind]->minor()
                                                                              : std::int64_t{-1});
                           },
                       .number = true});
  delete table_;
  model_ = std::make_unique<RowModel<planning::PocketCard::Row>>(std::move(columns));
  model_->setRows(card_.rows);
  table_ = new DataTable{session_, QStringLiteral("scout_pocket"), this};
  table_->setObjectName(QStringLiteral("pocketTable"));
  table_->setAccessibleName(tr("The most to pay"));
  table_->setRowModel(model_.get());
  box_->addWidget(table_, 1);
}

Report PocketPanel::report() const {
  Report made{.title = tr("Most to pay"),
              .subtitle = QStringLiteral("%1, %2").arg(text(session_.shop()->settings.name),
                                                       text(shown(session_.today()))),
              .file_name = QStringLiteral("pocket-card")};
  if (table_ != nullptr) made.sections.push_back(sectionOf(*table_));
  made.notes << tr("An hour counts %1. Fetching takes %2 and no money.")
                    .arg(wholeMoney(hour_.value, session_.currency()), text(shown(planning::kUsualFetch)))
             << tr("A guess from what the shop knows; look before you pay.");
  return made;
}

}  // namespace secondpull::app
