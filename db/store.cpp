#include "db/store.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "core/books/closing.h"
#include "core/shop/rules.h"
#include "db/failure.h"
#include "db/files.h"
#include "db/migrations.h"
#include "db/rates/published_rates.h"
#include "db/rows/kinds.h"
#include "db/store_impl.h"

namespace secondpull::db {

namespace fs = std::filesystem;

namespace {

/// A change of more edits than this keeps no changeset: it is undone by the backup made before it.
constexpr std::size_t most_undoable_edits = 200'000;

/// The first rule that the change breaks, or nothing. What was broken before it is not its fault.
std::optional<Problem> broken_by_change(const Shop& before, const Shop& after) {
  const std::vector<RuleBreak> broken = broken_rules(after);
  if (broken.empty()) return std::nullopt;
  const std::vector<RuleBreak> old = broken_rules(before);
  for (const RuleBreak& one : broken) {
    const bool is_old = std::ranges::any_of(old, [&](const RuleBreak& other) {
      return other.record == one.record && other.problem == one.problem;
    });
    if (!is_old) return one.problem;
  }
  return std::nullopt;
}

std::vector<AnyId> ids_of(const Change& change) {
  std::vector<AnyId> ids;
  ids.reserve(change.edits().size());
  for (const Edit& edit : change.edits())
    ids.push_back(id_of(edit.record));
  std::ranges::sort(ids);
  ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
  return ids;
}

/// A folder copied from elsewhere may be open to all.
void make_private(const fs::path& folder) {
  make_private_folder(folder);
  make_private_file(shop_file(folder));
}

}  // namespace

Store::Impl::Impl(fs::path shop_folder, Access as, std::optional<ShopLock> held, SQLite::Database opened,
                  Instant at)
    : folder{std::move(shop_folder)},
      access{as},
      lock{std::move(held)},
      database{std::move(opened)},
      records{database},
      history{database},
      desk{database},
      photos{photo_folder(folder)},
      backups{backup_folder(folder)},
      index{search_file(folder)},
      now{at} {}

void Store::Impl::expect_writer() const {
  if (access != Access::write)
    throw Failure{
        {fmt::format("The shop in {} was opened for reading alone.", folder.string()), "", folder.string()}};
}

void Store::Impl::load() {
  SQLite::Transaction snapshot{database};
  auto loaded = std::make_shared<Shop>();
  state = desk.state();
  loaded->settings = desk.settings();
  loaded->next_id = state.next_id;
  records.load(*loaded);
  shop = std::move(loaded);
}

template <class Work>
Result<void> Store::Impl::write(Work&& work) {
  return guarded(file(), [&] {
    expect_writer();
    WriteScope scope{database};
    work();
    scope.commit();
  });
}

Store::Store(std::unique_ptr<Impl> impl) : impl_{std::move(impl)} {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Result<Store> Store::create(const fs::path& folder, const Settings& settings, Instant now) {
  const auto made = guarded(folder, [&] {
    if (!can_hold_new_shop(folder))
      throw Failure{{fmt::format("{} is not empty. A new shop needs a folder of its own.", folder.string()),
                     "folder", folder.string()}};
    make_private_folder(folder);
    const ShopLock lock = ShopLock::take(folder, now);
    make_shop_file(folder, settings, schema_migrations());
  });
  if (!made) return tl::unexpected{made.error()};
  return open(folder, Access::write, now);
}

Result<Store> Store::open(const fs::path& folder, Access access, Instant now) {
  return open(folder, access, now, schema_migrations());
}

Result<Store> Store::open(const fs::path& folder, Access access, Instant now,
                          std::span<const Migration> migrations) {
  return guarded(shop_file(folder), [&] {
    const bool writing = access == Access::write;
    const std::optional<std::string> holder = ShopLock::holder(folder);
    if (writing && holder) throw Failure{{ShopLock::refusal(folder, *holder), "", folder.string()}};
    // One that is open was judged by who has it open, and its log is not ours to copy while it grows.
    if (!holder) judge_shop_file(shop_file(folder), migrations);
    std::optional<ShopLock> lock;
    if (writing) {
      lock = ShopLock::take(folder, now);
      make_private(folder);
    }
    auto impl =
        std::make_unique<Impl>(folder, access, std::move(lock),
                               open_file(shop_file(folder), writing ? OpenAs::writer : OpenAs::reader), now);
    if (writing) impl->database.exec("PRAGMA journal_mode = WAL");
    if (const int version = version_of(impl->database); version < newest_version(migrations)) {
      if (!writing)
        throw Failure{
            {fmt::format("The shop in {} was last written by an older Second Pull. Open it once for writing, "
                         "which brings it up to date.",
                         folder.string()),
             "", folder.string()}};
      impl->backups.make(impl->database, now);
      migrate(impl->database, migrations);
    }
    impl->load();
    impl->state.sitting += 1;
    return Store{std::move(impl)};
  });
}

const fs::path& Store::folder() const {
  return impl_->folder;
}
std::shared_ptr<const Shop> Store::shop() const {
  return impl_->shop;
}
std::uint64_t Store::generation() const {
  return static_cast<std::uint64_t>(impl_->state.revision);
}

Result<Done> Store::perform(const Change& change, Instant now) {
  Impl& in = *impl_;
  if (change.empty()) return Done{change.title(), {}};
  Result<Shop> candidate = apply(*in.shop, change);
  if (!candidate) return tl::unexpected{candidate.error()};
  if (auto broken = broken_by_change(*in.shop, *candidate)) return tl::unexpected{*broken};
  const auto shop = std::make_shared<const Shop>(std::move(*candidate));
  if (auto moved = moves_closed_year(in.shop, shop, change, published_mileage_rates(),
                                     published_self_employment_rates()))
    return tl::unexpected{*moved};
  return guarded(in.file(), [&] {
    in.expect_writer();
    in.now = now;
    in.back_up_the_day();
    NewEntry entry{.at = now, .title = change.title(), .sitting = in.state.sitting};
    const bool undoable = change.edits().size() <= most_undoable_edits;
    if (!undoable) entry.backup = in.make_backup().filename().string();

    Done done{change.title(), ids_of(change)};
    Desk::State state = Desk::advanced(in.state);
    state.next_id = shop->next_id;

    WriteScope scope{in.database};
    {
      std::optional<ChangeRecorder> recorder;
      if (undoable) recorder.emplace(in.database);
      for (const Edit& edit : change.edits())
        in.records.write(edit);
      if (recorder) {
        entry.changeset = recorder->take();
        entry.changes = static_cast<std::int64_t>(ids_in(*entry.changeset).size());
      }
    }
    in.history.add(entry);
    in.desk.set_state(state);
    scope.commit();

    const std::int64_t stamp_before = std::exchange(in.state, state).stamp;
    in.shop = shop;
    in.index.update(*in.shop, done.changed, stamp_before, in.state.stamp);
    return done;
  });
}

Done Store::Impl::travel(Direction direction) {
  expect_writer();
  const bool back = direction == Direction::backward;
  const std::optional<StoredEntry> entry = back ? history.last_done() : history.first_undone();
  if (!entry) throw Failure{{back ? "There is nothing to undo." : "There is nothing to redo.", "", ""}};
  if (!entry->changeset)
    throw Failure{{entry->backup.empty()
                       ? fmt::format("\"{}\" can no longer be undone.", entry->title)
                       : fmt::format("\"{}\" was too large to be undone. The shop as it was before is in {}.",
                                     entry->title, (backup_folder(folder) / entry->backup).string()),
                   "", entry->title}};
  back_up_the_day();
  Done done{entry->title, ids_in(*entry->changeset)};
  auto changed_shop = std::make_shared<Shop>(*shop);
  const Desk::State changed_state = Desk::advanced(state);

  WriteScope scope{database};
  apply_changeset(database, *entry->changeset, direction);
  history.mark(entry->id, back);
  desk.set_state(changed_state);
  records.refresh(*changed_shop, done.changed);
  scope.commit();

  const std::int64_t stamp_before = std::exchange(state, changed_state).stamp;
  shop = std::move(changed_shop);
  index.update(*shop, done.changed, stamp_before, state.stamp);
  return done;
}

Result<Done> Store::undo() {
  return guarded(impl_->file(), [&] { return impl_->travel(Direction::backward); });
}

Result<Done> Store::redo() {
  return guarded(impl_->file(), [&] { return impl_->travel(Direction::forward); });
}

std::vector<AnyId> Store::undo_would_change() const {
  const auto last = impl_->history.last_done();
  return last && last->changeset ? ids_in(*last->changeset) : std::vector<AnyId>{};
}

std::vector<HistoryEntry> Store::history(std::size_t limit) const {
  return impl_->history.list(limit, impl_->state.sitting);
}

Result<void> Store::set_settings(const Settings& settings) {
  Impl& in = *impl_;
  if (settings.currency != in.shop->settings.currency && !in.shop->empty())
    return problem("The currency cannot be changed once there are records: their amounts are in it.",
                   "currency", settings.currency.code);
  auto shop = std::make_shared<Shop>(*in.shop);
  shop->settings = settings;
  const Desk::State state = Desk::advanced(in.state);
  const auto written = in.write([&] {
    in.desk.set_settings(settings);
    in.desk.set_state(state);
  });
  if (!written) return written;
  in.shop = std::move(shop);
  in.state = state;
  return {};
}

Result<void> Store::set_clock(const std::optional<Clock>& clock) {
  return impl_->write([&] { impl_->desk.set_clock(clock); });
}

std::optional<Clock> Store::clock() const {
  // Its machine may have been taken back since.
  const std::optional<Clock> clock = impl_->desk.clock();
  return clock && impl_->shop->find(clock->machine) != nullptr ? clock : std::nullopt;
}

Result<void> Store::save_draft(const std::string& form, const std::string& text, Instant now) {
  return impl_->write([&] { impl_->desk.save_draft({form, text, now}); });
}

Result<void> Store::drop_draft(const std::string& form) {
  return impl_->write([&] { impl_->desk.drop_draft(form); });
}

std::vector<Draft> Store::drafts() const {
  return impl_->desk.drafts();
}

Result<void> Store::set_preference(const std::string& key, const std::string& value) {
  return impl_->write([&] { impl_->desk.set_preference(key, value); });
}

std::optional<std::string> Store::preference(const std::string& key) const {
  return impl_->desk.preference(key);
}

std::vector<Hit> Store::search(std::string_view text, std::size_t limit) const {
  Impl& in = *impl_;
  const Query query = query_of(text);
  if (in.access == Access::read) return search_records(*in.shop, query, limit);
  return in.index.find(*in.shop, in.state.stamp, query, limit);
}

std::string Store::dump() const {
  return impl_->records.dump();
}

}  // namespace secondpull::db
