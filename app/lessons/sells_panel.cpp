#include "app/lessons/sells_panel.h"

#include <algorithm>

#include <QLocale>

#include "app/lessons/lesson_words.h"
#include "app/planning/planning.h"
#include "core/learning/knowledge_base.h"

namespace secondpull::app {
namespace {

using lessons::Differs;

enum View { kKinds, kAsked, kMonths };

QString textOf(std::string_view text) {
  return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

QString monthName(int number) {
  return QLocale::c().standaloneMonthName(number);
}

}  // namespace

SellsPanel::SellsPanel(Session& session, QWidget* parent)
    : TablesPanel(session, QStringLiteral("sells"), tr("What sells"), parent) {
  using std::optional;
  const Session* of = &session;
  const auto money = [of](double amount) { return moneyOf(*of, amount); };
  kinds_ = addView<Kind>(
      tr("kinds"), tr("How fast running machines sell, by kind"), QStringLiteral("sellsKinds"),
      {wordColumn<Kind>("kind", tr("Kind"), [](const Kind& row) { return row.name; }),
       countColumn<Kind>("sold", tr("Sold"),
                         [](const Kind& row) { return static_cast<std::int64_t>(row.sold); }),
       figureColumn<Kind>(
           "price", tr("Fetches"), [](const Kind& row) { return row.price; }, money,
           [](const Kind&) { return tr("The median: half of them fetched more, half less."); }),
       countColumn<Kind>("listings", tr("Listings"),
                         [](const Kind& row) { return static_cast<std::int64_t>(row.days.listings); }),
       figureColumn<Kind>(
           "half", tr("Half sold within"), [](const Kind& row) { return optional{row.days.median}; }, daysOf,
           [](const Kind& row) {
             return tr("Listed today: %1 own listings of which %2 sold, mixed with what is usual "
                       "(Kaplan and Meier's estimate drawn towards it), times %3 for the season.")
                 .arg(row.days.listings)
                 .arg(row.days.sold)
                 .arg(numberOf(row.days.slowness));
           }),
       figureColumn<Kind>(
           "early", tr("One in 10 within"), [](const Kind& row) { return optional{row.days.p10}; }, daysOf),
       figureColumn<Kind>(
           "late", tr("Nine in 10 within"), [](const Kind& row) { return optional{row.days.p90}; }, daysOf),
       figureColumn<Kind>(
           "usually", tr("Usual in good months"), [](const Kind& row) { return row.usually; }, daysOf)});
  asked_ = addView<Asked>(
      tr("price asked"), tr("How fast running machines sell, by the price asked"),
      QStringLiteral("sellsAsked"),
      {wordColumn<Asked>("asked", tr("First asked"), [](const Asked& row) { return row.name; }),
       countColumn<Asked>("listings", tr("Listings"),
                          [](const Asked& row) { return static_cast<std::int64_t>(row.listings); }),
       countColumn<Asked>("sold", tr("Sold"),
                          [](const Asked& row) { return static_cast<std::int64_t>(row.sold); }),
       figureColumn<Asked>(
           "half", tr("Half sold within"), [](const Asked& row) { return row.median; }, daysOf),
       rangeColumn<Asked>(
           "range", tr("80 % range"),
           [](const Asked& row) {
             return row.low && row.high ? optional{lessons::Interval{*row.low, *row.high}} : std::nullopt;
           },
           daysRange)});
  months_ = addView<Month>(
      tr("seasons"), tr("What each month of the year fetches, and how long it takes"),
      QStringLiteral("sellsMonths"),
      {[] {
         TableColumn<Month> name =
             wordColumn<Month>("month", tr("Month"), [](const Month& row) { return monthName(row.number); });
         name.sort = [](const Month& row) { return QVariant{row.number}; };
         return name;
       }(),
       countColumn<Month>("sold", tr("Sold"),
                          [](const Month& row) { return static_cast<std::int64_t>(row.of.sold); }),
       figureColumn<Month>(
           "price", tr("Price here"),
           [](const Month& row) { return row.of.sold > 0 ? optional{row.of.price.mean} : std::nullopt; },
           percent,
           [](const Month& row) {
             const auto range = row.of.price.interval();
             return range ? tr("Of what the kind fetches here over the year. t-interval of 80 %: %1.")
                                .arg(percentRange(*range))
                          : QString{};
           }),
       figureColumn<Month>(
           "usual", tr("Usual price"), [](const Month& row) { return optional{row.of.usual_price}; },
           percent),
       countColumn<Month>("listed", tr("Listed, sold"),
                          [](const Month& row) { return static_cast<std::int64_t>(row.of.days.count); }),
       figureColumn<Month>(
           "days", tr("Took"),
           [](const Month& row) { return row.of.days.count > 0 ? optional{row.of.days.mean} : std::nullopt; },
           daysOf),
       figureColumn<Month>(
           "slowness", tr("Usually as long"),
           [](const Month& row) { return optional{row.of.usual_slowness}; },
           [](double times) { return tr("× %1").arg(numberOf(times)); })});
  layOut({},
         tr("How fast each kind sells, and in which months, stands here once a machine has been offered or "
            "sold as running."),
         tr("Offer a machine"), tr("For sale"));
}

void SellsPanel::refresh() {
  const auto situation = session().planning().situation();
  const learning::Knowledge& knowledge = situation->base().knowledge;
  const ByMachine& by_machine = situation->books().by_machine();
  const auto& sales = situation->learned().sales;
  const auto prices = market::price_model(by_machine, situation->shop(), knowledge, situation->today());
  const auto times = market::times_for_sale(by_machine, situation->shop(), prices, situation->today());

  std::vector<Kind> kinds;
  const auto sold = lessons::days_by_kind(sales);
  for (const MachineKind kind : all_words<MachineKind>()) {
    const auto own = std::find_if(sold.begin(), sold.end(),
                                  [&](const lessons::KindDays& each) { return each.kind == kind; });
    Kind row{.name = textOf(word(kind)),
             .days = market::days_to_sell(times, knowledge, kind, SoldAs::running, std::nullopt,
                                          situation->today())};
    if (own != sold.end()) {
      row.sold = own->sold;
      row.price = own->price;
    }
    if (row.sold == 0 && row.days.listings == 0) continue;
    if (const auto* known = knowledge.figures(kind)) row.usually = known->days_to_sell.typical;
    kinds.push_back(std::move(row));
  }
  std::stable_sort(kinds.begin(), kinds.end(),
                   [](const Kind& a, const Kind& b) { return a.days.listings > b.days.listings; });

  std::vector<Asked> asked;
  for (const market::PriceBand band :
       {market::PriceBand::below, market::PriceBand::about, market::PriceBand::above}) {
    Asked row{.name = tr("%1 what was suggested").arg(textOf(market::word(band)))};
    std::vector<market::Wait> waits;
    for (const market::TimeForSale& time : times) {
      if (time.as != SoldAs::running || time.band != band) continue;
      waits.push_back({static_cast<double>(time.days), time.sold});
      if (time.sold) ++row.sold;
    }
    row.listings = waits.size();
    if (const auto survival = market::kaplan_meier(waits, learning::kShownLevel);
        survival && !waits.empty()) {
      constexpr double kHalf = 0.5;
      const market::WaitQuantile half = survival->quantile(kHalf);
      row.median = half.days;
      row.low = half.low;
      row.high = half.high;
    }
    asked.push_back(std::move(row));
  }

  std::vector<Month> months;
  const auto seasons = lessons::seasons(sales, knowledge.season);
  for (std::size_t at = 0; at < seasons.size(); ++at)
    months.push_back({static_cast<int>(at) + 1, seasons[at]});

  setEmpty(kinds.empty());
  kinds_->setRows(kinds);
  asked_->setRows(asked);
  months_->setRows(months);
  say(kKinds, ofKinds(kinds));
  say(kAsked, ofAsked(asked));
  say(kMonths, ofMonths(months));
}

LessonSays SellsPanel::ofKinds(const std::vector<Kind>& rows) const {
  LessonSays says;
  says.chart.title = tr("Listed today. Dot: half are sold; the line goes from one in 10 to nine in 10.");
  says.chart.axis = tr("days to the sale");
  for (std::size_t at = 0; at < rows.size(); ++at) {
    const market::DaysToSell& days = rows[at].days;
    says.chart.rows.push_back(
        {.name = rows[at].name,
         .label = tr("%1, %2").arg(daysOf(days.median), countOf(days.listings, "listing", "listings")),
         .figure = days.median,
         .low = days.p10,
         .high = days.p90});
    says.chart_rows.push_back(static_cast<int>(at));
  }
  if (rows.empty()) return says;
  const Kind& first = rows.front();
  if (first.days.listings < lessons::kLeastCases)
    says.sentence =
        tr("Not enough yet: %1 of a kind at most. Until there are %2, days to the sale are mostly "
           "what is usual.")
            .arg(countOf(first.days.listings, "listing", "listings"))
            .arg(lessons::kLeastCases);
  else
    says.sentence = tr("Of kind %1, listed today: half are sold within %2, nine in 10 within %3.")
                        .arg(first.name, daysOf(first.days.median), daysOf(first.days.p90));
  says.why =
      tr("%1 own listings of that kind, of which %2 ended in a sale; those that did not count for as long as "
         "they stood (Kaplan and Meier's estimate), drawn towards what is usual while they are few. The "
         "median lies between %3 and %4 days with a chance of 80 %. Today's season makes it %5 times the "
         "days of the "
         "best months.")
          .arg(first.days.listings)
          .arg(first.days.sold)
          .arg(numberOf(first.days.median_interval.low), numberOf(first.days.median_interval.high),
               numberOf(first.days.slowness));
  return says;
}

LessonSays SellsPanel::ofAsked(const std::vector<Asked>& rows) const {
  LessonSays says;
  says.chart.title = tr("Dot: half are sold; the line holds that day 4 times in 5.");
  says.chart.axis = tr("days to the sale");
  const Asked *quick = nullptr, *slow = nullptr;
  for (std::size_t at = 0; at < rows.size(); ++at) {
    const Asked& row = rows[at];
    if (!row.median) continue;
    RangeRow bar{.name = row.name,
                 .label = tr("%1, %2").arg(daysOf(*row.median), countOf(row.listings, "listing", "listings")),
                 .figure = row.median};
    if (row.low && row.high) {
      bar.low = row.low;
      bar.high = row.high;
    }
    says.chart.rows.push_back(std::move(bar));
    says.chart_rows.push_back(static_cast<int>(at));
    if (row.listings < lessons::kLeastCases || !row.low || !row.high) continue;
    if (quick == nullptr || *row.median < *quick->median) quick = &row;
    if (slow == nullptr || *row.median > *slow->median) slow = &row;
  }
  if (quick == nullptr || quick == slow)
    says.sentence =
        tr("Not enough yet: from %1 listings on, below and above the suggested price, this says what "
           "the price asked does to the days.")
            .arg(lessons::kLeastCases);
  else if (*quick->high < *slow->low)
    says.sentence = tr("Asked %1, half are sold within %2; %3, within %4.")
                        .arg(quick->name, daysOf(*quick->median), slow->name, daysOf(*slow->median));
  else
    says.sentence = tr("What was asked makes no clear difference to the days so far.");
  says.why =
      tr("The price first asked against what the shop's own sales and the trade suggest for the machine: "
         "about it is from 90 to 110 %. Days by Kaplan and Meier's estimate of your listings alone, with its "
         "range of 80 %; two differ where the ranges lie apart.");
  return says;
}

LessonSays SellsPanel::ofMonths(const std::vector<Month>& rows) const {
  LessonSays says;
  says.chart.title =
      tr("Dot: what machines fetch, of the year's mean; the line holds it 4 times in 5. Diamond: what "
         "is usual.");
  says.chart.axis = tr("price, % of the year's");
  says.chart.tick = [](double part) { return QString::number(std::lround(part * 100)); };
  std::size_t all = 0;
  const Month *most = nullptr, *odd = nullptr;
  double least = 1;
  for (std::size_t at = 0; at < rows.size(); ++at) {
    const lessons::SeasonMonth& month = rows[at].of;
    all += month.sold;
    if (most == nullptr || month.sold > most->of.sold) most = &rows[at];
    if (odd == nullptr && month.price_differs != Differs::no) odd = &rows[at];
    RangeRow row{.name = monthName(rows[at].number), .beside = month.usual_price};
    least = std::min(least, month.usual_price);
    if (month.sold > 0) {
      row.label = tr("%1, %2 sold").arg(percent(month.price.mean)).arg(month.sold);
      row.figure = month.price.mean;
      least = std::min(least, month.price.mean);
      if (const auto range = month.price.interval(); range && month.sold >= lessons::kLeastCases) {
        row.low = range->low;
        row.high = range->high;
        least = std::min(least, range->low);
      }
    }
    says.chart.rows.push_back(std::move(row));
    says.chart_rows.push_back(static_cast<int>(at));
  }
  constexpr double kStep = 0.2;
  says.chart.least = std::max(0.0, std::floor(least / kStep) * kStep);
  if (all < lessons::kLeastCases) {
    says.sentence =
        tr("Not enough yet: %1 sold running. From %2 in a month on this says how that month differs.")
            .arg(countOf(all, "machine", "machines"))
            .arg(lessons::kLeastCases);
    return says;
  }
  if (odd != nullptr) {
    says.sentence =
        tr("In %1 machines fetch %2 of the year's price here; usually %3.")
            .arg(monthName(odd->number), percent(odd->of.price.mean), percent(odd->of.usual_price));
    says.to_do = odd->of.price_differs == Differs::higher ? tr("Keep the good ones for it.")
                                                          : tr("Sell before it, or after.");
  } else {
    says.sentence = tr("Most were sold in %1: %2 of %3. In price no month stands out from what is usual.")
                        .arg(monthName(most->number))
                        .arg(most->of.sold)
                        .arg(all);
  }
  says.why =
      tr("Each price is taken as a share of what its kind fetches here at the mean of the year. A month is "
         "said to differ from %1 sales on, when the t-interval does not hold what is usual, at a level that "
         "allows for twelve months being looked at (Bonferroni).")
          .arg(lessons::kLeastCases);
  return says;
}

}  // namespace secondpull::app
