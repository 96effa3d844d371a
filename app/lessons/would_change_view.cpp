#include "app/lessons/would_change_view.h"

#include <QLabel>
#include <QScrollArea>
#include <QVBoxLayout>

#include "app/bench/step_words.h"
#include "app/frame/session.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/planning/planning.h"
#include "core/planning/names.h"
#include "db/exchange/knowledge_json.h"

namespace secondpull::app {
namespace {

constexpr int kListHeight = 11 * kGrid;

QString stepWords(const planning::PlanSays& says, const learning::Knowledge& knowledge) {
  if (says.problem) return WouldChangeView::tr("no plan");
  return QString::fromStdString(planning::called(says.next, knowledge));
}

}  // namespace

WouldChangeView::WouldChangeView(Session& session, QWidget* parent)
    : QWidget(parent), session_{session}, sum_{new QLabel{this}}, list_{new QLabel} {
  sum_->setObjectName(QStringLiteral("knowledgeWouldChange"));
  sum_->setWordWrap(true);
  list_->setObjectName(QStringLiteral("knowledgeWouldChangeList"));
  list_->setAccessibleName(tr("What would change"));
  list_->setTextFormat(Qt::RichText);
  list_->setWordWrap(true);
  list_->setTextInteractionFlags(Qt::LinksAccessibleByKeyboard | Qt::LinksAccessibleByMouse);
  list_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
  auto* area = new QScrollArea{this};
  area->setWidgetResizable(true);
  area->setFrameShape(QFrame::NoFrame);
  area->setWidget(list_);
  area->setFixedHeight(grown(kListHeight));
  area->hide();
  auto* column = new QVBoxLayout{this};
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid / 2);
  column->addWidget(sum_);
  column->addWidget(area);
  connect(list_, &QLabel::linkActivated, this,
          [this](const QString& link) { emit wantsMachine(MachineId{link.toLongLong()}); });
}

void WouldChangeView::say(const QString& sentence) {
  ++turn_;
  is_working_ = false;
  worker_.run([](const LatestTask::IsStale&) {});
  asked_ = {};
  sum_->setText(sentence);
  clearList();
}

void WouldChangeView::clearList() {
  list_->clear();
  list_->parentWidget()->parentWidget()->hide();
}

void WouldChangeView::ask(const std::string& section, const std::string& entry, const std::string& text) {
  const auto shop = session_.shop();
  const auto books = session_.books();
  const auto now = session_.planning().situation();
  const double hour = session_.planning().hourValue().value;
  const std::uint64_t turn = ++turn_;
  is_working_ = true;
  // What another entry would change says nothing of this one.
  if (std::exchange(asked_, {section, entry}) != std::pair{section, entry}) clearList();
  sum_->setText(tr("Working out what would change…"));
  worker_.run(
      [this, shop, books, now, hour, turn, section, entry, text](const LatestTask::IsStale& is_stale) {
        const auto tell = [this, turn](const Found& found, bool whole) {
          QMetaObject::invokeMethod(
              this,
              [this, turn, found, whole] {
                if (turn != turn_) return;
                is_working_ = !whole;
                showFound(found);
              },
              Qt::QueuedConnection);
        };
        Found found;
        auto made = db::knowledge_if_kept(*shop, section, entry, text);
        if (is_stale()) return;
        if (!made) {
          found.problem = std::move(made.error());
          return tell(found, true);
        }
        found.base = std::make_shared<const learning::KnowledgeBase>(*std::move(made));
        const planning::Situation then{books, found.base, now->today()};
        if (is_stale()) return;
        const auto touched = planning::machines_touched(*now, then, hour);
        found.touched = touched.size();
        if (touched.empty()) return tell(found, true);
        decision::Budget budget{.states = planning::kStatesEach};
        budget.go_on = [&](const decision::Progress&) { return !is_stale(); };
        for (const MachineId machine : touched) {
          found.plans.push_back(planning::plan_change(*now, then, machine, hour, budget));
          if (is_stale()) return;
          tell(found, found.plans.size() == touched.size());
        }
      });
}

QString WouldChangeView::line(const planning::PlanChange& plan, const learning::Knowledge& then) const {
  const Currency currency = session_.currency();
  const QString tag = QStringLiteral("<a href=\"%1\">#%2</a>")
                          .arg(number(plan.machine))
                          .arg(session_.tagOf(plan.machine).toHtmlEscaped());
  const QString before = stepWords(plan.before, session_.knowledge()->knowledge).toHtmlEscaped();
  const QString after = stepWords(plan.after, then).toHtmlEscaped();
  const bool same_step = !plan.before.problem && !plan.after.problem && plan.before.next == plan.after.next;
  QString words = same_step ? tr("%1: still %2 first").arg(tag, after)
                            : tr("%1: %2 first → %3 first").arg(tag, before, after);
  if (plan.before.problem) words = tr("%1: no plan → %2 first").arg(tag, after);
  if (plan.after.problem)
    words = tr("%1: %2 first → no plan: %3")
                .arg(tag, before, QString::fromStdString(plan.after.problem->sentence).toHtmlEscaped());
  const auto worth = [&](const planning::PlanSays& says) { return wholeMoney(says.value, currency); };
  if (!plan.before.problem && !plan.after.problem) {
    words += worth(plan.before) == worth(plan.after)
                 ? tr("; worth %1 as before").arg(worth(plan.after))
                 : tr("; worth %1 → %2").arg(worth(plan.before), worth(plan.after));
    if (same_step && plan.before.verdict != plan.after.verdict)
      words += tr("; verdict: %1 → %2")
                   .arg(QString::fromStdString(plan.before.verdict).toHtmlEscaped(),
                        QString::fromStdString(plan.after.verdict).toHtmlEscaped());
  } else if (!plan.after.problem) {
    words += tr("; worth %1").arg(worth(plan.after));
  }
  return words;
}

void WouldChangeView::showFound(const Found& found) {
  QWidget* area = list_->parentWidget()->parentWidget();
  if (found.problem) {
    sum_->setText(QString::fromStdString(found.problem->sentence));
    list_->clear();
    area->hide();
    return;
  }
  if (found.touched == 0) {
    sum_->setText(tr("What would change: no machine that waits is touched."));
    list_->clear();
    area->hide();
    return;
  }
  QStringList lines;
  for (const planning::PlanChange& plan : found.plans)
    if (plan.tells()) lines << line(plan, found.base->knowledge);
  const auto done = found.plans.size();
  QString sum =
      done < found.touched
          ? tr("What would change: %1 of %2 machines worked out…").arg(done).arg(found.touched)
      : lines.isEmpty() && found.touched == 1
          ? tr("What would change: one machine that waits is touched; its next step and worth stay.")
      : lines.isEmpty()
          ? tr("What would change: %1 machines that wait are touched; next steps and worth stay.")
                .arg(found.touched)
      : found.touched == 1
          ? tr("What would change: one machine that waits is touched.")
          : tr("What would change: %1 machines that wait are touched, %2 of them so that one sees it.")
                .arg(found.touched)
                .arg(lines.size());
  sum_->setText(sum);
  list_->setText(lines.join(QStringLiteral("<br>")));
  area->setVisible(!lines.isEmpty());
}

}  // namespace secondpull::app
