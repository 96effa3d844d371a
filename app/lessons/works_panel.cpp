#include "app/lessons/works_panel.h"

#include <algorithm>

#include "app/lessons/lesson_words.h"
#include "app/planning/planning.h"
#include "core/learning/knowledge_base.h"

namespace secondpull::app {
namespace {

using learning::Knowledge;
using lessons::Differs;

constexpr double kShownAlways = 0.05;  ///< a cause this likely is listed though it was never confirmed

enum View { kRepairs, kCauses, kMinutes };

QString text(const std::string& from) {
  return QString::fromStdString(from);
}

template <class Entry>
QString nameOf(const Entry* entry, const std::string& id) {
  return entry != nullptr ? text(entry->name) : text(id);
}

QString causeName(const Knowledge& knowledge, const std::string& id) {
  if (id.empty()) return {};
  if (id == learning::kUnlisted) return WorksPanel::tr("something not on the list");
  return nameOf(knowledge.cause(id), id);
}

QString stepName(const Knowledge& knowledge, const std::string& id) {
  if (const auto* test = knowledge.test(id)) return text(test->name);
  if (const auto* repair = knowledge.repair(id)) return text(repair->name);
  return nameOf(knowledge.piece_of_work(id), id);
}

QString quoted(const QString& name) {
  return QStringLiteral("“%1”").arg(name);
}

QString againstUsual(Differs differs) {
  return differsInWords(differs, WorksPanel::tr("less often"), WorksPanel::tr("more often"));
}

/// The first row that differs, else nothing.
template <class Row, class Of>
const Row* firstThatDiffers(const std::vector<Row>& rows, Of of) {
  const auto at =
      std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return of(row) != Differs::no; });
  return at == rows.end() ? nullptr : &*at;
}

}  // namespace

