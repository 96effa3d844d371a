#include "app/yard/yard_rows.h"

#include <algorithm>
#include <cmath>

#include <QCoreApplication>
#include <QDate>
#include <QLocale>

#include "app/frame/session.h"
#include "app/planning/planning.h"
#include "core/books/books.h"
#include "core/decision/why.h"
#include "core/planning/bench_moment.h"
#include "core/planning/names.h"

namespace secondpull::app {
namespace {

QString tr(const char* text, int n = -1) {
  return QCoreApplication::translate("Yard", text, nullptr, n);
}
QString text(std::string_view words) {
  return QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
}
qlonglong sortable(Date date) {
  return std::chrono::sys_days{date}.time_since_epoch().count();
}
QVariant sortable(const std::optional<Money>& amount) {
  return amount ? QVariant{static_cast<qlonglong>(amount->minor())} : QVariant{};
}
QVariant sortable(const std::optional<Minutes>& minutes) {
  return minutes ? QVariant{static_cast<qlonglong>(minutes->count)} : QVariant{};
}

std::optional<Money> askingNow(const ByMachine::Lines& lines) {
  for (auto listing = lines.listings.rbegin(); listing != lines.listings.rend(); ++listing)
    if (!(*listing)->ended) return (*listing)->asking;
  return std::nullopt;
}

bool hulkIsHere(const ByMachine::Lines& lines) {
  return !lines.disposals.empty() && lines.disposals.back()->hulk_here;
}

QString cameFrom(const Shop& shop, const Acquisition& acquisition) {
  const QString source = text(word(acquisition.source));
  const Person* person = acquisition.from ? shop.find(*acquisition.from) : nullptr;
  return person == nullptr ? source : source + QStringLiteral(", ") + text(person->name);
}

YardRow rowOf(const Session& session, const Shop& shop, const ByMachine::Lines& lines,
              const MachineFigures* figures) {
  const Machine& machine = *lines.machine;
  YardRow row{.machine = machine.id, .stage = stage_of(lines)};
  row.here = is_here(row.stage) || hulkIsHere(lines);
  row.tag = text(machine.tag);
  row.what = session.nameOf(machine.id);
  row.kind = text(word(machine.kind));
  row.standing = text(standing(shop, lines, session.today()));
  row.since = here_since(lines);
  row.days = days_between(row.since, session.today());
  row.symptom = text(machine.symptom);
  row.model_number = text(machine.model_number);
  row.engine = text(machine.engine);
  if (lines.acquisition != nullptr) row.from = cameFrom(shop, *lines.acquisition);
  if (row.here) row.asking = askingNow(lines);
  if (figures != nullptr) {
    row.money_in = figures->cost_basis;
    row.minutes = figures->minutes;
    if (!row.here && figures->days_held) row.days = *figures->days_held;
  }
  return row;
}

/// The tag as a link that opens the machine.
QString link(const Session& session, MachineId machine) {
  return QStringLiteral("<a href=\"%1\">#%2</a>")
      .arg(number(machine))
      .arg(session.tagOf(machine).toHtmlEscaped());
}

/// What is to be done with a machine for which no plan is to be made.
QString waitsFor(planning::BenchMoment::What what) {
  using What = planning::BenchMoment::What;
  switch (what) {
    case What::symptom:
      return tr("say what it does");
    case What::cause:
      return tr("say what it was");
    case What::finish:
      return tr("test run, then for sale");
    case What::given_up:
      return tr("given up: sell or part out");
    case What::step:
    case What::gone:
      break;
  }
  return {};
}

/// "$18", "over $500"
QString worthWords(const Session& session, double worth) {
  const auto whole = [&](double amount) {
    const Money money =
        Money::from_minor(std::llround(std::floor(amount) * std::pow(10.0, session.currency().digits)));
    QString words = session.money(money);
    if (session.currency().digits > 0) words.chop(session.currency().digits + 1);
    return words;
  };
  return worth >= decision::highest_hour_value ? tr("over %1").arg(whole(decision::highest_hour_value))
                                               : whole(worth);
}

constexpr int kDaysBack = 3;   // a visit that was not settled stays in sight this long
constexpr int kDaysAhead = 6;  // a week, today included

QString dayWord(Date date, Date today) {
  const int days = days_between(today, date);
  if (days == 0) return tr("today");
  if (days == 1) return tr("tomorrow");
  if (days == -1) return tr("yesterday");
  const QString weekday = QLocale{QLocale::English}.dayName(
      static_cast<int>(std::chrono::weekday{std::chrono::sys_days{date}}.iso_encoding()),
      QLocale::LongFormat);
  return days > 0 ? tr("on %1").arg(weekday) : tr("last %1").arg(weekday);
}

QString visits(const Session& session, const Shop& shop, const ByMachine& by_machine) {
  std::vector<const Offer*> coming;
  for (const Offer& offer : shop.all<Offer>()) {
    if (!offer.comes || offer.result) continue;
    const int days = days_between(session.today(), *offer.comes);
    if (days < -kDaysBack || days > kDaysAhead) continue;
    if (is_here(stage_of(by_machine.of(offer.machine)))) coming.push_back(&offer);
  }
  std::stable_sort(coming.begin(), coming.end(),
                   [](const Offer* a, const Offer* b) { return *a->comes < *b->comes; });
  QStringList bits;
  for (const Offer* offer : coming) {
    const QString who = offer->who.empty() ? tr("Somebody") : text(offer->who).toHtmlEscaped();
    const QString words =
        *offer->comes < session.today() ? tr("%1 was to come %2 for %3 (%4)") : tr("%1 comes %2 for %3 (%4)");
    bits.push_back(words.arg(who, dayWord(*offer->comes, session.today()), link(session, offer->machine),
                             session.money(offer->amount)));
  }
  return bits.join(QStringLiteral(" · "));
}

constexpr int kPartsNamed = 4;  // more of them are only counted

QString underWay(const Session& session, const Shop& shop) {
  QStringList bits;
  int more = 0;
  for (const OrderLine& line : shop.all<OrderLine>()) {
    const Order* order = shop.find(line.order);
    const Part* part = shop.find(line.part);
    if (order == nullptr || part == nullptr || order->arrived) continue;
    if (bits.size() == kPartsNamed) {
      ++more;
      continue;
    }
    QString bit = text(part->name).toHtmlEscaped();
    if (line.quantity > 1) bit = tr("%1 × %2").arg(line.quantity).arg(bit);
    if (line.for_machine) bit = tr("%1 for %2").arg(bit, link(session, *line.for_machine));
    bits.push_back(tr("%1 (ordered %2)").arg(bit, text(shown_short(order->date, session.today()))));
  }
  if (bits.isEmpty()) return {};
  QString line = tr("On the way: %1").arg(bits.join(QStringLiteral(", ")));
  if (more > 0) line += tr(" and %1 more").arg(more);
  return line;
}

QString hoursThisWeek(const Session& session, const Shop& shop) {
  const Date today = session.today();
  const auto since_monday = std::chrono::weekday{std::chrono::sys_days{today}} - std::chrono::Monday;
  const Date monday = plus_days(today, -static_cast<int>(since_monday.count()));
  Minutes logged;
  for (const Labour& labour : shop.all<Labour>())
    if (labour.date >= monday && labour.date <= today) logged += labour.minutes;
  if (logged.count == 0 && !shop.settings.hours_a_week) return {};
  if (!shop.settings.hours_a_week) return tr("This week %1 logged").arg(text(shown(logged)));
  constexpr std::int64_t kMinutesInTenthOfHour = 6;
  const Minutes week{shop.settings.hours_a_week->count * kMinutesInTenthOfHour};
  return tr("This week %1 of %2 logged").arg(text(shown(logged)), text(shown(week)));
}

}  // namespace

std::vector<YardRow> yardRows(const Session& session) {
  const auto shop = session.shop();
  const auto books = session.books();
  const ByMachine by_machine{*shop};
  std::vector<YardRow> rows;
  rows.reserve(shop->all<Machine>().size());
  for (const Machine& machine : shop->all<Machine>())
    rows.push_back(
        rowOf(session, *shop, by_machine.of(machine.id), books ? books->machine(machine.id) : nullptr));
  return rows;
}

void addPlan(Session& session, YardRow& row) {
  row.worth_per_hour.reset();
  row.next_step.clear();
  row.next_why.clear();
  if (!is_here(row.stage) || row.stage == Stage::for_sale) return;
  const auto base = session.knowledge();
  const learning::Knowledge& knowledge = base->knowledge;
  const auto books = session.books();
  using What = planning::BenchMoment::What;
  const auto moment = planning::bench_moment(books->by_machine().of(row.machine), knowledge);
  row.next_step = waitsFor(moment.what);
  if (moment.what != What::step) return;
  const MachinePlan plan = session.planning().last(row.machine);
  if (plan.problem) row.next_why = QString::fromStdString(plan.problem->sentence);
  if (plan.answer == nullptr) return;
  const decision::Answer& answer = *plan.answer;
  const bool stops = answer.next.kind == decision::Move::Kind::stop;
  row.worth_per_hour = answer.worth_per_hour.value.value_or(decision::highest_hour_value);
  const QString name = text(planning::called(answer.next, knowledge));
  row.next_step = stops ? tr("stop: %1").arg(name) : name;
  row.next_why = text(decision::why(answer.plan.root, answer, plan.asked->of, planning::names_in(knowledge)));
}

std::vector<TableColumn<YardRow>> yardColumns(const Session& session) {
  const Session* const at = &session;
  return {
      {.key = "tag",
       .title = tr("Tag"),
       .text = [](const YardRow& row) { return row.tag; },
       .sort =
           [](const YardRow& row) {
             bool whole = false;
             const qlonglong value = row.tag.toLongLong(&whole);
             return whole ? QVariant{value} : QVariant{row.tag};
           }},
      {.key = "what", .title = tr("Machine"), .text = [](const YardRow& row) { return row.what; }},
      {.key = "kind",
       .title = tr("Kind"),
       .text = [](const YardRow& row) { return row.kind; },
       .shown = false},
      {.key = "standing",
       .title = tr("Where it stands"),
       .text = [](const YardRow& row) { return row.standing; }},
      {.key = "days",
       .title = tr("Days here"),
       .text = [](const YardRow& row) { return QString::number(row.days); },
       .sort = [](const YardRow& row) { return QVariant{row.days}; },
       .number = true,
       .why =
           [at](const YardRow& row) {
             return tr("in since %1").arg(text(shown_short(row.since, at->today())));
           }},
      {.key = "money_in",
       .title = tr("Money in"),
       .text = [at](const YardRow& row) { return at->money(row.money_in); },
       .sort = [](const YardRow& row) { return sortable(row.money_in); },
       .number = true,
       .why =
           [](const YardRow&) {
             return tr(
                 "What it has cost so far: its price, parts, materials and outside work. Own hours are "
                 "not in it.");
           }},
      {.key = "hours_in",
       .title = tr("Hours in"),
       .text = [](const YardRow& row) { return row.minutes ? text(decimal_hours(*row.minutes)) : tr("—"); },
       .sort = [](const YardRow& row) { return sortable(row.minutes); },
       .number = true,
       .why = [](const YardRow& row) { return row.minutes ? text(shown(*row.minutes)) : QString{}; }},
      {.key = "worth",
       .title = tr("Worth an hour"),
       .text =
           [at](const YardRow& row) {
             return row.worth_per_hour ? worthWords(*at, *row.worth_per_hour) : QString{};
           },
       .sort = [](const YardRow& row) { return QVariant{row.worth_per_hour.value_or(-1)}; },
       .number = true,
       .why =
           [](const YardRow& row) {
             return row.worth_per_hour
                        ? tr("Going on with it beats stopping as long as an hour is worth less than this.")
                        : QString{};
           }},
      {.key = "next",
       .title = tr("Next step"),
       .text = [](const YardRow& row) { return row.next_step; },
       .why = [](const YardRow& row) { return row.next_why; }},
      {.key = "asking",
       .title = tr("Asking"),
       .text = [at](const YardRow& row) { return row.asking ? at->money(*row.asking) : QString{}; },
       .sort = [](const YardRow& row) { return sortable(row.asking); },
       .number = true,
       .shown = false},
      {.key = "symptom",
       .title = tr("What it does wrong"),
       .text = [](const YardRow& row) { return row.symptom; },
       .shown = false},
      {.key = "from",
       .title = tr("Came from"),
       .text = [](const YardRow& row) { return row.from; },
       .shown = false},
      {.key = "since",
       .title = tr("In since"),
       .text = [at](const YardRow& row) { return text(shown_short(row.since, at->today())); },
       .sort = [](const YardRow& row) { return QVariant{sortable(row.since)}; },
       .shown = false},
      {.key = "model_number",
       .title = tr("Model number"),
       .text = [](const YardRow& row) { return row.model_number; },
       .shown = false},
      {.key = "engine",
       .title = tr("Engine"),
       .text = [](const YardRow& row) { return row.engine; },
       .shown = false},
  };
}

QString wordOf(YardGroup group) {
  switch (group) {
    case YardGroup::all_here:
      return tr("All here");
    case YardGroup::in_the_yard:
      return tr("In the yard");
    case YardGroup::on_the_bench:
      return tr("On the bench");
    case YardGroup::waiting:
      return tr("Waiting");
    case YardGroup::for_sale:
      return tr("For sale");
    case YardGroup::gone:
      break;
  }
  return tr("Gone");
}

bool isIn(YardGroup group, const YardRow& row) {
  switch (group) {
    case YardGroup::all_here:
      return row.here;
    case YardGroup::in_the_yard:  // a donor's hulk too: it stands there until it is hauled away
      return row.here && (row.stage == Stage::in_the_yard || !is_here(row.stage));
    case YardGroup::on_the_bench:
      return row.stage == Stage::on_the_bench || row.stage == Stage::test_run;
    case YardGroup::waiting:
      return row.stage == Stage::waiting_on_parts;
    case YardGroup::for_sale:
      return row.stage == Stage::for_sale;
    case YardGroup::gone:
      break;
  }
  return !row.here;
}

QString weekLine(Session& session) {
  Planning& planning = session.planning();
  const planning::BacklogPlan backlog = planning.backlog();
  const bool any = std::any_of(backlog.machines.begin(), backlog.machines.end(),
                               [](const planning::Waiting& each) { return each.answer != nullptr; });
  if (!any) return {};
  using From = planning::HourValue::From;
  const planning::HoursAWeek week = planning.situation()->hours_a_week();
  QString words;
  switch (backlog.hour_value.from) {
    case From::said:
      words = tr("An hour is worth %1, as you said.").arg(worthWords(session, backlog.hour_value.value));
      break;
    case From::computed:
      words =
          (week.guessed
               ? tr("An hour is worth %1: what one more would earn, at the %2 h a week you worked lately.")
               : tr("An hour is worth %1: what one more would earn, at %2 h a week."))
              .arg(worthWords(session, backlog.hour_value.value), QString::number(week.hours, 'f', 1));
      break;
    case From::unknown:
      words = tr("An hour counts for nothing yet: say in the settings (Ctrl+,) how many you have a week.");
      break;
  }
  const double left = week.hours > 0 ? week.hours - planning.situation()->hours_this_week() : 0;
  const planning::WeekAhead ahead = planning::week_ahead(backlog, left);
  const auto list = [&](const std::vector<MachineId>& machines) {
    constexpr std::size_t kMostNamed = 6;
    QStringList tags;
    for (const MachineId machine : machines)
      if (tags.size() < static_cast<qsizetype>(kMostNamed)) tags << link(session, machine);
    QString all = tags.join(QStringLiteral(", "));
    if (machines.size() > kMostNamed) all += tr(" and %1 more").arg(machines.size() - kMostNamed);
    return all;
  };
  if (!ahead.work.empty())
    words +=
        tr(" %1 h left this week: work %2.").arg(QString::number(ahead.hours_left, 'f', 1), list(ahead.work));
  else if (!ahead.later.empty())
    words += tr(" No hours left this week; next is %1.").arg(list(ahead.later));
  if (!ahead.stop_now.empty())
    words += tr(" Stop now: %1, hours earn more elsewhere.").arg(list(ahead.stop_now));
  return words;
}

QStringList todayLines(const Session& session) {
  const auto shop = session.shop();
  QStringList lines{visits(session, *shop, ByMachine{*shop}), underWay(session, *shop),
                    hoursThisWeek(session, *shop)};
  lines.removeAll(QString{});
  return lines;
}

}  // namespace secondpull::app
