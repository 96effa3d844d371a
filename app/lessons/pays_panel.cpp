#include "app/lessons/pays_panel.h"

#include <algorithm>

#include <QLocale>

#include "app/books/earning_detail.h"
#include "app/lessons/lesson_words.h"
#include "app/parts/figure_words.h"
#include "app/parts/form.h"
#include "core/learning/knowledge_base.h"
#include "core/learning/units.h"

namespace secondpull::app {
namespace {

using lessons::Differs;
using lessons::Paid;
using lessons::PaidBy;

struct By {
  PaidBy by;
  const char* word;   ///< in the row of words
  const char* table;  ///< object name
  const char* none;   ///< the name of a group that has none
};
constexpr By kViews[] = {
    {PaidBy::kind, QT_TRANSLATE_NOOP("PaysPanel", "kind"), "paysKind", ""},
    {PaidBy::make, QT_TRANSLATE_NOOP("PaysPanel", "make"), "paysMake",
     QT_TRANSLATE_NOOP("PaysPanel", "no make given")},
    {PaidBy::source, QT_TRANSLATE_NOOP("PaysPanel", "source"), "paysSource",
     QT_TRANSLATE_NOOP("PaysPanel", "no source given")},
    {PaidBy::symptom, QT_TRANSLATE_NOOP("PaysPanel", "symptom"), "paysSymptom",
     QT_TRANSLATE_NOOP("PaysPanel", "no symptom given")},
    {PaidBy::month, QT_TRANSLATE_NOOP("PaysPanel", "month"), "paysMonth",
     QT_TRANSLATE_NOOP("PaysPanel", "hulk still here")},
};

QString nameOf(PaidBy by, const Paid& group) {
  if (group.name.empty()) return PaysPanel::tr(kViews[static_cast<std::size_t>(by)].none);
  const QString name = QString::fromStdString(group.name);
  return by == PaidBy::month ? QLocale::c().standaloneMonthName(name.toInt()) : name;
}

double units(const Session& session, Money amount) {
  return learning::in_units(amount, session.currency());
}

std::vector<TableColumn<Paid>> columns(const Session& session, PaidBy by) {
  using std::optional;
  const Session* of = &session;
  const auto money = [of](double amount) { return moneyOf(*of, amount); };
  TableColumn<Paid> name = wordColumn<Paid>("name", PaysPanel::tr(kViews[static_cast<std::size_t>(by)].word),
                                            [by](const Paid& row) { return nameOf(by, row); });
  name.title[0] = name.title[0].toUpper();
  if (by == PaidBy::month) name.sort = [](const Paid& row) { return QString::fromStdString(row.name); };
  std::vector<TableColumn<Paid>> all{
      name,
      countColumn<Paid>("machines", PaysPanel::tr("Machines"),
                        [](const Paid& row) { return static_cast<std::int64_t>(row.machines.size()); }),
      figureColumn<Paid>(
          "hours", PaysPanel::tr("Hours"),
          [](const Paid& row) {
            return optional{static_cast<double>(row.together.minutes.count) / learning::kMinutesOfHour};
          },
          hoursOf),
      figureColumn<Paid>(
          "profit", PaysPanel::tr("Profit"),
          [of](const Paid& row) { return optional{units(*of, row.together.profit)}; }, money),
      figureColumn<Paid>(
          "each", PaysPanel::tr("A machine"), [](const Paid& row) { return optional{row.profit.mean}; },
          money),
      figureColumn<Paid>(
          "hourly", PaysPanel::tr("Pay an hour"), [](const Paid& row) { return row.hourly; }, money,
          [of](const Paid& row) {
            QString why = perHourInWords(*of, row.together.profit, row.together.minutes);
            if (row.hourly_range)
              why += PaysPanel::tr(". The true pay lies between %1 with a chance of 80 %.")
                         .arg(moneyRange(*of, *row.hourly_range));
            if (row.middle_half)
              why += PaysPanel::tr(" Half of the machines paid %1 an hour.")
                         .arg(moneyRange(*of, *row.middle_half));
            return why;
          }),
      rangeColumn<Paid>(
          "range", PaysPanel::tr("80 % range"), [](const Paid& row) { return row.hourly_range; },
          [of](const lessons::Interval& range) { return moneyRange(*of, range); }),
      rangeColumn<Paid>(
          "half", PaysPanel::tr("Half of them"), [](const Paid& row) { return row.middle_half; },
          [of](const lessons::Interval& range) { return moneyRange(*of, range); },
          [](const Paid&) { return PaysPanel::tr("Half of the machines paid between these by the hour."); }),
      wordColumn<Paid>("differs", PaysPanel::tr("Than the others"), [](const Paid& row) {
        return differsInWords(row.differs, PaysPanel::tr("less"), PaysPanel::tr("more"));
      })};
  // A usual window has no room for these; the menu on the header shows them.
  for (TableColumn<Paid>& column : all)
    if (column.key == QLatin1String("half") || column.key == QLatin1String("each")) column.shown = false;
  return all;
}

QString toDo(PaidBy by, Differs differs) {
  const bool more = differs == Differs::higher;
  switch (by) {
    case PaidBy::kind:
    case PaidBy::make:
      return more ? PaysPanel::tr("Look out for more of them.")
                  : PaysPanel::tr("Pay less for them, or pass on them.");
    case PaidBy::source:
      return more ? PaysPanel::tr("Look there more often.") : PaysPanel::tr("Offer less there.");
    case PaidBy::symptom:
      return more ? PaysPanel::tr("Look out for more machines that do this.")
                  : PaysPanel::tr("Pay less for machines that do this, or pass on them.");
    case PaidBy::month:
      return {};  // what leaves in a month was bought and mended in others
  }
  return {};
}

}  // namespace

PaysPanel::PaysPanel(Session& session, QWidget* parent)
    : TablesPanel(session, QStringLiteral("pays"), tr("What pays"), parent),
      hourly_{figureNamed(tr("Pay per hour, all machines"), "paysHourly")},
      profit_{figureNamed(tr("Profit"), "paysProfit")},
      hours_{figureNamed(tr("Hours"), "paysHours")} {
  for (const By& each : kViews)
    models_[static_cast<std::size_t>(each.by)] =
        addView<Paid>(tr(each.word), tr("What machines paid by %1").arg(tr(each.word)),
                      QString::fromLatin1(each.table), columns(session, each.by));
  layOut({hourly_, profit_, hours_},
         tr("Which machines pay, by kind, make, source, symptom and month, stands here once one is sold."),
         tr("Sell a machine"), tr("For sale"));
}

void PaysPanel::refresh() {
  const auto books = session().books();
  const learning::Knowledge& knowledge = session().knowledge()->knowledge;
  std::vector<const MachineFigures*> machines;
  for (const MachineFigures& figures : books->machines())
    machines.push_back(&figures);
  const Earned all = earned(machines);
  setEmpty(all.machines == 0);
  const QString whose =
      tr("Over the %1 that have a profit.").arg(countOf(all.machines, "machine", "machines"));
  hourly_->setFigure(session().money(all.pay_per_hour), perHourInWords(session(), all.profit, all.minutes));
  profit_->setFigure(session().money(all.profit), whose);
  hours_->setFigure(QString::fromStdString(shown(all.minutes)), whose);
  for (const By& each : kViews) {
    const auto groups = lessons::paid_by(*books, knowledge, each.by);
    const auto at = static_cast<int>(each.by);
    models_[static_cast<std::size_t>(at)]->setRows(groups);
    say(at, saysOf(each.by, groups, all));
  }
}

LessonSays PaysPanel::saysOf(PaidBy by, const std::vector<Paid>& groups, const Earned& all) const {
  LessonSays says;
  says.chart.title = tr("Dot: pay an hour; the line holds it 4 times in 5. Diamond: all machines together.");
  says.chart.axis = tr("pay an hour, %1").arg(QString::fromStdString(session().currency().code));
  for (std::size_t at = 0; at < groups.size(); ++at) {
    const Paid& group = groups[at];
    if (!group.hourly) continue;
    RangeRow row{.name = nameOf(by, group),
                 .label = tr("%1, %2").arg(moneyOf(session(), *group.hourly),
                                           countOf(group.machines.size(), "machine", "machines")),
                 .figure = group.hourly};
    if (group.machines.size() >= lessons::kLeastCases && group.hourly_range) {
      row.low = group.hourly_range->low;
      row.high = group.hourly_range->high;
    }
    if (all.pay_per_hour) row.beside = units(session(), *all.pay_per_hour);
    says.chart.rows.push_back(std::move(row));
    says.chart_rows.push_back(static_cast<int>(at));
  }

  if (all.machines < lessons::kLeastCases) {
    says.sentence = tr("Not enough yet: %1 gone. From %2 of a sort on this says what pays better or worse.")
                        .arg(countOf(all.machines, "machine is", "machines are"))
                        .arg(lessons::kLeastCases);
    return says;
  }
  const auto differing = [&](Differs which) {
    return std::find_if(groups.begin(), groups.end(),
                        [&](const Paid& group) { return group.differs == which; });
  };
  auto odd = differing(Differs::higher);
  if (odd == groups.end()) odd = differing(Differs::lower);
  if (odd != groups.end()) {
    const bool more = odd->differs == Differs::higher;
    says.sentence =
        (more ? tr("%1 pays you more than the rest: %2 an hour, all together %3.")
              : tr("%1 pays you less than the rest: %2 an hour, all together %3."))
            .arg(nameOf(by, *odd), moneyOf(session(), *odd->hourly), session().money(all.pay_per_hour));
    says.sentence[0] = says.sentence[0].toUpper();
    says.to_do = toDo(by, odd->differs);
  } else {
    says.sentence = tr("No %1 pays clearly more or less than the others so far.")
                        .arg(tr(kViews[static_cast<std::size_t>(by)].word));
  }
  says.why =
      tr("Pay an hour is all profit over all hours, a ratio of sums, with the range that such a ratio has "
         "(Student's t, 80 %; drawn from %1 machines on). A group is said to differ when it and the others "
         "have %1 machines each and the difference of the two is beyond Welch's t at 90 %, made stricter by "
         "how many groups "
         "are compared (Bonferroni). Where nothing differs, at most one shop in ten hears that something "
         "does.")
          .arg(lessons::kLeastCases);
  return says;
}

}  // namespace secondpull::app
