#include "app/bench/day_book.h"

#include <algorithm>
#include <tuple>

#include <QCoreApplication>
#include <QStringList>

namespace secondpull::app {
namespace {

QString say(const char* text) {
  return QCoreApplication::translate("DayBook", text);
}

QString text(const std::string& utf8) {
  return QString::fromStdString(utf8);
}

template <class Word>
QString wordOf(Word value) {
  const std::string_view name = word(value);
  return QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()));
}

QString joined(std::initializer_list<QString> parts) {
  QStringList kept;
  for (const QString& part : parts)
    if (!part.isEmpty()) kept << part;
  return kept.join(QStringLiteral(" · "));
}

QString nameOf(const Shop& shop, PartId part) {
  const Part* known = shop.find(part);
  return known != nullptr ? text(known->name) : QString{};
}

QString nameOf(const Shop& shop, const std::optional<PersonId>& person) {
  const Person* known = person ? shop.find(*person) : nullptr;
  return known != nullptr ? text(known->name) : QString{};
}

QString pieces(const QString& name, std::int64_t quantity) {
  return quantity == 1 ? name : QStringLiteral("%1 × %2").arg(quantity).arg(name);
}

/// Collects the lines of one machine, each with what the books put on its account for it.
class Book {
 public:
  Book(const Books& books, MachineId machine)
      : shop_{books.shop()}, lines_{books.by_machine().of(machine)}, figures_{books.lines(machine)} {}

  std::vector<DayBookLine> all() {
    if (lines_.machine == nullptr) return {};
    cameIn();
    faults();
    work();
    parts();
    selling();
    std::stable_sort(book_.begin(), book_.end(), [](const DayBookLine& a, const DayBookLine& b) {
      return std::tuple{b.date, b.entered} < std::tuple{a.date, a.entered};
    });
    return std::move(book_);
  }

 private:
  std::optional<Money> amountOf(const AnyId& record) const {
    std::optional<Money> sum;
    for (const FigureLine& line : figures_)
      if (line.event && *line.event == record) sum = sum.value_or(Money{}) + line.amount;
    if (sum && sum->is_zero()) return std::nullopt;
    return sum;
  }

  template <class Record>
  DayBookLine& add(const Record& record, const QString& what, const QString& more) {
    book_.push_back({.record = record.id,
                     .date = record.date,
                     .entered = record.entered,
                     .what = what,
                     .more = more,
                     .amount = amountOf(record.id)});
    return book_.back();
  }

  void cameIn() {
    const Acquisition* acquisition = lines_.acquisition;
    if (acquisition == nullptr) return;
    const QString from = nameOf(shop_, acquisition->from);
    add(*acquisition,
        from.isEmpty() ? say("came in: %1").arg(wordOf(acquisition->source))
                       : say("came in: %1, from %2").arg(wordOf(acquisition->source), from),
        text(acquisition->note));
    for (const Labour* labour : lines_.acquisition_labour)
      add(*labour, wordOf(labour->work),
          joined({say("shared with what came in with it"), text(labour->note)}))
          .minutes = labour->minutes;
    for (const Trip* trip : lines_.trips)
      add(*trip, say("trip: %1").arg(text(trip->purpose)), text(trip->destination));
  }

  void faults() {
    for (const Fault* fault : lines_.faults) {
      DayBookLine& opened = add(*fault, say("fault: %1").arg(text(fault->symptom)), text(fault->note));
      opened.removable = opened.editable = true;
      if (!fault->ended) continue;
      DayBookLine ended = opened;
      ended.date = *fault->ended;
      ended.what = say("%1: %2").arg(fault->how ? wordOf(*fault->how) : say("ended"), text(fault->symptom));
      ended.more = fault->cause.empty() ? QString{} : say("it was %1").arg(text(fault->cause));
      ended.removable = false;
      book_.push_back(ended);
    }
  }

  void work() {
    for (const Finding* finding : lines_.findings) {
      const QString reading = joined(
          {text(finding->reading + (finding->unit.empty() ? "" : " " + finding->unit)), text(finding->note)});
      DayBookLine& line = add(*finding,
                              finding->outcome.empty()
                                  ? text(finding->step)
                                  : QStringLiteral("%1: %2").arg(text(finding->step), text(finding->outcome)),
                              reading);
      line.removable = line.editable = true;
    }
    for (const Labour* labour : lines_.labour) {
      DayBookLine& line = add(*labour, wordOf(labour->work), text(labour->note));
      line.minutes = labour->minutes;
      line.removable = line.editable = true;
    }
  }

  void parts() {
    for (const Fitted* fitted : lines_.fitted) {
      const Machine* donor = fitted->from_donor ? shop_.find(*fitted->from_donor) : nullptr;
      DayBookLine& line =
          add(*fitted, say("fitted %1").arg(pieces(nameOf(shop_, fitted->part), fitted->quantity)),
              donor != nullptr ? say("off #%1").arg(text(donor->tag)) : QString{});
      line.removable = line.editable = true;
    }
    for (const Material* material : lines_.materials) {
      DayBookLine& line = add(*material, say("used %1").arg(text(material->what)), {});
      line.removable = line.editable = true;
    }
    for (const Harvest* harvest : lines_.harvested)
      add(*harvest, say("taken off: %1").arg(pieces(nameOf(shop_, harvest->part), harvest->quantity)), {});
    for (const Disposal* disposal : lines_.disposals)
      add(*disposal, wordOf(disposal->how), {});
  }

  void selling() {
    for (const Listing* listing : lines_.listings)
      add(*listing, say("put out for sale at %1").arg(amount(listing->asking)), text(listing->channel));
    for (const Offer* offer : lines_.offers)
      add(*offer, say("offer of %1").arg(amount(offer->amount)),
          joined({text(offer->who), offer->result ? wordOf(*offer->result) : QString{}}));
    for (const Sale* sale : lines_.sales) {
      const QString buyer = nameOf(shop_, sale->buyer);
      add(*sale,
          buyer.isEmpty() ? say("sold for %1").arg(amount(sale->price))
                          : say("sold to %1 for %2").arg(buyer, amount(sale->price)),
          sale->sold_as ? wordOf(*sale->sold_as) : QString{});
    }
    for (const Return* back : lines_.returns)
      add(*back, say("brought back, %1 returned").arg(amount(back->refunded)), text(back->note));
    for (const Allowance* allowance : lines_.allowances)
      add(*allowance, say("money given back"), {});
  }

  QString amount(Money money) const { return text(shown(money, shop_.settings.currency)); }

  const Shop& shop_;
  const ByMachine::Lines& lines_;
  std::vector<FigureLine> figures_;
  std::vector<DayBookLine> book_;
};

}  // namespace

std::vector<DayBookLine> dayBook(const Books& books, MachineId machine) {
  return Book{books, machine}.all();
}

}  // namespace secondpull::app
