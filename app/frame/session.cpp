#include "app/frame/session.h"

#include <algorithm>

#include <QDateTime>
#include <QHash>

#include "app/frame/writer.h"
#include "app/planning/planning.h"
#include "core/shop/bench.h"
#include "db/exchange/knowledge_json.h"
#include "db/rates/published_rates.h"

namespace secondpull::app {
namespace {

constexpr std::size_t kMostInHand = 6;
constexpr auto kInHandKey = "frame.in-hand";

QString say(const std::string& text) {
  return QString::fromStdString(text);
}

/// The day in this place on which an instant lies.
Date localDay(db::Instant instant) {
  const QDate day = QDateTime::fromMSecsSinceEpoch(instant.time_since_epoch().count()).date();
  return {std::chrono::year{day.year()}, std::chrono::month{static_cast<unsigned>(day.month())},
          std::chrono::day{static_cast<unsigned>(day.day())}};
}

QString kindWords(MachineKind kind) {
  switch (kind) {
    case MachineKind::push:
      return Session::tr("push mower");
    case MachineKind::other:
      return Session::tr("machine");
    default:
      return say(std::string{word(kind)});
  }
}

}  // namespace

struct Session::Impl {
  Impl(db::Store store, Clock clock_in)
      : clock{std::move(clock_in)},
        folder{store.folder()},
        shop{store.shop()},
        running{store.clock()},
        writer{std::move(store)} {
    for (const db::Draft& draft : writer.ask([](db::Store& at) { return at.drafts(); }))
      drafts.insert(say(draft.form), say(draft.text));
  }

  Clock clock;
  std::filesystem::path folder;
  std::shared_ptr<const Shop> shop;
  std::optional<db::Clock> running;
  std::optional<Problem> held;  ///< why nothing may change the shop now
  QHash<QString, QString> drafts;
  mutable QHash<QString, std::optional<QString>> preferences;  ///< as far as they have been asked for
  mutable std::shared_ptr<const Books> books;
  mutable std::shared_ptr<const Shop> books_of;  ///< the records that `books` were last tried for
  mutable std::optional<Problem> books_problem;
  mutable std::shared_ptr<const learning::KnowledgeBase> knowledge;
  mutable std::optional<Problem> knowledge_problem;
  mutable Table<KnowledgeEdit> knowledge_of;  ///< the own entries that are laid over it
  mutable Writer writer;  ///< it goes before all above, and what it still has to do may not outlive them
  std::unique_ptr<Planning> planning;

