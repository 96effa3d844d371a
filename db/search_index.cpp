#include "db/search_index.h"

#include <algorithm>
#include <string>

#include "db/connection.h"
#include "db/files.h"
#include "db/rows/kinds.h"

namespace secondpull::db {

namespace fs = std::filesystem;

namespace {

/// Letters that the index needs in a word; it is made of runs of three.
constexpr std::size_t indexed_letters = 3;
/// More changes than these, and making the index anew at the next search is no slower.
constexpr std::size_t most_updates = 2000;

// A row of the index is named by its record's id and kind in one number.
constexpr std::int64_t kinds = 64;
static_assert(std::variant_size_v<AnyId> <= kinds);

std::int64_t row_of(const AnyId& id) {
  return std::visit([](const auto key) { return number(key); }, id) * kinds +
         static_cast<std::int64_t>(id.index());
}

template <std::size_t... Index>
AnyId id_of_row(std::int64_t row, std::index_sequence<Index...>) {
  const auto kind = static_cast<std::size_t>(row % kinds);
  AnyId id;
  ((kind == Index
        ? void(id.emplace<Index>(static_cast<std::variant_alternative_t<Index, AnyId>>(row / kinds)))
        : void()),
   ...);
  return id;
}
AnyId id_of_row(std::int64_t row) {
  return id_of_row(row, std::make_index_sequence<std::variant_size_v<AnyId>>{});
}

std::size_t letters(std::string_view word) {
  constexpr unsigned char continuation_mask = 0xC0, continuation = 0x80;  // of UTF-8
  return static_cast<std::size_t>(std::ranges::count_if(
      word, [](char c) { return (static_cast<unsigned char>(c) & continuation_mask) != continuation; }));
}

/// The machine of exactly that tag comes before all, then machines, then the rest by kind, the newest first.
class HitList {
 public:
  HitList(const Shop& shop, const Query& query, std::size_t limit)
      : shop_{shop}, query_{query}, limit_{limit} {
    for (const Machine& machine : shop.all<Machine>())
      if (machine.tag == query.tag) {
        exact_ = machine.id;
        hits_.push_back({machine.id, machine.id, machine.tag});
      }
  }
  bool full() const { return hits_.size() >= limit_; }
  void add(const AnyId& id, std::string_view text) {
    if (full() || (exact_ && id == AnyId{*exact_})) return;
    hits_.push_back({id, machine_of(shop_, id), matching_line(text, query_.words)});
  }
  std::vector<Hit> take() {
    if (hits_.size() > limit_) hits_.resize(limit_);
    return std::move(hits_);
  }