WorksPanel::WorksPanel(Session& session, QWidget* parent)
    : TablesPanel(session, QStringLiteral("works"), tr("What works"), parent) {
  using std::optional;
  repairs_ = addView<Repair>(
      tr("repairs"), tr("How often each repair mends"), QStringLiteral("worksRepairs"),
      {wordColumn<Repair>("repair", tr("Repair"), [](const Repair& row) { return row.name; }),
       wordColumn<Repair>("cause", tr("Tried on"),
                          [](const Repair& row) { return row.cause.isEmpty() ? tr("all") : row.cause; }),
       countColumn<Repair>("tried", tr("Tried"), [](const Repair& row) { return row.rate.own.tried; }),
       countColumn<Repair>("mended", tr("Mended"), [](const Repair& row) { return row.rate.own.cured; }),
       figureColumn<Repair>(
           "here", tr("Here"), [](const Repair& row) { return optional{row.rate.share()}; }, percent),
       figureColumn<Repair>(
           "usually", tr("Usually"), [](const Repair& row) { return row.rate.usually; }, percent),
       figureColumn<Repair>(
           "now", tr("Plans say"), [](const Repair& row) { return optional{row.rate.now.mean()}; }, percent,
           [](const Repair& row) {
             return tr("Own tries added to what is usual: Beta(%1, %2), whose middle four fifths are the "
                       "range beside it.")
                 .arg(row.rate.now.a, 0, 'g', 3)
                 .arg(row.rate.now.b, 0, 'g', 3);
           }),
       rangeColumn<Repair>(
           "range", tr("80 % range"), [](const Repair& row) { return optional{row.rate.range()}; },
           percentRange),
       wordColumn<Repair>("differs", tr("Than usual"),
                          [](const Repair& row) { return againstUsual(row.rate.differs); })});
  causes_ = addView<Cause>(
      tr("causes"), tr("What was behind each symptom"), QStringLiteral("worksCauses"),
      {wordColumn<Cause>("symptom", tr("Symptom"), [](const Cause& row) { return row.symptom; }),
       wordColumn<Cause>("cause", tr("Cause"), [](const Cause& row) { return row.name; }),
       countColumn<Cause>("own", tr("Confirmed"), [](const Cause& row) { return row.share.own; }),
       countColumn<Cause>("cases", tr("Of"), [](const Cause& row) { return row.cases; }),
       figureColumn<Cause>(
           "usually", tr("Usually"), [](const Cause& row) { return optional{row.share.usually}; }, percent),
       figureColumn<Cause>(
           "now", tr("Plans say"), [](const Cause& row) { return optional{row.share.now}; }, percent),
       rangeColumn<Cause>(
           "range", tr("80 % range"), [](const Cause& row) { return optional{row.share.range}; },
           percentRange),
       wordColumn<Cause>("differs", tr("Than usual"),
                         [](const Cause& row) { return againstUsual(row.share.differs); })});
  steps_ = addView<Step>(
      tr("minutes"), tr("How long each step takes"), QStringLiteral("worksMinutes"),
      {wordColumn<Step>("step", tr("Step"), [](const Step& row) { return row.name; }),
       wordColumn<Step>("sort", tr("Sort"), [](const Step& row) { return row.sort; }),
       countColumn<Step>("timed", tr("Timed"),
                         [](const Step& row) { return static_cast<std::int64_t>(row.time.own.count); }),
       figureColumn<Step>(
           "own", tr("Here"), [](const Step& row) { return optional{row.time.own.mean}; }, minutesOf,
           [](const Step& row) {
             const auto range = row.time.own.interval();
             return range ? tr("The mean; from one to the next %1 more or less. Its t-interval of 80 %: %2 "
                               "to %3.")
                                .arg(minutesOf(row.time.own.deviation), minutesOf(range->low),
                                     minutesOf(range->high))
                          : tr("Timed once.");
           }),
       figureColumn<Step>(
           "usually", tr("Usually"), [](const Step& row) { return optional{row.time.known.typical}; },
           minutesOf),
       rangeColumn<Step>(
           "mostly", tr("Mostly"),
           [](const Step& row) {
             return optional{lessons::Interval{row.time.known.low, row.time.known.high}};
           },
           minutesRange, [](const Step&) { return tr("Usually, 4 times in 5."); }),
       figureColumn<Step>(
           "expected", tr("Plans say"), [](const Step& row) { return optional{row.time.expected}; },
           minutesOf),
       wordColumn<Step>("differs", tr("Than usual"), [](const Step& row) {
         return differsInWords(row.time.differs, tr("quicker"), tr("slower"));
       })});
  layOut({},
         tr("How often each repair mends for you, beside how often it usually does, stands here once a fault "
            "has been ended with its cause."),
         tr("Open the Bench"), tr("Bench"));
}

void WorksPanel::refresh() {
  const auto situation = session().planning().situation();
  const Knowledge& knowledge = situation->base().knowledge;
  const learning::Tallies& tallies = situation->learned().tallies;

  std::vector<Repair> repairs;
  for (const lessons::RepairRate& each : lessons::repair_rates(knowledge, tallies)) {
    const QString name = nameOf(knowledge.repair(each.repair), each.repair);
    const bool single = each.by_cause.size() == 1;
    repairs.push_back(
        {name, single ? causeName(knowledge, each.by_cause.front().cause) : QString{}, each.all});
    for (const lessons::CureRate& rate : each.by_cause)
      if (!single) repairs.push_back({name, causeName(knowledge, rate.cause), rate});
  }
  std::vector<Cause> causes;
  for (const lessons::SymptomCauses& each : lessons::confirmed_causes(knowledge, tallies))
    for (const lessons::CauseShare& share : each.causes)
      if (share.own > 0 || share.now >= kShownAlways)
        causes.push_back({nameOf(knowledge.symptom(each.symptom), each.symptom),
                          causeName(knowledge, share.cause), each.cases, share});
  std::vector<Step> steps;
  for (const lessons::StepTime& time : lessons::step_times(knowledge, tallies))
    steps.push_back({stepName(knowledge, time.step),
                     time.sort == lessons::StepTime::Sort::test     ? tr("test")
                     : time.sort == lessons::StepTime::Sort::repair ? tr("repair")
                                                                    : tr("other work"),
                     time});
  setEmpty(repairs.empty() && causes.empty() && steps.empty());
  repairs_->setRows(repairs);
  causes_->setRows(causes);
  steps_->setRows(steps);
  say(kRepairs, ofRepairs(repairs));
  say(kCauses, ofCauses(causes));
  say(kMinutes, ofSteps(steps));
}

