#include "app/frame/finder.h"

#include <algorithm>
#include <set>

#include "app/frame/session.h"

namespace secondpull::app {
namespace {

constexpr std::size_t kMost = 12;
constexpr std::size_t kMostDeeds = 6;  // so that what was searched for is seen below them

QString say(const std::string& text) {
  return QString::fromStdString(text);
}

/// Does each typed word begin a word of the deed?
bool answersTo(const QString& words, const QStringList& typed) {
  const QStringList own = words.toCaseFolded().split(' ', Qt::SkipEmptyParts);
  return std::all_of(typed.begin(), typed.end(), [&](const QString& word) {
    return std::any_of(own.begin(), own.end(), [&](const QString& at) { return at.startsWith(word); });
  });
}

Found machineFound(const Session& session, const Ways& ways, MachineId machine, const QString& matched) {
  const std::shared_ptr<const Books> books = session.books();
  QString detail = say(standing(*session.shop(), books->by_machine().of(machine), session.today()));
  const QString title = QString{"#%1  %2"}.arg(session.tagOf(machine), session.nameOf(machine));
  if (!matched.isEmpty() && !title.contains(matched, Qt::CaseInsensitive)) detail = matched + " · " + detail;
  return {"tag", title, detail, [open = ways.open_machine, machine] { open(machine); }};
}

/// The machine that one would turn to about a person: the last one sold to them, else the last one from them.
std::optional<MachineId> machineOf(const Shop& shop, PersonId person) {
  std::optional<MachineId> found;
  for (const Machine& machine : shop.all<Machine>())
    if (const Acquisition* in = shop.find(machine.acquisition); in != nullptr && in->from == person)
      found = machine.id;
  for (const Sale& sale : shop.all<Sale>())
    if (sale.buyer == person) found = sale.machine;
  return found;
}

Found personFound(const Session& session, const Ways& ways, const Person& person) {
  QStringList about;
  if (!person.phone.empty()) about.append(say(person.phone));
  if (!person.note.empty()) about.append(say(person.note));
  const std::optional<MachineId> machine = machineOf(*session.shop(), person.id);
  if (machine) about.append("#" + session.tagOf(*machine));
  const QString name = say(person.name), detail = about.join(" · ");
  return {"person", name, detail, [ways, machine, name, detail] {
            if (machine) return ways.open_machine(*machine);
            ways.say(detail.isEmpty() ? name : name + ": " + detail);
          }};
}

/// The page on which records of a kind are looked at, and their picture.
struct Place {
  QString icon, page, kind;
};
Place placeOf(const AnyId& record) {
  if (std::holds_alternative<PartId>(record)) return {"part", "Shelf", Session::tr("part")};
  if (std::holds_alternative<OrderId>(record) || std::holds_alternative<OrderLineId>(record))
    return {"order", "Shelf", Session::tr("order")};
  if (std::holds_alternative<ExpenseId>(record)) return {"spent", "Books", Session::tr("expense")};
  if (std::holds_alternative<TripId>(record)) return {"trip", "Books", Session::tr("trip")};
  if (std::holds_alternative<FindId>(record)) return {"scout", "Scout", Session::tr("find")};
  return {"note", "Books", Session::tr("note")};
}

class Gathering {
 public:
  Gathering(const Session& session, const Ways& ways) : session_{session}, ways_{ways} {}

  void machine(MachineId machine, const QString& matched) {
    if (machines_.insert(machine).second) found_.push_back(machineFound(session_, ways_, machine, matched));
  }
  void hit(const db::Hit& hit) {
    if (const auto* id = std::get_if<PersonId>(&hit.record)) {
      if (const Person* person = session_.shop()->find(*id); person != nullptr)
        found_.push_back(personFound(session_, ways_, *person));
      return;
    }
    if (hit.machine) return machine(*hit.machine, say(hit.text).simplified());
    const Place place = placeOf(hit.record);
    found_.push_back({place.icon, say(hit.text).simplified(), place.kind,
                      [open = ways_.open_page, page = place.page] { open(page); }});
  }
  void deed(const Page::Deed& deed) {
    found_.push_back({"arrow", deed.words, deed.key.toString(QKeySequence::NativeText), deed.run});
  }
  bool full() const { return found_.size() >= kMost; }
  std::vector<Found> take() && { return std::move(found_); }

 private:
  const Session& session_;
  const Ways& ways_;
  std::vector<Found> found_;
  std::set<MachineId> machines_;
};

}  // namespace

std::vector<Found> findWhatNow(const QString& typed, const Session& session,
                               const std::vector<Page::Deed>& deeds, const Ways& ways) {
  Gathering gathering(session, ways);
  const QString text = typed.trimmed();
  const QString tag = (text.startsWith('#') ? text.mid(1) : text).trimmed();
  if (!tag.isEmpty())
    for (const Machine& machine : session.shop()->all<Machine>())
      if (say(machine.tag).compare(tag, Qt::CaseInsensitive) == 0) gathering.machine(machine.id, {});
  if (!text.startsWith('#')) {
    const QStringList words = text.toCaseFolded().split(' ', Qt::SkipEmptyParts);
    std::set<QString> shown;  // two pages that do the same: the one that is open comes first
    const std::size_t most = text.isEmpty() ? kMost : kMostDeeds;
    for (const Page::Deed& deed : deeds)
      if (shown.size() < most && answersTo(deed.words, words) && shown.insert(deed.words).second)
        gathering.deed(deed);
  }
  if (!tag.isEmpty())
    for (const db::Hit& hit : session.search(tag)) {
      if (gathering.full()) break;
      gathering.hit(hit);
    }
  return std::move(gathering).take();
}

}  // namespace secondpull::app