 private:
  const Shop& shop_;
  const Query& query_;
  std::size_t limit_;
  std::optional<MachineId> exact_;
  std::vector<Hit> hits_;
};

}  // namespace

std::vector<Hit> search_records(const Shop& shop, const Query& query, std::size_t limit) {
  if (query.words.empty()) return {};
  HitList hits{shop, query, limit};
  const auto scan = [&]<class Record>(const Table<Record>& table) {
    for (std::size_t i = table.size(); i-- > 0 && !hits.full();) {
      const Record& record = table.begin()[static_cast<std::ptrdiff_t>(i)];
      const std::string text = searchable_text(shop, record.id);
      if (holds_all(text, query.words)) hits.add(record.id, text);
    }
  };
  scan(shop.all<Machine>());
  shop.each_table([&]<class Record>(const Table<Record>& table) {
    if constexpr (!std::same_as<Record, Machine>) scan(table);
  });
  return hits.take();
}

SQLite::Database& SearchIndex::opened() {
  if (!database_) {
    make_private_file(file_);
    database_.emplace(open_file(file_, OpenAs::writer));
    // In a log, a kill leaves the index as it was before or after; that its last commit may be lost in a
    // power cut shows in the stamp.
    database_->exec("PRAGMA locking_mode = EXCLUSIVE");
    database_->exec("PRAGMA journal_mode = WAL");
    database_->exec("PRAGMA synchronous = NORMAL");
    // An index whose rows are named in another way says nothing: its stamp goes, and it is made anew.
    if (database_->execAndGet("PRAGMA user_version").getInt64() != kinds) {
      database_->exec("DROP TABLE IF EXISTS stamp");
      database_->exec("PRAGMA user_version = " + std::to_string(kinds));
    }
    database_->exec(
        "CREATE TABLE IF NOT EXISTS stamp (id INTEGER PRIMARY KEY CHECK (id = 1), stamp INTEGER) STRICT");
    database_->exec("CREATE VIRTUAL TABLE IF NOT EXISTS texts USING fts5(text, tokenize = 'trigram')");
  }
  return *database_;
}

std::optional<std::int64_t> SearchIndex::stamp() {
  SQLite::Statement row{opened(), "SELECT stamp FROM stamp"};
  if (!row.executeStep()) return std::nullopt;
  return row.getColumn(0).getInt64();
}

void SearchIndex::set_stamp(std::int64_t stamp) {
  SQLite::Statement row{opened(), "INSERT OR REPLACE INTO stamp (id, stamp) VALUES (1, ?1)"};
  row.bind(1, stamp);
  row.exec();
}

void SearchIndex::update(const Shop& shop, const std::vector<AnyId>& changed, std::int64_t stamp_before,
                         std::int64_t stamp_after) {
  if (changed.size() > most_updates) return;
  try {
    if (stamp() != stamp_before) return;
    WriteScope write{opened()};
    SQLite::Statement remove{opened(), "DELETE FROM texts WHERE rowid = ?1"};
    SQLite::Statement insert{opened(), "INSERT INTO texts (rowid, text) VALUES (?1, ?2)"};
    for (const AnyId& id : changed) {
      remove.bind(1, row_of(id));
      remove.exec();
      remove.reset();
      const std::string text = searchable_text(shop, id);
      if (text.empty()) continue;
      insert.bind(1, row_of(id));
      insert.bindNoCopy(2, text);
      insert.exec();
      insert.reset();
    }
    set_stamp(stamp_after);
    write.commit();
  } catch (const SQLite::Exception&) {
    database_.reset();  // the stamp stays behind, so the next search makes the index anew
  } catch (const fs::filesystem_error&) {
    database_.reset();
  }
}

void SearchIndex::rebuild(const Shop& shop, std::int64_t stamp) {
  database_.reset();
  for (const char* companion : {"", "-wal", "-shm", "-journal"})
    fs::remove(file_.string() + companion);
  WriteScope write{opened()};
  SQLite::Statement insert{opened(), "INSERT INTO texts (rowid, text) VALUES (?1, ?2)"};
  shop.each_table([&](const auto& table) {
    for (const auto& record : table) {
      const std::string text = searchable_text(shop, record.id);
      if (text.empty()) continue;
      insert.bind(1, row_of(record.id));
      insert.bindNoCopy(2, text);
      insert.exec();
      insert.reset();
    }
  });
  set_stamp(stamp);
  write.commit();
}

std::vector<Hit> SearchIndex::find(const Shop& shop, std::int64_t stamp_now, const Query& query,
                                   std::size_t limit) {
  const bool index_serves = std::ranges::any_of(
      query.words, [](const std::string& word) { return letters(word) >= indexed_letters; });
  if (!index_serves) return search_records(shop, query, limit);
  for (const bool again : {true, false}) {
    try {
      if (!again || stamp() != stamp_now) rebuild(shop, stamp_now);
      return look_up(shop, query, limit);
    } catch (const SQLite::Exception&) {
      database_.reset();  // damaged, or the disk is full: made anew once, else done without
    } catch (const fs::filesystem_error&) {
      database_.reset();
    }
  }
  return search_records(shop, query, limit);
}

std::vector<Hit> SearchIndex::look_up(const Shop& shop, const Query& query, std::size_t limit) {
  std::string match;
  std::vector<std::string> short_words;
  for (const std::string& word : query.words) {
    if (letters(word) < indexed_letters) {
      short_words.push_back(word);
      continue;
    }
    match += match.empty() ? "\"" : " AND \"";
    for (const char c : word)
      match += c == '"' ? std::string{"\"\""} : std::string{c};
    match += '"';
  }
  SQLite::Statement rows{opened(),
                         "SELECT rowid, text FROM texts WHERE texts MATCH ?1"
                         " ORDER BY rowid % ?2 <> ?3, rowid % ?2, rowid DESC"};
  rows.bindNoCopy(1, match);
  rows.bind(2, kinds);
  rows.bind(3, row_of(AnyId{MachineId{}}));  // id 0 leaves the number of the kind
  HitList hits{shop, query, limit};
  while (!hits.full() && rows.executeStep()) {
    const std::string text = rows.getColumn(1).getString();
    if (holds_all(text, short_words)) hits.add(id_of_row(rows.getColumn(0).getInt64()), text);
  }
  return hits.take();
}

}  // namespace secondpull::db