LessonSays WorksPanel::ofRepairs(const std::vector<Repair>& rows) const {
  LessonSays says;
  says.chart.title =
      tr("Dot: the chance that it mends; the line holds it 4 times in 5. Diamond: what is usual.");
  says.chart.axis = tr("mends, of 100 tries");
  says.chart.least = 0;
  says.chart.most = 1;
  says.chart.tick = [](double part) { return QString::number(std::lround(part * 100)); };
  for (std::size_t at = 0; at < rows.size(); ++at) {
    const Repair& row = rows[at];
    if (at > 0 && rows[at - 1].name == row.name) continue;  // by cause: the table has them
    const auto range = row.rate.range();
    says.chart.rows.push_back({.name = row.name,
                               .label = tr("%1 of %2").arg(row.rate.own.cured).arg(row.rate.own.tried),
                               .figure = row.rate.now.mean(),
                               .low = range.low,
                               .high = range.high,
                               .beside = row.rate.usually});
    says.chart_rows.push_back(static_cast<int>(at));
  }
  if (rows.empty()) {
    says.sentence = tr("No repair has an outcome yet: end a fault with its cause, and its tries count.");
    return says;
  }
  const Repair* odd = firstThatDiffers(rows, [](const Repair& row) { return row.rate.differs; });
  const Repair& first = odd != nullptr ? *odd : rows.front();
  const QString here = oftenInWords(first.rate.share());
  if (odd != nullptr) {
    says.sentence =
        tr("%1 works for you %2; usually %3.").arg(quoted(odd->name), here, oftenInWords(*odd->rate.usually));
    says.to_do = odd->rate.differs == Differs::lower
                     ? tr("Look at how it is done, or whether something else is wrong when it fails. Plans "
                          "count on it less already.")
                     : tr("Plans count on it more already.");
  } else if (first.rate.own.tried < static_cast<std::int64_t>(lessons::kLeastCases)) {
    says.sentence = tr("Not enough yet: no repair has been tried %1 times. From then on this says which work "
                       "better or worse for you than they usually do.")
                        .arg(lessons::kLeastCases);
  } else {
    says.sentence = tr("What you repair works about as often as it usually does. Most often tried: %1, which "
                       "mended %2 of %3.")
                        .arg(quoted(first.name))
                        .arg(first.rate.own.cured)
                        .arg(first.rate.own.tried);
  }
  const auto own = learning::jeffreys_interval(first.rate.own, lessons::kSayingLevel);
  says.why =
      tr("%1 mended %2 of %3 tries on faults that ended with a named cause. By these tries alone the chance "
         "lies between %4 (Jeffreys interval of 95 %). A repair is said to differ from %5 tries on, when "
         "that interval does not hold what is usual%6.")
          .arg(quoted(first.name).toHtmlEscaped())
          .arg(first.rate.own.cured)
          .arg(first.rate.own.tried)
          .arg(percentRange(own))
          .arg(lessons::kLeastCases)
          .arg(first.rate.usually ? tr(", %1").arg(percent(*first.rate.usually)) : QString{});
  return says;
}

