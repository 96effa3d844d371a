#include "app/bench/verdict_band.h"

#include <algorithm>
#include <cmath>

#include <QHBoxLayout>
#include <QPainter>
#include <QVBoxLayout>

#include "app/bench/chances_view.h"
#include "app/bench/step_words.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "core/learning/stops.h"
#include "core/learning/units.h"
#include "core/planning/names.h"
#include "core/planning/stop_if.h"

namespace secondpull::app {
namespace {

using decision::Move;

constexpr int kNameWidth = 15 * kGrid;
constexpr int kFigureWidth = 9 * kGrid;
constexpr int kRangeWidth = 20 * kGrid;
constexpr int kMostStops = 2;

QString endingName(const std::string& stop) {
  if (stop == learning::kSellAsIs) return VerdictBand::tr("Sell as is");
  if (stop == learning::kPartOut) return VerdictBand::tr("Part out");
  if (stop == learning::kScrap) return VerdictBand::tr("Scrap");
  return QString::fromStdString(stop);
}

/// Worth of a stop in money under today's belief.
double cashOf(const diagnosis::Stop& stop, const diagnosis::Case& of, const std::vector<double>& belief) {
  double cash = 0;
  for (std::size_t i = 0; i < of.causes.size(); ++i) {
    double value = stop.value;
    for (const auto& [cause, instead] : stop.value_by_cause)
      if (cause == of.causes[i].id) value = instead;
    cash += belief[i] * value;
  }
  return cash;
}

EndingLines::Line lineOf(const QString& name, double cash, double hours, const Currency& currency) {
  EndingLines::Line line{.name = name, .brings = wholeMoney(cash, currency), .hours = hoursWords(hours)};
  line.per_hour =
      hours > 0 ? VerdictBand::tr("%1 an hour").arg(wholeMoney(cash / hours, currency)) : QString{};
  line.low = line.middle = line.high = cash;
  return line;
}

}  // namespace

EndingLines::EndingLines(QWidget* parent) : QWidget(parent) {
  setObjectName(QStringLiteral("verdictLines"));
  setAccessibleName(tr("What each ending would bring"));
  setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

void EndingLines::setLines(std::vector<Line> lines) {
  if (lines == lines_) return;
  lines_ = std::move(lines);
  QStringList words;
  for (const Line& line : lines_)
    words << QStringLiteral("%1: %2, %3, %4").arg(line.name, line.brings, line.hours, line.per_hour);
  setAccessibleDescription(words.join(QStringLiteral("; ")));
  updateGeometry();
  update();
}

int EndingLines::lineHeight() const {
  return fontMetrics().height() + kGrid / 2;
}

QSize EndingLines::sizeHint() const {
  return {grown(kNameWidth + 4 * kFigureWidth + kRangeWidth), lineHeight() * static_cast<int>(lines_.size())};
}

QSize EndingLines::minimumSizeHint() const {
  return sizeHint();
}

void EndingLines::paintEvent(QPaintEvent*) {
  if (lines_.empty()) return;
  const Look& now = look();
  QPainter painter{this};
  painter.setRenderHint(QPainter::Antialiasing);
  double least = 0, most = 1;
  for (const Line& line : lines_) {
    least = std::min(least, line.low);
    most = std::max(most, line.high);
  }
  const int name_width = grown(kNameWidth), figure_width = grown(kFigureWidth);
  const int range_left = name_width + 4 * figure_width + 2 * kGrid;
  const int range_width = width() - range_left - kGrid;
  const auto place = [&](double money) {
    return range_left + (money - least) / (most - least) * range_width;
  };
  painter.setPen(QPen{now.line, 1.0});
  painter.drawLine(QPointF{place(0), 0}, QPointF{place(0), static_cast<qreal>(height())});
  QFont bold = font();
  bold.setBold(true);
  int top = 0;
  for (const Line& line : lines_) {
    painter.setFont(line.chosen ? bold : font());
    painter.setPen(now.ink);
    const auto cell = [&](int left, int cell_width, Qt::Alignment side, const QString& words) {
      painter.drawText(QRect{left, top, cell_width, lineHeight()}, static_cast<int>(Qt::AlignVCenter | side),
                       words);
    };
    cell(0, name_width, Qt::AlignLeft,
         line.chosen ? QStringLiteral("▸ ") + line.name : QStringLiteral("   ") + line.name);
    cell(name_width, figure_width, Qt::AlignRight, line.brings);
    cell(name_width + figure_width, figure_width, Qt::AlignRight, line.hours);
    cell(name_width + 2 * figure_width, 2 * figure_width, Qt::AlignRight, line.per_hour);
    const double middle = top + lineHeight() / 2.0;
    painter.setPen(QPen{now.accent, 3.0, Qt::SolidLine, Qt::RoundCap});
    if (line.high > line.low)
      painter.drawLine(QPointF{place(line.low), middle}, QPointF{place(line.high), middle});
    painter.setPen(Qt::NoPen);
    painter.setBrush(line.chosen ? now.accent : now.faded);
    painter.drawEllipse(QPointF{place(line.middle), middle}, 4, 4);
    top += lineHeight();
  }
}

VerdictBand::VerdictBand(Session& session, QWidget* parent)
    : BenchPanel(session, parent),
      says_{new QLabel(this)},
      stop_{faded({}, this)},
      sunk_{faded({}, this)},
      lines_{new EndingLines(this)} {
  says_->setObjectName(QStringLiteral("verdictSays"));
  stop_->setObjectName(QStringLiteral("verdictStop"));
  sunk_->setObjectName(QStringLiteral("verdictSunk"));
  setRank(says_, "subheading");
  for (QLabel* label : {says_, stop_, sunk_})
    label->setWordWrap(true);
  auto* words = new QVBoxLayout;
  words->setSpacing(2);
  for (QLabel* label : {says_, stop_, sunk_})
    words->addWidget(label);
  words->addStretch(1);
  auto* inner = new QWidget(this);
  inner->setMaximumWidth(grown(kWidestCard * kGrid));
  auto* outer = new QHBoxLayout(this);
  outer->setContentsMargins(0, 0, 0, 0);
  outer->addWidget(inner);
  auto* row = new QHBoxLayout(inner);
  row->setContentsMargins(3 * kGrid, kGrid, 3 * kGrid, kGrid);
  row->setSpacing(3 * kGrid);
  row->addWidget(lines_, 0, Qt::AlignTop);
  row->addLayout(words, 1);
}

void VerdictBand::refresh() {}

void VerdictBand::showPlan(const MachinePlan& plan) {
  setVisible(plan.answer != nullptr);
  if (plan.answer == nullptr) return;
  const decision::Answer& answer = *plan.answer;
  const diagnosis::Case& of = plan.asked->of;
  const Currency& currency = session().currency();
  const auto base = session().knowledge();
  const bool goes_on = answer.next.kind != Move::Kind::stop;

  std::vector<EndingLines::Line> lines;
  if (goes_on) {
    EndingLines::Line revive = lineOf(tr("Revive"), answer.expected.cash, answer.expected.hours, currency);
    revive.low = answer.profit.p10 + of.sunk.cash;
    revive.middle = answer.profit.p50 + of.sunk.cash;
    revive.high = answer.profit.p90 + of.sunk.cash;
    revive.chosen = true;
    lines.push_back(revive);
  }
  for (const diagnosis::Stop& stop : of.stops) {
    lines.push_back(lineOf(endingName(stop.id), cashOf(stop, of, answer.posterior), stop.hours, currency));
    lines.back().chosen = !goes_on && stop.id == answer.next.id;
  }
  lines_->setLines(std::move(lines));

  if (goes_on) {
    QString says = tr("Go on: worth %1 more than %2 now. It runs in the end with a chance of %3.")
                       .arg(wholeMoney(answer.gain, currency), endingName(answer.stop_now.id).toLower(),
                            percent(answer.expected.revived));
    if (answer.break_even_price.value)
      says += tr(" Pays from a price of %1.")
                  .arg(wholeMoney(std::ceil(*answer.break_even_price.value), currency));
    says_->setText(says);
    QStringList points;
    for (const planning::GivingUp& point : planning::stop_if(answer, of)) {
      if (points.size() == kMostStops) break;
      const QString step = QString::fromStdString(planning::called(point.after, base->knowledge));
      points << (point.outcome.empty() ? tr("\"%1\" does not help (%2)").arg(step, percent(point.chance))
                                       : tr("\"%1\" says \"%2\" (%3)")
                                             .arg(step,
                                                  QString::fromStdString(planning::called_outcome(
                                                      point.after.id, point.outcome, base->knowledge)),
                                                  percent(point.chance)));
    }
    stop_->setText(points.isEmpty() ? QString{} : tr("Stop if %1.").arg(points.join(tr(", or if "))));
  } else {
    says_->setText(
        tr("Stop: %1. Going on would cost more than it brings.").arg(endingName(answer.next.id).toLower()));
    stop_->setText(answer.break_even_price.value
                       ? tr("Going on pays from a price of %1; %2 is expected.")
                             .arg(wholeMoney(std::ceil(*answer.break_even_price.value), currency),
                                  wholeMoney(of.revived.price, currency))
                       : QString{});
  }
  stop_->setVisible(!stop_->text().isEmpty());
  QString sunk = tr("Already in it: %1 and %2. It is spent either way and does not count.")
                     .arg(wholeMoney(of.sunk.cash, currency), hoursWords(of.sunk.hours));
  if (answer.gap > 0)
    sunk += plan.refined ? tr(" No plan is worth more than %1 above this one.")
                               .arg(wholeMoney(std::ceil(answer.gap), currency))
                         : tr(" A plan up to %1 better is still being looked for.")
                               .arg(wholeMoney(std::ceil(answer.gap), currency));
  sunk_->setText(sunk);
  fit();
}

bool VerdictBand::event(QEvent* event) {
  const bool handled = BenchPanel::event(event);
  if (event->type() == QEvent::LayoutRequest) fit();
  return handled;
}

void VerdictBand::resizeEvent(QResizeEvent* event) {
  BenchPanel::resizeEvent(event);
  fit();
}

/// As high as its words are at this width: the card above would take what they need.
void VerdictBand::fit() {
  // What is inside tells of new words only once it is laid out anew.
  for (QWidget* inner : findChildren<QWidget*>(QString{}, Qt::FindDirectChildrenOnly))
    if (inner->layout() != nullptr) inner->layout()->activate();
  layout()->invalidate();
  const int wanted = layout()->heightForWidth(width());
  if (wanted > 0 && wanted != height()) setFixedHeight(wanted);
}

void VerdictBand::paintEvent(QPaintEvent*) {
  QPainter painter{this};
  painter.fillRect(rect(), look().card);
  painter.fillRect(0, 0, width(), 1, look().line);
}

}  // namespace secondpull::app
