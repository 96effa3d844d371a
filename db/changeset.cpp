#include "db/changeset.h"

#include <algorithm>
#include <map>
#include <string_view>

// sqlite3.h declares the session extension only to those who ask; Debian's library has it.
#define SQLITE_ENABLE_SESSION
#define SQLITE_ENABLE_PREUPDATE_HOOK
#include <fmt/format.h>
#include <sqlite3.h>

#include "db/failure.h"
#include "db/rows/kinds.h"

namespace secondpull::db {

namespace {

struct Freer {
  void operator()(void* memory) const { sqlite3_free(memory); }
};
using Buffer = std::unique_ptr<void, Freer>;

[[noreturn]] void fail(std::string_view what, int code) {
  throw Failure{{fmt::format("The history of the shop {}: {}.", what, sqlite3_errstr(code)), "", ""}};
}

// The library's functions take a changeset as a pointer that may be written to, and do not write.
void* unconst(std::span<const std::byte> changeset) {
  return const_cast<std::byte*>(changeset.data());
}

class Reader {
 public:
  explicit Reader(std::span<const std::byte> changeset) {
    const int code =
        sqlite3changeset_start(&iterator_, static_cast<int>(changeset.size()), unconst(changeset));
    if (code != SQLITE_OK) fail("cannot be read", code);
  }
  Reader(const Reader&) = delete;
  Reader& operator=(const Reader&) = delete;
  ~Reader() { sqlite3changeset_finalize(iterator_); }

  bool next() {
    const int code = sqlite3changeset_next(iterator_);
    if (code != SQLITE_ROW && code != SQLITE_DONE) fail("cannot be read", code);
    if (code == SQLITE_ROW) sqlite3changeset_op(iterator_, &table_, &columns_, &operation_, nullptr);
    return code == SQLITE_ROW;
  }
  std::string_view table() const { return table_; }
  /// The value before or after, or nullptr where there is none (an addition has no before).
  sqlite3_value* before(int column) const {
    sqlite3_value* value = nullptr;
    if (operation_ != SQLITE_INSERT) sqlite3changeset_old(iterator_, column, &value);
    return value;
  }
  sqlite3_value* after(int column) const {
    sqlite3_value* value = nullptr;
    if (operation_ != SQLITE_DELETE) sqlite3changeset_new(iterator_, column, &value);
    return value;
  }
  std::int64_t id() const { return sqlite3_value_int64(operation_ == SQLITE_INSERT ? after(0) : before(0)); }

 private:
  sqlite3_changeset_iter* iterator_ = nullptr;
  const char* table_ = nullptr;
  int columns_ = 0;
  int operation_ = 0;
};

using IdMaker = AnyId (*)(std::int64_t);

const std::map<std::string_view, IdMaker>& id_makers() {
  static const auto makers = [] {
    std::map<std::string_view, IdMaker> made;
    each_kind([&]<class Record>(std::type_identity<Record>) {
      made.emplace(Rows<Record>::table,
                   [](std::int64_t id) { return AnyId{static_cast<decltype(Record::id)>(id)}; });
    });
    return made;
  }();
  return makers;
}

int refuse_conflict(void* told, int kind, sqlite3_changeset_iter* iterator) {
  const char* table = "";
  int columns = 0;
  int operation = 0;
  if (kind != SQLITE_CHANGESET_FOREIGN_KEY)  // that one stands for the whole changeset, not for a row
    sqlite3changeset_op(iterator, &table, &columns, &operation, nullptr);
  *static_cast<std::string*>(told) = table;
  return SQLITE_CHANGESET_ABORT;
}

}  // namespace

void ChangeRecorder::Closer::operator()(sqlite3_session* session) const {
  sqlite3session_delete(session);
}

ChangeRecorder::ChangeRecorder(SQLite::Database& database) {
  sqlite3_session* session = nullptr;
  int code = sqlite3session_create(database.getHandle(), "main", &session);
  session_.reset(session);
  each_kind([&]<class Record>(std::type_identity<Record>) {
    if (code == SQLITE_OK) code = sqlite3session_attach(session, Rows<Record>::table);
  });
  if (code != SQLITE_OK) fail("cannot be kept", code);
}

Changeset ChangeRecorder::take() const {
  int size = 0;
  void* memory = nullptr;
  const int code = sqlite3session_changeset(session_.get(), &size, &memory);
  const Buffer buffer{memory};
  if (code != SQLITE_OK) fail("cannot be kept", code);
  const auto* bytes = static_cast<const std::byte*>(memory);
  return Changeset(bytes, bytes + size);
}

std::vector<AnyId> ids_in(std::span<const std::byte> changeset) {
  std::vector<AnyId> ids;
  for (Reader rows{changeset}; rows.next();) {
    const auto maker = id_makers().find(rows.table());
    if (maker != id_makers().end()) ids.push_back(maker->second(rows.id()));
  }
  return ids;
}

std::vector<std::string> photos_in(std::span<const std::byte> changeset) {
  int sha_column = 0;
  each_column<Photo>([&](const auto& column, int position) {
    if (std::string_view{column.name} == "sha256") sha_column = position;
  });
  std::vector<std::string> names;
  for (Reader rows{changeset}; rows.next();) {
    if (rows.table() != Rows<Photo>::table) continue;
    for (sqlite3_value* value : {rows.before(sha_column), rows.after(sha_column)})
      if (value != nullptr && sqlite3_value_type(value) == SQLITE_TEXT)
        names.emplace_back(reinterpret_cast<const char*>(sqlite3_value_text(value)));
  }
  return names;
}

void apply_changeset(SQLite::Database& database, std::span<const std::byte> changeset, Direction direction) {
  Buffer inverse;
  std::span<const std::byte> applied = changeset;
  if (direction == Direction::backward) {
    int size = 0;
    void* memory = nullptr;
    const int code =
        sqlite3changeset_invert(static_cast<int>(changeset.size()), changeset.data(), &size, &memory);
    inverse.reset(memory);
    if (code != SQLITE_OK) fail("cannot be read", code);
    applied = {static_cast<const std::byte*>(memory), static_cast<std::size_t>(size)};
  }
  std::string refused_by;
  const int before = database.getTotalChanges();
  const int code = sqlite3changeset_apply(database.getHandle(), static_cast<int>(applied.size()),
                                          unconst(applied), nullptr, &refuse_conflict, &refused_by);
  if (code == SQLITE_ABORT)
    throw Failure{
        {fmt::format("This cannot be taken back or done again: the records{}{} are no longer as that "
                     "action left them. Nothing was changed.",
                     refused_by.empty() ? "" : " in ", refused_by),
         "", refused_by}};
  if (code != SQLITE_OK) throw SQLite::Exception(database.getHandle(), code);
  const auto changed = static_cast<std::size_t>(database.getTotalChanges() - before);
  if (const std::size_t recorded = ids_in(changeset).size(); changed != recorded)
    throw Failure{
        {fmt::format("This cannot be taken back or done again: it changed {} rows where {} were recorded. "
                     "Nothing was changed.",
                     changed, recorded),
         "", ""}};
}

}  // namespace secondpull::db