LessonSays WorksPanel::ofCauses(const std::vector<Cause>& rows) const {
  LessonSays says;
  if (rows.empty()) {
    says.sentence = tr("No cause has been confirmed yet: name it when a fault ends.");
    return says;
  }
  const Cause* odd = firstThatDiffers(rows, [](const Cause& row) { return row.share.differs; });
  const Cause& first = odd != nullptr ? *odd : rows.front();
  says.chart.title =
      tr("%1. Dot: the cause's share in plans; the line holds it 4 times in 5. Diamond: what is usual.")
          .arg(first.symptom);
  says.chart.axis = tr("of 100 cases");
  says.chart.least = 0;
  says.chart.tick = [](double part) { return QString::number(std::lround(part * 100)); };
  for (std::size_t at = 0; at < rows.size(); ++at) {
    const Cause& row = rows[at];
    if (row.symptom != first.symptom) continue;
    says.chart.rows.push_back({.name = row.name,
                               .label = tr("%1 of %2").arg(row.share.own).arg(row.cases),
                               .figure = row.share.now,
                               .low = row.share.range.low,
                               .high = row.share.range.high,
                               .beside = row.share.usually});
    says.chart_rows.push_back(static_cast<int>(at));
  }
  const QString found = tr("Behind %1 it was %2 in %3 of %4 cases")
                            .arg(quoted(first.symptom), quoted(first.name))
                            .arg(first.share.own)
                            .arg(first.cases);
  if (odd != nullptr) {
    says.sentence = tr("%1; usually in %2.").arg(found, partInWords(odd->share.usually));
    says.to_do = odd->share.differs == Differs::higher ? tr("Look there sooner. Plans do already.")
                                                       : tr("Look there later. Plans do already.");
  } else if (first.cases < static_cast<std::int64_t>(lessons::kLeastCases)) {
    says.sentence = tr("%1. From %2 cases on this says what differs from the usual.")
                        .arg(found)
                        .arg(lessons::kLeastCases);
  } else {
    says.sentence = tr("%1, which is as usual.").arg(found);
  }
  says.why =
      tr("Shares are the mean of a Dirichlet distribution: the cases that the knowledge base counts as, and "
         "the confirmed ones. Of this cause alone it is a Beta distribution, whose middle four fifths are "
         "%1. A cause is said to differ from %2 cases on, when the Jeffreys interval of 95 % of the own "
         "cases does not hold what is usual, %3.")
          .arg(percentRange(first.share.range))
          .arg(lessons::kLeastCases)
          .arg(percent(first.share.usually));
  return says;
}

LessonSays WorksPanel::ofSteps(const std::vector<Step>& rows) const {
  LessonSays says;
  says.chart.title = tr("Dot: your mean; the line holds it 4 times in 5. Diamond: what is usual.");
  says.chart.axis = tr("minutes");
  for (std::size_t at = 0; at < rows.size(); ++at) {
    const auto range = rows[at].time.own.interval();
    RangeRow row{
        .name = rows[at].name,
        .label = tr("%1, timed %2").arg(minutesOf(rows[at].time.own.mean)).arg(rows[at].time.own.count),
        .figure = rows[at].time.own.mean,
        .beside = rows[at].time.known.typical};
    if (range) {
      row.low = std::max(range->low, 0.0);
      row.high = range->high;
    }
    says.chart.rows.push_back(std::move(row));
    says.chart_rows.push_back(static_cast<int>(at));
  }
  if (rows.empty()) {
    says.sentence = tr("No step has been timed yet: the clock on the Bench does it.");
    return says;
  }
  const Step* odd = firstThatDiffers(rows, [](const Step& row) { return row.time.differs; });
  const Step& first = odd != nullptr ? *odd : rows.front();
  if (odd != nullptr) {
    says.sentence =
        tr("%1 takes you %2; usually %3.")
            .arg(quoted(odd->name), minutesOf(odd->time.own.mean), minutesOf(odd->time.known.typical));
    says.to_do = tr("Plans count with %1 already.").arg(minutesOf(odd->time.expected));
  } else if (first.time.own.count < lessons::kLeastCases) {
    says.sentence =
        tr("Not enough yet: no step has been timed %1 times. From then on this says which take you "
           "longer or less than they usually do.")
            .arg(lessons::kLeastCases);
  } else {
    says.sentence =
        tr("Your steps take about as long as they usually do. Most often timed: %1, %2 on average.")
            .arg(quoted(first.name), minutesOf(first.time.own.mean));
  }
  says.why = tr("%1 was timed %2 times. Plans count with the own mean drawn towards the usual (Bühlmann's "
                "credibility): "
                "%3. A step is said to differ from %4 times on, when the t-interval of 95 % of the own mean "
                "does not "
                "hold the usual.")
                 .arg(quoted(first.name).toHtmlEscaped())
                 .arg(first.time.own.count)
                 .arg(minutesOf(first.time.expected))
                 .arg(lessons::kLeastCases);
  return says;
}

}  // namespace secondpull::app
