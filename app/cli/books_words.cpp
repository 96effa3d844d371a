#include "app/cli/books_words.h"

#include <fmt/format.h>

#include "app/cli/books_json.h"
#include "app/cli/text_table.h"

namespace secondpull::cli {
namespace {

using enum TextTable::Side;

std::string laid_out(const Schedule& schedule, const Currency& currency) {
  std::string text;
  for (const SchedulePart& part : schedule.parts) {
    TextTable table{{{"Line", right}, {part.title, left}, {currency.code, right}}};
    for (const ScheduleLine& line : part.lines)
      table.add({line.number, line.what, line.amount ? plain(*line.amount, currency) : line.text});
    text += table.text() + "\n";
  }
  if (!schedule.source.empty())
    text += fmt::format("Line numbers: {}; {}.\n\n", schedule.source, schedule.sure);
  return text;
}

std::string plain_lines(const YearFigures& figures, const Currency& currency) {
  TextTable table{{{"Figure", left}, {"", left}, {currency.code, right}}};
  for (const YearSize& one : sizes(figures))
    if (one.line < YearLine::self_employment_tax)
      table.add({std::string{shown(one.line)}, one.name, plain(Money::from_minor(one.size), currency)});
  return table.text() + "\n";
}

std::string place(const std::string& name) {
  return name.empty() ? "no place said" : name;
}

std::string sales_tax(const Books& books, int year, const Currency& currency) {
  const auto places = books.sales_tax(year);
  if (places.empty()) return {};
  TextTable table{{{"Sales tax", left},
                   {"Owed before", right},
                   {"Collected", right},
                   {"Handed on", right},
                   {"Owed", right}}};
  for (const TaxOfPlace& one : places)
    table.add({place(one.place), plain(one.owed_before, currency), plain(one.collected, currency),
               plain(one.handed_on, currency), plain(one.owed, currency)});
  return table.text() + "\n";
}

std::string payments(const Shop& shop, int year, const Currency& currency) {
  const auto ways = received_by_payment(shop, year);
  if (ways.empty()) return {};
  TextTable table{
      {{"Received by", left}, {"Sales", right}, {"Price", right}, {"Sales tax", right}, {"All", right}}};
  for (const Received& way : ways)
    table.add({way.payment.empty() ? "not said" : way.payment, std::to_string(way.sales),
               plain(way.price, currency), plain(way.sales_tax, currency), plain(way.total(), currency)});
  return table.text() + "\n";
}

}  // namespace

std::string books_words(const Books& books, const YearFigures& figures, const FormLines& forms) {
  const Shop& shop = books.shop();
  const Currency& currency = shop.settings.currency;
  const bool form = currency.code == "USD";
  std::string text = fmt::format("The books of {} in {}\n\n", shop.settings.name, figures.year);
  text += form ? laid_out(schedule_c(figures, forms), currency) : plain_lines(figures, currency);
  text += sales_tax(books, figures.year, currency);
  text += payments(shop, figures.year, currency);
  if (form)
    text += fmt::format("Self-employment tax, estimated: {}\n",
                        figures.self_employment_tax ? plain(*figures.self_employment_tax, currency)
                                                    : "not given, the wage base of the year is not known");
  text += fmt::format("Money tied up at the year's end: {} in machines, {} in parts.\n",
                      plain(figures.closing_machines, currency), plain(figures.closing_parts, currency));
  text += fmt::format("Machines sold: {}. Hours: {}. Pay per hour: {}. Miles: {}.\n", figures.machines_sold,
                      decimal_hours(figures.minutes),
                      figures.pay_per_hour ? plain(*figures.pay_per_hour, currency) : "-",
                      size_text(YearUnit::tenths_of_mile, figures.miles.count, currency));
  text += fmt::format("Cost of goods sold by the stock: {}; by the movements: {}: {}.\n",
                      plain(figures.cost_of_goods_sold, currency), plain(figures.moved.total(), currency),
                      figures.off().is_zero() ? "the same" : "off by " + plain(figures.off(), currency));
  text += "This is no tax advice: rules differ by place and change, and a licensed preparer decides.\n";
  return text;
}

std::string why_words(const YearSize& figure, const YearWhy& why, const Currency& currency) {
  std::string text = fmt::format("{}: {}\n{}\n", shown(figure.line, figure.name),
                                 why.given ? size_text(why.unit, why.size, currency) : "not given", why.how);
  if (why.details.empty()) return text + "\n";
  TextTable table{{{"Date", left}, {"What", left}, {"", right}}};
  for (const YearDetail& detail : why.details)
    table.add({detail.line ? "" : iso(detail.date), detail.what, part_text(detail, currency)});
  return text + table.text() + "\n";
}

}  // namespace secondpull::cli
