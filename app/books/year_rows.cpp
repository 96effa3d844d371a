#include "app/books/year_rows.h"

#include <QCoreApplication>

#include "app/books/plain_figures.h"
#include "core/books/schedule.h"
#include "core/books/year_sums.h"
#include "core/shop/describe.h"

namespace secondpull::app {
namespace {

QString tr(const char* text) {
  return QCoreApplication::translate("YearRows", text);
}
QString text(const std::string& said) {
  return QString::fromStdString(said);
}

class Sections {
 public:
  Sections(const Session& session, const YearFigures& figures) : session_{session}, figures_{figures} {}

  std::vector<YearSection> all() {
    const bool form = session_.currency().code == "USD";
    if (form)
      addSchedule();
    else
      addPlain();
    addIdentity();
    if (form) addSelfEmployment();
    addWork(form);
    addPayments();
    return std::move(sections_);
  }

 private:
  void begin(const QString& title) { sections_.push_back({title, {}}); }
  void add(YearRow row) { sections_.back().rows.push_back(std::move(row)); }
  void say(const QString& words) {
    if (!words.isEmpty()) add({.kind = YearRow::Kind::words, .what = words});
  }
  ReportCell money(Money amount) const { return moneyCell(session_, amount); }

  void addSchedule() {
    const Schedule schedule = schedule_c(figures_, session_.formLines());
    for (const SchedulePart& part : schedule.parts) {
      begin(text(part.title));
      for (const ScheduleLine& line : part.lines) {
        add({.kind = line.is_sum ? YearRow::Kind::sum : YearRow::Kind::line,
             .number = text(line.number),
             .what = text(line.what),
             .amount = line.amount ? money(*line.amount) : ReportCell{text(line.text)},
             .line = line.line,
             .names = line.names});
        YearRow& row = sections_.back().rows.back();
        // A line for expenses of some kinds, of which there are none this year.
        if (row.line == YearLine::expenses && row.names.empty()) {
          row.line.reset();
          row.how = tr("Nothing was written down this year under a kind of cost that belongs on this line.");
        }
      }
    }
    if (!schedule.source.empty())
      say(tr("Line numbers: %1; %2.").arg(text(schedule.source), text(schedule.sure)));
  }

  void addPlain() {
    begin(tr("The year"));
    say(tr("The pages for the tax form are for the United States alone, so a shop in %1 has none. All other "
           "figures are here, and trips cost nothing.")
            .arg(text(session_.currency().code)));
    for (const YearSize& one : sizes(figures_)) {
      if (one.line >= YearLine::self_employment_tax) continue;
      const QString name = text(one.name);
      const QString what = text(std::string{shown(one.line)});
      add({.what = name.isEmpty() ? what : QStringLiteral("%1: %2").arg(what, name),
           .amount = money(Money::from_minor(one.size)),
           .line = one.line,
           .names = one.name.empty() ? std::vector<std::string>{} : std::vector{one.name}});
    }
  }

  void addIdentity() {
    const GoodsMoved& moved = figures_.moved;
    begin(tr("Cost of goods sold, worked out twice"));
    add({.what = tr("What sold, scrapped and gone hulks had cost"), .amount = money(moved.left)});
    add({.what = tr("less what buyers brought back"), .amount = money(-moved.came_back)});
    add({.what = tr("Spent on machines after they had left"), .amount = money(moved.spent_after)});
    add({.what = tr("Parts written off, and sold by themselves"), .amount = money(moved.parts)});
    add({.kind = YearRow::Kind::sum, .what = tr("By what moved"), .amount = money(moved.total())});
    add({.kind = YearRow::Kind::sum,
         .what = tr("By the stock at both ends of the year"),
         .amount = money(figures_.cost_of_goods_sold),
         .line = YearLine::cost_of_goods_sold});
    say(figures_.off().is_zero()
            ? tr("Both ways give the same: the books agree with themselves.")
            : tr("They are off by %1: something is wrong in the program or its file. Write a "
                 "backup and run the check of the command line.")
                  .arg(session_.money(figures_.off())));
  }

  void addSelfEmployment() {
    begin(tr("Self-employment tax, an estimate"));
    add({.what = tr("Net profit"), .amount = money(figures_.net_profit), .line = YearLine::net_profit});
    const WageBase* base = session_.taxRates().base(figures_.year);
    if (figures_.self_employment_tax)
      add({.kind = YearRow::Kind::sum,
           .what = tr("Self-employment tax"),
           .amount = money(*figures_.self_employment_tax),
           .line = YearLine::self_employment_tax});
    if (base == nullptr) {
      say(tr("Not given: the wage base of %1 is not known to the program.").arg(figures_.year));
      return;
    }
    say(tr("92.35 % of the net profit, of that 12.4 % up to %1 and 2.9 % on all; nothing under $400 "
           "(Schedule "
           "SE). The base: %2; %3.")
            .arg(session_.money(base->amount), text(base->source), text(base->sure)));
  }

  void addWork(bool trips) {
    begin(tr("Work"));
    add({.what = tr("Machines sold, less those brought back"),
         .amount = sizeCell(session_, YearUnit::machines, figures_.machines_sold),
         .line = YearLine::machines_sold});
    add({.what = tr("Hours, the shop's in general too"),
         .amount = sizeCell(session_, YearUnit::minutes, figures_.minutes.count),
         .line = YearLine::hours});
    add({.what = tr("Net profit for each hour"),
         .amount = moneyCell(session_, figures_.pay_per_hour),
         .line = figures_.pay_per_hour ? std::optional{YearLine::pay_per_hour} : std::nullopt});
    if (trips) return;
    add({.what = tr("Miles"),
         .amount = sizeCell(session_, YearUnit::tenths_of_mile, figures_.miles.count),
         .line = YearLine::miles});
  }

  void addPayments() {
    const auto ways = received_by_payment(*session_.shop(), figures_.year);
    if (ways.empty()) return;
    begin(tr("Money received, by way of payment"));
    for (const Received& way : ways)
      add({.what = QStringLiteral("%1, %2").arg(way.payment.empty() ? tr("not said") : text(way.payment),
                                                text(counted(way.sales, "sale", "sales"))),
           .amount = money(way.total())});
    add({.kind = YearRow::Kind::sum, .what = tr("Together"), .amount = money(together(ways).total())});
    say(tr("Before fees and refunds, sales tax included: as one who handles payments reports it."));
  }

  const Session& session_;
  const YearFigures& figures_;
  std::vector<YearSection> sections_;
};

}  // namespace

std::vector<YearSection> yearSections(const Session& session, const YearFigures& figures) {
  return Sections{session, figures}.all();
}

std::vector<ReportSection> reportOf(const std::vector<YearSection>& sections) {
  std::vector<ReportSection> made;
  for (const YearSection& section : sections) {
    ReportSection& to = made.emplace_back(ReportSection{
        .heading = section.title, .columns = {{tr("Line")}, {tr("What")}, {tr("Amount"), true}}});
    for (const YearRow& row : section.rows)
      to.rows.push_back({{row.number, row.what, row.amount}, row.kind == YearRow::Kind::sum});
  }
  return made;
}

ReportCell sizeCell(const Session& session, YearUnit unit, std::int64_t size) {
  switch (unit) {
    case YearUnit::money:
      return moneyCell(session, Money::from_minor(size));
    case YearUnit::minutes:
      return hoursCell(Minutes{size});
    case YearUnit::tenths_of_mile:
      return {plainTenths(Tenths{size})};
    case YearUnit::machines:
      return {QString::number(size)};
  }
  return {};
}

}  // namespace secondpull::app
