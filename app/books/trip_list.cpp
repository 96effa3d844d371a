#include "app/books/trip_list.h"

#include <QCompleter>
#include <QLineEdit>

#include "app/books/plain_figures.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/grown.h"
#include "core/shop/bench.h"
#include "core/shop/shelf.h"

namespace secondpull::app {
namespace {

QString text(const std::string& said) {
  return QString::fromStdString(said);
}

std::vector<TableColumn<LoggedTrip>> columns(const Session& session) {
  using Row = LoggedTrip;
  const Session* of = &session;
  const auto words = [](const char* key, const QString& title, std::string Row::*member) {
    return TableColumn<Row>{.key = QString::fromLatin1(key),
                            .title = title,
                            .text = [member](const Row& row) { return text(row.*member); }};
  };
  std::vector<TableColumn<Row>> all;
  all.push_back({.key = "date",
                 .title = TripList::tr("Day"),
                 .text = [of](const Row& row) { return text(shown_short(row.date, of->today())); },
                 .sort = [](const Row& row) { return text(iso(row.date)); },
                 .plain = [](const Row& row) { return text(iso(row.date)); }});
  all.push_back(words("destination", TripList::tr("Where to"), &Row::destination));
  all.push_back(words("purpose", TripList::tr("What for"), &Row::purpose));
  all.push_back(words("about", TripList::tr("Machine or lot"), &Row::about));
  all.push_back({.key = "miles",
                 .title = TripList::tr("Miles"),
                 .text = [](const Row& row) { return plainTenths(row.miles); },
                 .sort = [](const Row& row) { return QVariant::fromValue<qlonglong>(row.miles.count); },
                 .number = true});
  all.push_back(
      {.key = "cost",
       .title = TripList::tr("At the rate of its day"),
       .text = [of](const Row& row) { return row.cost ? of->money(*row.cost) : QString{}; },
       .sort =
           [](const Row& row) { return QVariant::fromValue<qlonglong>(row.cost.value_or(Money{}).minor()); },
       .number = true,
       .plain = [of](const Row& row) { return plainMoney(*of, row.cost); }});
  all.push_back({.key = "missing", .title = TripList::tr("Lacks"), .text = [](const Row& row) {
                   return row.missing.empty() ? QString{} : TripList::tr("no %1").arg(text(row.missing));
                 }});
  return all;
}

/// Completes from what was typed on other trips.
void completeFrom(QLineEdit& edit, const Shop& shop, std::string Trip::*member) {
  QStringList before;
  for (const Trip& trip : shop.all<Trip>())
    if (!(trip.*member).empty()) before << text(trip.*member);
  before.removeDuplicates();
  auto* completer = new QCompleter{before, &edit};
  completer->setCaseSensitivity(Qt::CaseInsensitive);
  completer->setFilterMode(Qt::MatchContains);
  edit.setCompleter(completer);
}

}  // namespace

TripList::TripList(Session& session, QWidget* parent)
    : TripList(session, new RowModel<LoggedTrip>{columns(session)}, parent) {}

TripList::TripList(Session& session, RowModel<LoggedTrip>* model, QWidget* parent)
    : EntryList(session, QStringLiteral("trip"), model, parent), model_{model} {
  model_->setParent(this);
}

QString TripList::title(bool changing) const {
  return changing ? tr("Change the trip") : tr("A trip for the shop");
}

QString TripList::whatGoesHere() const {
  return tr(
      "No trip was written down in this year. Type the first one above: a log that counts holds its day, "
      "miles, where to and what for.");
}

void TripList::addFields(Form& form) {
  addDay(form);
  const auto shop = session().shop();
  miles_ = new TenthsEdit{QStringLiteral("miles"), tr("miles"), &form};
  miles_->setObjectName(QStringLiteral("tripMiles"));
  miles_->setRequired(true);
  destination_ = new QLineEdit{&form};
  destination_->setObjectName(QStringLiteral("tripDestination"));
  completeFrom(*destination_, *shop, &Trip::destination);
  purpose_ = new QLineEdit{&form};
  purpose_->setObjectName(QStringLiteral("tripPurpose"));
  completeFrom(*purpose_, *shop, &Trip::purpose);
  about_ = new RecordPicker{session(), RecordPicker::Of::machine_or_lot, QStringLiteral("tripAbout"), &form};
  form.addField(QStringLiteral("miles"), tr("Miles, there and back"), miles_);
  form.addField(QStringLiteral("destination"), tr("Where to"), destination_);
  form.addField(QStringLiteral("purpose"), tr("What for"), purpose_);
  form.addField(QStringLiteral("machine"),
                isTextLarge() ? tr("Machine or lot") : tr("Machine or lot, if for one"), about_);
}

void TripList::fill(const AnyId& record) {
  const auto shop = session().shop();
  const Trip* now = shop->find(std::get<TripId>(record));
  if (now == nullptr) return;
  setDay(now->date);
  miles_->setValue(now->miles);
  destination_->setText(text(now->destination));
  purpose_->setText(text(now->purpose));
  if (now->machine) about_->setPicked(number(*now->machine));
  if (now->acquisition) about_->setPicked(number(*now->acquisition));
}

Result<Change> TripList::typed(const std::optional<AnyId>& changing) const {
  const auto shop = session().shop();
  if (about_->isNew())
    return problem(tr("No machine and no lot has that tag or name.").toStdString(), "machine",
                   about_->text().toStdString());
  Trip trip;
  if (changing) {
    const Trip* before = shop->find(std::get<TripId>(*changing));
    if (before == nullptr) return problem(tr("This line is no longer there.").toStdString());
    trip = *before;
  }
  trip.date = day();
  trip.miles = miles_->value().value_or(Tenths{});
  trip.destination = destination_->text().trimmed().toStdString();
  trip.purpose = purpose_->text().trimmed().toStdString();
  trip.machine = about_->pickedIn<MachineId>(*shop);
  trip.acquisition = about_->pickedIn<AcquisitionId>(*shop);
  return changing ? replace_line(*shop, AnyRecord{trip}) : add_trip(*shop, trip);
}

void TripList::setRows(int year) {
  log_ = mileage_log(*session().shop(), session().mileageRates(), year);
  model_->setRows(log_.trips);
}

}  // namespace secondpull::app
