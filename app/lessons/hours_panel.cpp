#include "app/lessons/hours_panel.h"

#include <algorithm>

#include <QLocale>

#include "app/books/earning_detail.h"
#include "app/lessons/lesson_words.h"
#include "app/parts/figure_words.h"
#include "app/parts/form.h"
#include "app/planning/planning.h"
#include "core/learning/units.h"
#include "core/lessons/hour_worth.h"

namespace secondpull::app {
namespace {

using lessons::Differs;
using lessons::Flow;
using lessons::TimeOfWork;

enum View { kWork, kFlow };
constexpr int kMonthsShown = 12;

QString textOf(std::string_view text) {
  return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

QString monthName(Date day) {
  return QStringLiteral("%1 %2")
      .arg(QLocale::c().standaloneMonthName(static_cast<int>(unsigned{day.month()})).left(3))
      .arg(int{day.year()});
}

Date firstOfMonth(Date day, int months_back) {
  const auto month = day.year() / day.month() - std::chrono::months{months_back};
  return month / std::chrono::day{1};
}

}  // namespace

HoursPanel::HoursPanel(Session& session, QWidget* parent)
    : TablesPanel(session, QStringLiteral("hours"), tr("Hours"), parent),
      ahead_{figureNamed(tr("The next hour is worth"), "hoursAhead")},
      paid_{figureNamed(tr("An hour has paid"), "hoursPaid")},
      all_{figureNamed(tr("With the hours for the shop"), "hoursAll")},
      said_{figureNamed(tr("You say"), "hoursSaid")} {
  using std::optional;
  work_ = addView<TimeOfWork>(
      tr("kinds of work"), tr("Where the hours of machines that have gone went"), QStringLiteral("hoursWork"),
      {wordColumn<TimeOfWork>("work", tr("Work"),
                              [](const TimeOfWork& row) { return textOf(word(row.work)); }),
       figureColumn<TimeOfWork>(
           "hours", tr("Hours"),
           [](const TimeOfWork& row) { return optional{static_cast<double>(row.minutes.count)}; }, minutesOf),
       figureColumn<TimeOfWork>(
           "part", tr("Part"),
           [this](const TimeOfWork& row) {
             return spent_.count > 0
                        ? optional{static_cast<double>(row.minutes.count) / static_cast<double>(spent_.count)}
                        : std::nullopt;
           },
           percent),
       figureColumn<TimeOfWork>(
           "each", tr("A machine"),
           [this](const TimeOfWork& row) {
             return gone_ > 0 ? optional{static_cast<double>(row.minutes.count) / static_cast<double>(gone_)}
                              : std::nullopt;
           },
           minutesOf),
       countColumn<TimeOfWork>("machines", tr("On machines"), [](const TimeOfWork& row) {
         return static_cast<std::int64_t>(row.machines);
       })});
  TableColumn<Month> month =
      wordColumn<Month>("month", tr("Month"), [](const Month& row) { return monthName(row.flow.from); });
  month.sort = [](const Month& row) { return QVariant{QString::fromStdString(iso(row.flow.from))}; };
  flow_ = addView<Month>(
      tr("coming and going"), tr("Machines in and out by month"), QStringLiteral("hoursFlow"),
      {month,
       countColumn<Month>("came", tr("Came in"),
                          [](const Month& row) { return static_cast<std::int64_t>(row.flow.came); }),
       countColumn<Month>("left", tr("Left"),
                          [](const Month& row) { return static_cast<std::int64_t>(row.flow.left); }),
       figureColumn<Month>(
           "here", tr("Here on average"), [](const Month& row) { return optional{row.flow.in_work()}; },
           numberOf),
       countColumn<Month>("after", tr("Here at its end"),
                          [](const Month& row) { return static_cast<std::int64_t>(row.flow.here_after); }),
       figureColumn<Month>(
           "through", tr("Those that left took"),
           [](const Month& row) {
             return row.flow.left > 0 ? optional{row.flow.days_through.mean} : std::nullopt;
           },
           daysOf)});
  table(kFlow)->sortBy(QStringLiteral("month"), Qt::DescendingOrder);
  connect(&session.planning(), &Planning::hourValueChanged, this, &HoursPanel::showFigures);
  layOut({ahead_, paid_, all_, said_},
         tr("What an hour is worth, where the hours go and how long machines take to go through stands here "
            "once there is one."),
         tr("Log a machine"), tr("Yard"));
}

void HoursPanel::refresh() {
  const auto books = session().books();
  const lessons::TimeSpent spent = lessons::time_spent(*books);
  gone_ = spent.machines;
  spent_ = spent.minutes;
  const auto all = lessons::stays(books->by_machine(), *session().shop());
  setEmpty(all.empty());
  work_->setRows(spent.by_work);

  const Date today = session().today();
  Date first = today;
  for (const lessons::Stay& stay : all)
    first = std::min(first, stay.came);
  std::vector<Month> months;
  for (int back = 0; back < kMonthsShown; ++back) {
    const Date from = firstOfMonth(today, back);
    const Date to = std::min(today, plus_days(firstOfMonth(today, back - 1), -1));
    if (to < first) break;
    months.push_back({lessons::flow(all, std::max(from, first), to)});
  }
  constexpr int kYear = 365;
  const Flow year = lessons::flow(all, std::max(first, plus_days(today, 1 - kYear)), today);
  flow_->setRows(months);
  showFigures();
  say(kWork, ofWork(spent));
  say(kFlow, ofFlow(months, year, lessons::waits(books->by_machine(), *session().shop())));
}

void HoursPanel::showFigures() {
  using From = planning::HourValue::From;
  const auto worth = lessons::hour_worth(*session().books(), session().planning().hourValue());
  const bool known = worth.ahead.from != From::unknown;
  ahead_->setFigure(known ? moneyOf(session(), worth.ahead.value) : session().money(std::optional<Money>{}),
                    worth.ahead.from == From::computed
                        ? tr("What one more hour would earn over the next weeks, given the hours there are "
                             "and the machines that "
                             "wait: the shadow price of an hour. Plans count with it.")
                    : worth.ahead.from == From::said
                        ? tr("As you say in the settings. Plans count with it.")
                        : tr("The hours that there are can be neither read nor guessed: say in the "
                             "settings how many a week, or what an hour is worth."));
  paid_->setFigure(
      session().money(worth.so_far.pay_per_hour),
      tr("%1 The %2 that have a profit.")
          .arg(perHourInWords(session(), worth.so_far.profit, worth.so_far.minutes) + QLatin1Char('.'),
               countOf(worth.so_far.machines, "machine", "machines")));
  all_->setFigure(
      session().money(worth.with_the_shop),
      tr("%1 With %2 that were logged on no machine.")
          .arg(perHourInWords(session(), worth.so_far.profit, worth.so_far.minutes + worth.shop_in_general) +
                   QLatin1Char('.'),
               QString::fromStdString(shown(worth.shop_in_general))));
  said_->setFigure(
      session().money(worth.said),
      worth.said ? QString{} : tr("Nothing: it is worked out. The settings have a place for it."));
}

LessonSays HoursPanel::ofWork(const lessons::TimeSpent& spent) const {
  LessonSays says;
  says.chart.title = tr("Hours by kind of work, on all machines that have gone.");
  says.chart.axis = tr("hours");
  for (std::size_t at = 0; at < spent.by_work.size(); ++at) {
    const TimeOfWork& work = spent.by_work[at];
    says.chart.rows.push_back({.name = textOf(word(work.work)),
                               .label = QString::fromStdString(shown(work.minutes)),
                               .figure = static_cast<double>(work.minutes.count) / learning::kMinutesOfHour,
                               .bar = true});
    says.chart_rows.push_back(static_cast<int>(at));
  }
  if (spent.machines == 0 || spent.by_work.empty()) {
    says.sentence = tr("Where the hours of a machine go stands here once one with hours has left.");
    return says;
  }
  const TimeOfWork& most = spent.by_work.front();
  says.sentence =
      tr("A machine takes you %1, from coming in to leaving; most of it goes to: %2 (%3).")
          .arg(minutesOf(spent.each.mean), textOf(word(most.work)),
               percent(static_cast<double>(most.minutes.count) / static_cast<double>(spent.minutes.count)));
  const auto range = spent.each.interval();
  says.why =
      tr("The mean over %1 that have left, with their share of fetching a lot; from one to the next %2 more "
         "or less "
         "(standard deviation)%3. Besides, %4 were logged on no machine.")
          .arg(countOf(spent.machines, "machine", "machines"), minutesOf(spent.each.deviation),
               range ? tr("; t-interval of 80 %: %1 to %2").arg(minutesOf(range->low), minutesOf(range->high))
                     : QString{},
               QString::fromStdString(shown(spent.shop_in_general)));
  return says;
}

LessonSays HoursPanel::ofFlow(const std::vector<Month>& months, const Flow& year,
                              const lessons::Waits& waits) const {
  LessonSays says;
  says.chart.title = tr("Bar: machines that left. Diamond: machines that came in.");
  says.chart.axis = tr("machines");
  for (std::size_t at = 0; at < months.size(); ++at) {
    const Flow& flow = months[at].flow;
    says.chart.rows.push_back({.name = monthName(flow.from),
                               .label = tr("%1 left, %2 came").arg(flow.left).arg(flow.came),
                               .figure = static_cast<double>(flow.left),
                               .beside = static_cast<double>(flow.came),
                               .bar = true});
    says.chart_rows.push_back(static_cast<int>(at));
  }
  if (year.left == 0) {
    says.sentence = tr("%1 on the place; how long they take to go through stands here once one has left.")
                        .arg(countOf(year.here_after, "machine is", "machines are"));
    return says;
  }
  const double through = lessons::months_through(static_cast<double>(year.here_after), year.left_a_month()) *
                         lessons::kDaysAMonth;
  says.sentence = tr("%1 on the place and about %2 a month leave: at that pace one that comes in today "
                     "leaves in about %3.")
                      .arg(countOf(year.here_after, "machine is", "machines are"),
                           numberOf(year.left_a_month()), daysOf(std::round(through)));
  if (lessons::grows(year) == Differs::higher)
    says.to_do =
        tr("More come in (%1) than leave (%2): finish what is here before buying, or each takes longer.")
            .arg(year.came)
            .arg(year.left);
  else if (lessons::grows(year) == Differs::lower)
    says.to_do =
        tr("More leave (%1) than come in (%2): buy, or the bench runs dry.").arg(year.left).arg(year.came);
  QString why =
      tr("Little's law: what is here = what goes through a month × months each takes. From %1 to today %2 "
         "came in and %3 left; on average %4 were here. Those that left had taken %5.")
          .arg(QString::fromStdString(shown(year.from)))
          .arg(year.came)
          .arg(year.left)
          .arg(numberOf(year.in_work()), daysOf(std::round(year.days_through.mean)));
  if (waits.sale.count > 0)
    why += QLatin1Char(' ') +
           tr("Of the %1 that came once and were sold from a listing: %2 before the first work, %3 on the "
              "bench, %4 for sale.")
               .arg(waits.sale.count)
               .arg(daysOf(std::round(waits.yard.mean)), daysOf(std::round(waits.bench.mean)),
                    daysOf(std::round(waits.sale.mean)));
  says.why = why;
  return says;
}

}  // namespace secondpull::app