  void makeBooks() const;
  /// Has something kept that nobody waits for; a failure is said on the What-now line.
  void keep(Session& session, std::function<Result<void>(db::Store&)> task);
  std::optional<Problem> settle(const Result<db::Done>& done, Session& session, const QString& said);
};

void Session::Impl::makeBooks() const {
  if (books_of == shop) return;
  books_of = shop;
  const MileageRates& rates = db::published_mileage_rates();
  Result<Books> made = Books::of(shop, rates);
  books_problem = made ? std::nullopt : std::optional<Problem>{made.error()};
  if (!made) made = Books::without_unrated_trips(shop, rates);
  if (made)
    books = std::make_shared<const Books>(*std::move(made));
  else if (books == nullptr)
    books = std::make_shared<const Books>(Books::of(std::make_shared<const Shop>(), rates).value());
}

void Session::Impl::keep(Session& session, std::function<Result<void>(db::Store&)> task) {
  writer.post([&session, task = std::move(task)](db::Store& at) {
    const Result<void> done = task(at);
    if (done) return;
    QMetaObject::invokeMethod(
        &session, [&session, sentence = say(done.error().sentence)] { emit session.said(sentence); },
        Qt::QueuedConnection);
  });
}

std::optional<Problem> Session::Impl::settle(const Result<db::Done>& done, Session& session,
                                             const QString& said) {
  if (!done) return done.error();
  shop = writer.ask([](db::Store& at) { return at.shop(); });
  emit session.changed(done->changed);
  emit session.said(said.arg(say(done->title)));
  return std::nullopt;
}

Session::Session(db::Store store, Clock clock, QObject* parent)
    : QObject(parent), impl_{std::make_unique<Impl>(std::move(store), std::move(clock))} {}

Session::~Session() = default;

std::shared_ptr<const Shop> Session::shop() const {
  return impl_->shop;
}

std::shared_ptr<const Books> Session::books() const {
  impl_->makeBooks();
  return impl_->books;
}

const MileageRates& Session::mileageRates() const {
  return db::published_mileage_rates();
}
const SelfEmploymentRates& Session::taxRates() const {
  return db::published_self_employment_rates();
}
const FormLines& Session::formLines() const {
  return db::published_form_lines();
}

std::optional<Problem> Session::booksProblem() const {
  impl_->makeBooks();
  return impl_->books_problem;
}

std::shared_ptr<const learning::KnowledgeBase> Session::knowledge() const {
  const auto& own = impl_->shop->all<KnowledgeEdit>();
  if (impl_->knowledge != nullptr && impl_->knowledge_of == own) return impl_->knowledge;
  impl_->knowledge_of = own;
  impl_->knowledge_problem.reset();
  // The published one lives as long as the program.
  impl_->knowledge = {std::shared_ptr<void>{}, &db::published_knowledge()};
  if (own.empty()) return impl_->knowledge;
  if (auto made = db::knowledge_with_own_entries(*impl_->shop))
    impl_->knowledge = std::make_shared<const learning::KnowledgeBase>(*std::move(made));
  else
    impl_->knowledge_problem = made.error();
  return impl_->knowledge;
}

std::optional<Problem> Session::knowledgeProblem() const {
  knowledge();
  return impl_->knowledge_problem;
}

Planning& Session::planning() {
  if (impl_->planning == nullptr) impl_->planning = std::make_unique<Planning>(*this);
  return *impl_->planning;
}

Date Session::today() const {
  return localDay(impl_->clock());
}
db::Instant Session::now() const {
  return impl_->clock();
}
Currency Session::currency() const {
  return impl_->shop->settings.currency;
}
std::filesystem::path Session::folder() const {
  return impl_->folder;
}

std::optional<Problem> Session::perform(Result<Change> change) {
  if (!change) return change.error();
  if (change->empty()) return std::nullopt;
  if (impl_->held) return impl_->held;
  const auto done = impl_->writer.ask([&](db::Store& at) { return at.perform(*change, now()); });
  return impl_->settle(done, *this, tr("%1. Ctrl+Z takes it back."));
}

std::optional<Problem> Session::undo() {
  if (impl_->held) return impl_->held;
  const auto done = impl_->writer.ask([](db::Store& at) { return at.undo(); });
  return impl_->settle(done, *this, tr("Taken back: %1. Ctrl+Shift+Z does it again."));
}

std::optional<Problem> Session::redo() {
  if (impl_->held) return impl_->held;
  const auto done = impl_->writer.ask([](db::Store& at) { return at.redo(); });
  return impl_->settle(done, *this, tr("Done again: %1. Ctrl+Z takes it back."));
}

std::vector<int> Session::yearsUndoOpens() const {
  std::vector<int> years;
  for (const AnyId& id : impl_->writer.ask([](db::Store& at) { return at.undo_would_change(); }))
    if (const auto* closed = std::get_if<ClosedYearId>(&id))
      if (const ClosedYear* year = impl_->shop->find(*closed)) years.push_back(static_cast<int>(year->year));
  return years;
}

std::vector<db::HistoryEntry> Session::history() const {
  return impl_->writer.ask([](db::Store& at) { return at.history(); });
}

std::optional<Problem> Session::setSettings(const Settings& settings) {
  if (impl_->held) return impl_->held;
  const auto done = impl_->writer.ask([&](db::Store& at) { return at.set_settings(settings); });
  if (!done) return done.error();
  impl_->shop = impl_->writer.ask([](db::Store& at) { return at.shop(); });
  emit changed({});
  return std::nullopt;
}

void Session::hold(const QString& sentence) {
  impl_->held = Problem{sentence.toStdString(), {}, {}};
}

void Session::resume(const std::optional<db::Done>& done) {
  impl_->held.reset();
  if (!done) return;
  impl_->shop = impl_->writer.ask([](db::Store& at) { return at.shop(); });
  emit changed({});
  emit said(tr("%1. Ctrl+Z takes it back.").arg(say(done->title)));
}

void Session::withStore(const std::function<void(db::Store&)>& task) {
  impl_->writer.ask([&task](db::Store& at) { task(at); });
}

std::optional<db::Clock> Session::clock() const {
  return impl_->running;
}

Minutes Session::clockMinutes() const {
  if (!impl_->running) return {};
  const auto run = std::chrono::round<std::chrono::minutes>(now() - impl_->running->started);
  return Minutes{std::max<std::int64_t>(run.count(), 1)};
}

std::optional<Problem> Session::startClock(MachineId machine) {
  if (impl_->running)
    return Problem{
        tr("The clock runs on #%1 already; stop it first.").arg(tagOf(impl_->running->machine)).toStdString(),
        "clock", tagOf(impl_->running->machine).toStdString()};
  const db::Clock clock{machine, now()};
  const auto done = impl_->writer.ask([&](db::Store& at) { return at.set_clock(clock); });
  if (!done) return done.error();
  impl_->running = clock;
  takeInHand(machine);
  emit clockChanged();
  emit said(tr("The clock runs on #%1.").arg(tagOf(machine)));
  return std::nullopt;
}

std::optional<Problem> Session::stopClock(Work work, std::optional<Minutes> instead) {
  if (!impl_->running) return Problem{tr("No clock is running.").toStdString(), "clock", {}};
  const db::Clock clock = *impl_->running;
  const Minutes minutes = instead.value_or(clockMinutes());
  if (auto wrong = perform(log_labour(*shop(), clock.machine, localDay(clock.started), minutes, work, {})))
    return wrong;
  discardClock();
  return std::nullopt;
}

void Session::discardClock() {
  const auto done = impl_->writer.ask([](db::Store& at) { return at.set_clock(std::nullopt); });
  if (!done) return emit said(say(done.error().sentence));
  impl_->running.reset();
  emit clockChanged();
}

void Session::restartClock() {
  if (!impl_->running) return;
  const db::Clock clock{impl_->running->machine, now()};
  const auto done = impl_->writer.ask([&](db::Store& at) { return at.set_clock(clock); });
  if (!done) return emit said(say(done.error().sentence));
  impl_->running = clock;
  emit clockChanged();
}

void Session::saveDraft(const QString& form, const QString& text) {
  impl_->drafts.insert(form, text);
  impl_->keep(*this, [form, text, at_time = now()](db::Store& at) {
    return at.save_draft(form.toStdString(), text.toStdString(), at_time);
  });
}

void Session::dropDraft(const QString& form) {
  if (impl_->drafts.remove(form) == 0) return;
  impl_->keep(*this, [form](db::Store& at) { return at.drop_draft(form.toStdString()); });
}

std::optional<QString> Session::draft(const QString& form) const {
  const auto found = impl_->drafts.constFind(form);
  return found == impl_->drafts.constEnd() ? std::nullopt : std::optional<QString>{*found};
}

void Session::setPreference(const QString& key, const QString& value) {
  impl_->preferences.insert(key, value);
  impl_->keep(*this, [key, value](db::Store& at) {
    return at.set_preference(key.toStdString(), value.toStdString());
  });
}

QString Session::preference(const QString& key, const QString& otherwise) const {
  auto found = impl_->preferences.constFind(key);
  if (found == impl_->preferences.constEnd()) {
    const auto kept = impl_->writer.ask([&](db::Store& at) { return at.preference(key.toStdString()); });
    found = impl_->preferences.insert(key, kept ? std::optional<QString>{say(*kept)} : std::nullopt);
  }
  return found->value_or(otherwise);
}

std::vector<db::Hit> Session::search(const QString& text) const {
  return impl_->writer.ask([&](db::Store& at) { return at.search(text.toStdString()); });
}

Result<std::string> Session::keepPhoto(const QByteArray& content) {
  std::vector<std::byte> bytes(static_cast<std::size_t>(content.size()));
  std::transform(content.begin(), content.end(), bytes.begin(),
                 [](char c) { return static_cast<std::byte>(c); });
  return impl_->writer.ask([&](db::Store& at) { return at.keep_photo(bytes); });
}

QByteArray Session::photo(const std::string& sha256) const {
  const auto bytes = impl_->writer.ask([&](db::Store& at) { return at.photo(sha256); });
  if (!bytes) return {};
  return QByteArray{reinterpret_cast<const char*>(bytes->data()), static_cast<qsizetype>(bytes->size())};
}

std::vector<MachineId> Session::inHand() const {
  std::vector<MachineId> machines;
  for (const QString& id : preference(kInHandKey).split(',', Qt::SkipEmptyParts))
    if (const auto machine = static_cast<MachineId>(id.toLongLong()); impl_->shop->find(machine) != nullptr)
      machines.push_back(machine);
  return machines;
}

void Session::takeInHand(MachineId machine) {
  std::vector<MachineId> machines = inHand();
  if (!machines.empty() && machines.front() == machine) return;
  std::erase(machines, machine);
  machines.insert(machines.begin(), machine);
  machines.resize(std::min(machines.size(), kMostInHand));
  QStringList ids;
  for (const MachineId at : machines)
    ids.append(QString::number(static_cast<qlonglong>(number(at))));
  setPreference(kInHandKey, ids.join(','));
  emit inHandChanged();
}

QString Session::money(Money amount) const {
  return say(shown(amount, currency()));
}

QString Session::money(const std::optional<Money>& amount) const {
  return amount ? money(*amount) : QString{QChar{0x2014}};
}

QString Session::tagOf(MachineId machine) const {
  const Machine* found = impl_->shop->find(machine);
  return found != nullptr ? say(found->tag) : QString{};
}

QString Session::nameOf(MachineId machine) const {
  const Machine* found = impl_->shop->find(machine);
  if (found == nullptr) return {};
  QStringList words;
  for (const std::string* text : {&found->make, &found->model})
    if (!text->empty()) words.append(say(*text));
  words.append(kindWords(found->kind));
  return words.join(' ');
}

}  // namespace secondpull::app
