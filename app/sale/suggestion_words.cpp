#include "app/sale/suggestion_words.h"

#include <algorithm>
#include <cmath>

#include <QCoreApplication>
#include <QStringList>

#include "app/bench/step_words.h"
#include "app/frame/session.h"
#include "core/learning/units.h"

namespace secondpull::app {
namespace {

constexpr std::size_t kMostDrops = 3;
constexpr double kDaysOfWeek = 7;

QString tr(const char* text) {
  return QCoreApplication::translate("SuggestionWords", text);
}

QString amount(const Session& session, double units) {
  return wholeMoney(units, session.currency());
}

QString day(const Session& session, Date date) {
  return QString::fromStdString(shown_short(date, session.today()));
}

QString row(const QString& what, const QString& value) {
  return QStringLiteral("<tr><td>%1&nbsp;&nbsp;</td><td align='right'>%2</td></tr>").arg(what, value);
}

QString table(const QString& rows) {
  return QStringLiteral("<table cellspacing='0' cellpadding='2'>%1</table>").arg(rows);
}

QString paragraph(const QString& text) {
  return QStringLiteral("<p>%1</p>").arg(text);
}

QString number(double value, int decimals) {
  return QString::number(value, 'f', decimals);
}

QString inWords(SoldAs as) {
  return as == SoldAs::running ? tr("running") : tr("as is");
}

QString nearestInWords(const Session& session, const market::AskingPrice& price) {
  QString rows;
  for (const market::NearSale& near : price.nearest) {
    QStringList differs;
    for (const std::string& each : near.differs)
      differs << QString::fromStdString(each).toHtmlEscaped();
    rows +=
        QStringLiteral("<tr><td>#%1&nbsp;&nbsp;</td><td align='right'>%2&nbsp;&nbsp;</td><td>%3</td></tr>")
            .arg(session.tagOf(near.machine).toHtmlEscaped(), amount(session, near.price),
                 tr("%1; %2; here it would be %3")
                     .arg(day(session, near.date),
                          differs.isEmpty() ? tr("alike in what is known") : differs.join(tr(", ")),
                          amount(session, near.here)));
  }
  return rows.isEmpty() ? rows : paragraph(tr("The own sales nearest to it:")) + table(rows);
}

}  // namespace

QString whyAsk(const Session& session, const planning::SaleOutlook& outlook) {
  const market::AskingPrice& price = outlook.price;
  QString rows =
      row(tr("what its kind fetches here, %1").arg(inWords(outlook.as)), amount(session, price.of_kind));
  for (const market::PriceFactor& factor : price.factors)
    rows += row(QString::fromStdString(factor.what).toHtmlEscaped(),
                QChar{0x00D7} + QStringLiteral(" ") + number(factor.factor, 2));
  rows += row(QStringLiteral("<b>%1</b>").arg(tr("likely to fetch")),
              QStringLiteral("<b>%1</b>").arg(amount(session, price.median)));
  return table(rows) +
         paragraph(
             tr("Eight in ten such sales end between %1 and %2. To ask %3 is best because buyers offer less "
                "than is asked, and a higher price brings fewer of them.")
                 .arg(amount(session, price.p10), amount(session, price.p90), amount(session, outlook.ask))) +
         nearestInWords(session, price) +
         paragraph(tr("From %1 own sales of its kind, %2, and %3 in all; the fewer they are, the more the "
                      "knowledge base counts. (Regression of the logarithm of the price, with the knowledge "
                      "base as "
                      "prior; a Student t distribution with %4 degrees of freedom.)")
                       .arg(price.sales)
                       .arg(inWords(outlook.as))
                       .arg(price.all_sales)
                       .arg(number(price.log_price.degrees, 0)));
}

QString whyDays(const Session& session, const planning::SaleOutlook& outlook) {
  const market::DaysToSell& days = outlook.days;
  QString rows = row(tr("one in ten is sold within"), aboutDays(days.p10));
  rows += row(tr("half of them within"), aboutDays(days.median));
  rows += row(tr("nine in ten within"), aboutDays(days.p90));
  return table(rows) +
         paragraph(
             tr("At about what it is likely to fetch, %1. From %2 own listings of its kind, %3 of them sold; "
                "the fewer they are, the more the knowledge base counts. On %4 selling takes %5 times as "
                "long as in the best months. (Kaplan-Meier estimate mixed with a prior; unsold listings "
                "count "
                "as censored. The half lies between %6 and %7 days.)")
                 .arg(amount(session, outlook.price.median))
                 .arg(days.listings)
                 .arg(days.sold)
                 .arg(day(session, session.today()), number(days.slowness, 1),
                      number(days.median_interval.low, 0), number(days.median_interval.high, 0)));
}

QString whyFloor(const Session& session, const planning::SaleOutlook& outlook) {
  const market::OfferModel& offers = outlook.offers;
  const double a_week = kDaysOfWeek * offers.rate / std::max(outlook.days.slowness, 1.0);
  return paragraph(tr("An offer below %1 is worth less than waiting for the next one.")
                       .arg(amount(session, outlook.floor))) +
         paragraph(
             tr("Expected: %1 offers a week at what it is likely to fetch, half of them above %2; of those "
                "who are taken at their word %3 % come and pay. A day that it stands here costs %4. After %5 "
                "days it would be given up for %6. It is sold by then with a chance of %7 %.")
                 .arg(number(a_week, 1), amount(session, outlook.price.median * offers.share),
                      number(100 * offers.shows, 0), amount(session, outlook.holding_cost))
                 .arg(planning::kDaysTried)
                 .arg(amount(session, outlook.salvage), number(100 * outlook.path.chance_sold, 0))) +
         paragraph(
             tr("From %1 own offers in %2 days for sale, beside the knowledge base's. (Reservation price by "
                "backward induction over the days; offers as a Poisson process with lognormal amounts.)")
                 .arg(offers.offers)
                 .arg(number(offers.days, 0)));
}

QString whyHold(const Session& session, const planning::SaleOutlook& outlook) {
  QString rows = row(tr("for sale from today"), amount(session, outlook.hold.sell_now));
  rows += row(tr("kept, and for sale from %1").arg(day(session, *outlook.hold_until)),
              amount(session, outlook.hold.hold));
  rows += row(QStringLiteral("<b>%1</b>").arg(tr("gained by holding")),
              QStringLiteral("<b>%1</b>").arg(amount(session, outlook.hold.gained)));
  return table(rows) +
         paragraph(tr("What either brings on average, the cost of the days taken off; then one would "
                      "ask %1. The room that it takes meanwhile, and that another one could "
                      "have, is not counted.")
                       .arg(amount(session, outlook.hold.asking_then)));
}

QString aboutDays(double days) {
  const double whole = std::max(1.0, std::round(days));
  return whole < 2 ? tr("about a day") : tr("about %1 days").arg(number(whole, 0));
}

QString restsOn(const planning::SaleOutlook& outlook) {
  const auto sales = outlook.price.sales;
  if (outlook.price.all_sales == 0)
    return tr("No own sales yet: this is what the knowledge base says of the trade.");
  if (sales == 0) return tr("No own sale of its kind yet: mostly what the knowledge base says.");
  return sales == 1 ? tr("Rests on 1 own sale of its kind, and the knowledge base.")
                    : tr("Rests on %1 own sales of its kind.").arg(sales);
}

QString dropsInWords(const Session& session, const planning::SaleOutlook& outlook) {
  QStringList steps;
  for (std::size_t i = 0; i < std::min(outlook.drops.size(), kMostDrops); ++i)
    steps << tr("%1 from %2")
                 .arg(amount(session, outlook.drops[i].asking), day(session, outlook.drops[i].date));
  return steps.isEmpty() ? QString{} : tr("If nobody has bought it by then: %1.").arg(steps.join(tr(", ")));
}

Money asMoney(double units, const Currency& currency) {
  return Money::from_minor(std::llround(units * learning::minor_units(currency)));
}

}  // namespace secondpull::app
