#include "app/lessons/forecasts_panel.h"

#include <algorithm>

#include "app/lessons/lesson_words.h"
#include "core/learning/knowledge_base.h"

namespace secondpull::app {
namespace {

using lessons::Differs;
using lessons::ForecastOutcome;
using lessons::Tenth;

enum View { kRuns, kCauses, kFigures, kMachines };

QString nameOf(const Tenth& tenth) {
  return ForecastsPanel::tr("%1–%2 %").arg(tenth.from * 10).arg(tenth.from * 10 + 10);
}

std::vector<TableColumn<Tenth>> tenthColumns(const QString& came) {
  using std::optional;
  TableColumn<Tenth> name =
      wordColumn<Tenth>("said", ForecastsPanel::tr("Said"), [](const Tenth& row) { return nameOf(row); });
  name.sort = [](const Tenth& row) { return QVariant{row.from}; };
  return {name,
          countColumn<Tenth>("times", ForecastsPanel::tr("Times"),
                             [](const Tenth& row) { return row.seen.tried; }),
          figureColumn<Tenth>(
              "mean", ForecastsPanel::tr("Said on average"),
              [](const Tenth& row) { return optional{row.said}; }, percent),
          countColumn<Tenth>("came", came, [](const Tenth& row) { return row.seen.cured; }),
          figureColumn<Tenth>(
              "share", ForecastsPanel::tr("That is"), [](const Tenth& row) { return optional{row.share()}; },
              percent),
          rangeColumn<Tenth>(
              "range", ForecastsPanel::tr("80 % range"), [](const Tenth& row) { return optional{row.range}; },
              percentRange, [](const Tenth&) { return ForecastsPanel::tr("Jeffreys interval of 80 %."); })};
}

RangeChartOf tenthsChart(const std::vector<Tenth>& tenths, std::vector<int>& rows) {
  RangeChartOf chart{
      .title = ForecastsPanel::tr(
          "Dot: how often it came true; the line holds it 4 times in 5. Diamond: what was said. "
          "Where the diamond stands on the line, the chances held."),
      .axis = ForecastsPanel::tr("came true, of 100"),
      .tick = [](double part) { return QString::number(std::lround(part * 100)); },
      .least = 0,
      .most = 1};
  for (std::size_t at = 0; at < tenths.size(); ++at) {
    const Tenth& tenth = tenths[at];
    chart.rows.push_back({.name = ForecastsPanel::tr("said %1").arg(nameOf(tenth)),
                          .label = ForecastsPanel::tr("%1 of %2").arg(tenth.seen.cured).arg(tenth.seen.tried),
                          .figure = tenth.share(),
                          .low = tenth.range.low,
                          .high = tenth.range.high,
                          .beside = tenth.said});
    rows.push_back(static_cast<int>(at));
  }
  return chart;
}

/// The score, in words that say what it is.
QString scoreInWords(const lessons::Reliability& held) {
  return ForecastsPanel::tr(
             "Brier score %1: the mean square between chance and outcome, 0 at best; saying %2 every time "
             "would score %3.")
      .arg(held.brier, 0, 'f', 3)
      .arg(percent(static_cast<double>(held.all.cured) / static_cast<double>(held.all.tried)))
      .arg(held.brier_of_the_share, 0, 'f', 3);
}

QString notEnough(std::int64_t count) {
  return ForecastsPanel::tr("Not enough yet: %1 settled. From %2 on this says whether the chances hold.")
      .arg(countOf(static_cast<std::size_t>(count), "forecast is", "forecasts are"))
      .arg(lessons::kLeastCases);
}

QString wordOf(const std::optional<lessons::Said>& said) {
  return !said ? QString{QChar{0x2014}} : said->came ? ForecastsPanel::tr("yes") : ForecastsPanel::tr("no");
}

template <class Pick>
std::function<std::optional<double>(const ForecastOutcome&)> figure(
    std::optional<lessons::Foretold> ForecastOutcome::*of, Pick pick) {
  return [of, pick](const ForecastOutcome& row) -> std::optional<double> {
    const auto& foretold = row.*of;
    return foretold ? std::optional{(*foretold).*pick} : std::nullopt;
  };
}

}  // namespace

ForecastsPanel::ForecastsPanel(Session& session, QWidget* parent)
    : TablesPanel(session, QStringLiteral("forecasts"), tr("Forecasts"), parent) {
  using std::optional;
  const Session* of = &session;
  const auto money = [of](double amount) { return moneyOf(*of, amount); };
  runs_ = addView<Tenth>(tr("will it run"), tr("How often machines ran, by the chance that was said"),
                         QStringLiteral("forecastsRuns"), tenthColumns(tr("Ran")));
  causes_ =
      addView<Tenth>(tr("which cause"), tr("How often a cause was the one, by the chance that was said"),
                     QStringLiteral("forecastsCauses"), tenthColumns(tr("Was it")));
  figures_ = addView<Figure>(
      tr("money and hours"), tr("Money, hours and days that were said, against those that came"),
      QStringLiteral("forecastsFigures"),
      {wordColumn<Figure>("figure", tr("To come"), [](const Figure& row) { return row.name; }),
       countColumn<Figure>("machines", tr("Machines"),
                           [](const Figure& row) { return static_cast<std::int64_t>(row.off.off.count); }),
       wordColumn<Figure>("said", tr("Said"), [](const Figure& row) { return row.text(row.off.said); }),
       wordColumn<Figure>("came", tr("Came"), [](const Figure& row) { return row.text(row.off.came); }),
       wordColumn<Figure>("bias", tr("Off by"), [](const Figure& row) { return row.text(row.off.off.mean); }),
       wordColumn<Figure>("range", tr("Which is between"),
                          [](const Figure& row) {
                            const auto range = row.off.off.interval();
                            return range ? tr("%1 and %2").arg(row.text(range->low), row.text(range->high))
                                         : QString{QChar{0x2014}};
                          }),
       wordColumn<Figure>("spread", tr("One by one, ±"),
                          [](const Figure& row) { return row.text(row.off.off.deviation); }),
       wordColumn<Figure>("differs", tr("So"), [](const Figure& row) {
         return differsInWords(row.off.differs, tr("said too much"), tr("said too little"));
       })});
  TableColumn<ForecastOutcome> date =
      wordColumn<ForecastOutcome>("date", tr("Work began"), [of](const ForecastOutcome& row) {
        return QString::fromStdString(shown_short(row.date, of->today()));
      });
  date.sort = [](const ForecastOutcome& row) { return QVariant{QString::fromStdString(iso(row.date))}; };
  machines_ = addView<ForecastOutcome>(
      tr("one by one"), tr("Each forecast and what came of it"), QStringLiteral("forecastsMachines"),
      {wordColumn<ForecastOutcome>("tag", tr("Machine"),
                                   [of](const ForecastOutcome& row) {
                                     return QStringLiteral("#%1 %2").arg(of->tagOf(row.machine),
                                                                         of->nameOf(row.machine));
                                   }),
       date,
       figureColumn<ForecastOutcome>(
           "chance", tr("To run"),
           [](const ForecastOutcome& row) {
             return row.revived ? optional{row.revived->chance} : std::nullopt;
           },
           percent),
       wordColumn<ForecastOutcome>("ran", tr("Ran"),
                                   [](const ForecastOutcome& row) { return wordOf(row.revived); }),
       figureColumn<ForecastOutcome>("said_money", tr("Money said"),
                                     figure(&ForecastOutcome::money, &lessons::Foretold::said), money),
       figureColumn<ForecastOutcome>("money", tr("Money came"),
                                     figure(&ForecastOutcome::money, &lessons::Foretold::came), money),
       figureColumn<ForecastOutcome>("said_hours", tr("Hours said"),
                                     figure(&ForecastOutcome::hours, &lessons::Foretold::said), hoursOf),
       figureColumn<ForecastOutcome>("hours", tr("Hours came"),
                                     figure(&ForecastOutcome::hours, &lessons::Foretold::came), hoursOf)});
  connect(table(kMachines), &DataTable::opened, this,
          [this](int row) { emit wantsMachine(machines_->row(row).machine); });
  layOut({},
         tr("What a plan promised when work began, beside what came, stands here. It is kept with the first "
            "step on "
            "the Bench that follows a plan."),
         tr("Open the Bench"), tr("Bench"));
}

void ForecastsPanel::refresh() {
  const auto outcomes = lessons::forecast_outcomes(*session().books(), session().knowledge()->knowledge);
  const lessons::ForecastsHeld held = lessons::forecasts_held(outcomes);
  const Session* of = &session();
  setEmpty(outcomes.empty());
  runs_->setRows(held.revived.tenths);
  causes_->setRows(held.causes.tenths);
  figures_->setRows({{tr("money"), held.money, [of](double amount) { return moneyOf(*of, amount); }},
                     {tr("hours"), held.hours, hoursOf},
                     {tr("days"), held.days, daysOf}});
  machines_->setRows(outcomes);
  say(kRuns, ofRuns(held));
  say(kCauses, ofCauses(held));
  say(kFigures, ofFigures(held));
  say(kMachines, ofMachines(held));
}

LessonSays ForecastsPanel::ofRuns(const lessons::ForecastsHeld& held) const {
  LessonSays says;
  says.chart = tenthsChart(held.revived.tenths, says.chart_rows);
  const auto n = held.revived.all.tried;
  if (n < static_cast<std::int64_t>(lessons::kLeastCases)) {
    says.sentence = notEnough(n);
    return says;
  }
  says.sentence = tr("Said to run: %1 of %2, all chances added up; %3 ran.")
                      .arg(numberOf(held.revived.said * static_cast<double>(n)))
                      .arg(n)
                      .arg(held.revived.all.cured);
  if (held.revived.differs == Differs::lower)
    says.to_do =
        tr("The chances are too hopeful: take machines that just pay by the plan for ones that do not.");
  else if (held.revived.differs == Differs::higher)
    says.to_do = tr("The chances are too gloomy: machines that just do not pay by the plan are worth a try.");
  else
    says.to_do = tr("That is within what such chances bring.");
  says.why =
      tr("Were the chances right, between %1 and %2 would run 4 times in 5 (the sum of unlike coins, "
         "Poisson's "
         "binomial). They are said to be off when what ran lies outside of its middle 95 %. %3 A machine ran "
         "when its fault ended mended; given up, or gone with the fault open and not sold running, it did "
         "not.")
          .arg(numberOf(held.revived.least_expected), numberOf(held.revived.most_expected),
               scoreInWords(held.revived));
  return says;
}

LessonSays ForecastsPanel::ofCauses(const lessons::ForecastsHeld& held) const {
  LessonSays says;
  says.chart = tenthsChart(held.causes.tenths, says.chart_rows);
  const auto n = held.likeliest.all.tried;
  if (n < static_cast<std::int64_t>(lessons::kLeastCases)) {
    says.sentence = notEnough(n);
    return says;
  }
  says.sentence = tr("The likeliest cause was the one %1 of %2 times; by its chances it should have been %3.")
                      .arg(held.likeliest.all.cured)
                      .arg(n)
                      .arg(numberOf(held.likeliest.said * static_cast<double>(n)));
  if (held.likeliest.differs == Differs::lower)
    says.to_do = tr("It is trusted too much: a test before the repair pays more often than the plan says.");
  else if (held.likeliest.differs == Differs::higher)
    says.to_do = tr("It can be trusted more: a test before the repair pays less often than the plan says.");
  says.why =
      tr("The table has every cause of every forecast whose fault ended with a named cause; one that was not "
         "among them counts as not on the list. Of each forecast exactly one comes true, so the tenths are "
         "not "
         "apart from each other. %1")
          .arg(scoreInWords(held.causes));
  return says;
}

LessonSays ForecastsPanel::ofFigures(const lessons::ForecastsHeld& held) const {
  LessonSays says;
  const auto n = held.money.off.count;
  if (n < lessons::kLeastCases) {
    says.sentence = notEnough(static_cast<std::int64_t>(n));
    return says;
  }
  says.sentence = tr("On average %1 was said to come and %2 came; %3 were said and %4 worked.")
                      .arg(moneyOf(session(), held.money.said), moneyOf(session(), held.money.came),
                           hoursOf(held.hours.said), hoursOf(held.hours.came));
  QStringList to_do;
  if (held.money.differs == Differs::lower)
    to_do << tr("Money is said too high: ask more of a machine before buying it.");
  if (held.money.differs == Differs::higher)
    to_do << tr("Money is said too low: you can pay more for a machine.");
  if (held.hours.differs == Differs::higher)
    to_do << tr("Hours are said too few: time your steps, and plans learn it.");
  if (held.hours.differs == Differs::lower)
    to_do << tr("Hours are said too many: time your steps, and plans learn it.");
  says.to_do = to_do.join(QLatin1Char(' '));
  says.why =
      tr("Of %1 machines sold or scrapped. Money that came is what was left of the price, less what was "
         "spent from "
         "that day on; what had been spent before does not count, nor do trips and the shop's costs. It lay "
         "between the said tenth and ninetieth percent %2 times, which is %3 (range of 80 %: %4); it should "
         "be 80 %. "
         "Off by: the mean of what came less what was said (bias), its t-interval of 80 %, and the standard "
         "deviation "
         "from one to the next. It is said to be off when the interval of 95 % does not hold 0.")
          .arg(n)
          .arg(held.within.cured)
          .arg(percent(static_cast<double>(held.within.cured) / static_cast<double>(held.within.tried)))
          .arg(percentRange(held.within_range));
  return says;
}

LessonSays ForecastsPanel::ofMachines(const lessons::ForecastsHeld& held) const {
  return {
      .sentence =
          tr("%1 kept, %2 settled.").arg(countOf(held.made, "forecast", "forecasts")).arg(held.settled),
      .why = tr(
          "A forecast is settled when its fault has ended or its machine has left. While a machine is back "
          "from "
          "its buyer it is open again; what a comeback costs counts as it comes. Of one parted out or kept "
          "there is no money to hold against it.")};
}

}  // namespace secondpull::app
