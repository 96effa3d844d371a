#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <tuple>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "core/field_words.h"
#include "core/shop/rules.h"
#include "db/exchange/columns.h"
#include "db/exchange/exchange.h"
#include "db/exchange/files.h"
#include "db/exchange/sheet.h"

namespace secondpull::db {
namespace {

constexpr int kMostDigits = 4;  // of any currency of ISO 4217

/// The text on one line and safe to show: line breaks and other control characters as escapes.
std::string on_one_line(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '\n')
      out += "\\n";
    else if (c == '\r')
      out += "\\r";
    else if (c == '\t')
      out += "\\t";
    else if (byte < 0x20 || byte == 0x7F)
      out += fmt::format("\\x{:02X}", byte);
    else
      out += c;
  }
  return out;
}

template <class Record>
std::vector<ColumnHead> heads_of() {
  std::vector<ColumnHead> heads;
  for (const Column<Record>& column : format_of<Record>().columns)
    heads.push_back({column.name, column.required});
  return heads;
}

class FolderReader {
 public:
  FolderReader(const std::filesystem::path& folder, const Shop& existing)
      : folder_{folder}, existing_{existing}, shop_{existing} {}

  ImportResult read() {
    if (can_be_read()) {
      refuse_other_files();
      read_settings();
      shop_.each_table([this](auto& table) { read_table(table); });
      if (errors_.empty())
        tell(newly_broken_rules());
      else
        tell_single_lines();
    }
    return {std::move(shop_), std::move(errors_)};
  }

 private:
  /// A table's file as it was read. Its lines got ids in a row, so that a record's line can be found again.
  struct Read {
    Sheet sheet;
    std::int64_t first_id = 0;
  };

  bool can_be_read() {
    std::error_code error;
    const std::filesystem::directory_iterator listing{folder_, error};
    if (!error) return true;
    std::error_code unknown;
    const bool there = std::filesystem::exists(folder_, unknown);
    errors_.push_back({folder_.string(),
                       0,
                       {},
                       {},
                       there ? fmt::format("The folder cannot be read: {}.", error.message())
                             : "There is no such folder."});
    return false;
  }

  /// One that is there and cannot be read is not taken for an empty table.
  bool has(std::string_view file) const {
    std::error_code error;
    return std::filesystem::symlink_status(folder_ / file, error).type() !=
           std::filesystem::file_type::not_found;
  }

  void refuse_other_files() {
    for (const std::string& file : other_csv_files(folder_))
      errors_.push_back({file, 0, {}, {}, "No table of a shop has a file of this name."});
  }

  template <class Record>
  Sheet open() {
    const std::string file{format_of<Record>().file};
    return Sheet::read(folder_ / file, file, heads_of<Record>(), errors_);
  }

  template <class Record>
  void read_line(const Sheet& sheet, std::size_t row, const ReadContext& context, Record& record) {
    const Format<Record>& format = format_of<Record>();
    for (std::size_t i = 0; i < format.columns.size(); ++i) {
      const Column<Record>& column = format.columns[i];
      const auto cell = sheet.cell(row, i);
      if (!cell) continue;
      if (!cell->empty()) {
        if (auto done = column.read(*cell, column.name, context, record); !done)
          errors_.push_back(sheet.error(row, column.name, *cell, std::move(done.error().sentence)));
      } else if (column.required) {
        errors_.push_back(sheet.error(
            row, column.name, *cell,
            fmt::format("The {} is empty, and every line needs one.", field_words(column.name, "cell"))));
      }
    }
    if (format.tidy != nullptr) format.tidy(record);
  }

  void read_settings() {
    const std::string file{format_of<Settings>().file};
    if (!has(file)) {
      errors_.push_back({file, 0, {}, {}, "The file is missing; it says the shop's name and currency."});
      return;
    }
    const std::size_t before = errors_.size();
    const Sheet sheet = open<Settings>();
    Settings settings;
    // Amounts are read in the currency of the same line, whose column comes before theirs in the format.
    const ReadContext context{&settings, &names_, &shop_};
    if (sheet.size() > 0) read_line(sheet, 0, context, settings);
    if (sheet.size() == 0 && errors_.size() == before)
      errors_.push_back(
          {file, 1, "name", {}, "Below the header a line has to say the shop's name and currency."});
    for (std::size_t row = 1; row < sheet.size(); ++row)
      errors_.push_back(sheet.error(row, "name", sheet.cell(row, 0).value_or(std::string_view{}),
                                    "A shop is one line, and here is another."));
    const std::string& ours = existing_.settings.currency.code;
    if (!existing_.empty() && errors_.size() == before && settings.currency.code != ours)
      errors_.push_back(sheet.error(
          0, "currency", settings.currency.code,
          fmt::format("The folder is in {}, the shop it is added to in {}.", settings.currency.code, ours)));
    // With a currency that is not understood, decimals of amounts are no further errors.
    const auto of_currency = [](const ImportError& error) { return error.column == "currency"; };
    if (std::any_of(errors_.begin() + static_cast<std::ptrdiff_t>(before), errors_.end(), of_currency))
      settings.currency.digits = kMostDigits;
    if (existing_.empty()) shop_.settings = std::move(settings);
    sort_by_line(before);
  }

  template <class Record>
  void read_table(Table<Record>& table) {
    if constexpr (has_file<Record>) {
      for (const Record& record : table)
        add_name(record);
      const std::string file{format_of<Record>().file};
      if (!has(file)) return;
      const std::size_t before = errors_.size();
      Read& read = tables_[file];
      read = {open<Record>(), shop_.next_id};
      table.assign(read_records(read, table));
      if constexpr (Named<Record>)
        if (!read.sheet.whole()) names_.set_incomplete<typename Table<Record>::Id>();
      sort_by_line(before);
    }
  }

  /// The records of the table and below them those of the file.
  template <class Record>
  std::vector<Record> read_records(const Read& read, const Table<Record>& table) {
    std::vector<Record> records;
    records.reserve(table.size() + read.sheet.size());
    records.assign(table.begin(), table.end());
    const ReadContext context{&shop_.settings, &names_, &shop_};
    for (std::size_t row = 0; row < read.sheet.size(); ++row) {
      Record record;
      record.id = static_cast<typename Table<Record>::Id>(shop_.next_id++);
      record.entered = number(record.id);
      read_line(read.sheet, row, context, record);
      if (!add_name(record)) tell_taken(read, row, record);
      records.push_back(std::move(record));
    }
    return records;
  }

  /// False if the identifier is taken. An empty one has been told already.
  template <class Record>
  bool add_name(const Record& record) {
    if constexpr (Named<Record>)
      return identifier(record).empty() || names_.add(identifier(record), record.id);
    else
      return true;
  }

  template <class Record>
  void tell_taken(const Read& read, std::size_t row, const Record& record) {
    if constexpr (Named<Record>) {
      const std::string_view column = format_of<Record>().columns.front().name;
      const auto holder = number(*names_.find<decltype(record.id)>(identifier(record)));
      const std::string where =
          holder < read.first_id
              ? std::string{"in the shop"}
              : fmt::format("on line {}", read.sheet.line(static_cast<std::size_t>(holder - read.first_id)));
      errors_.push_back(
          read.sheet.error(row, column, identifier(record),
                           fmt::format("The {} \"{}\" is already {}.", field_words(column, "identifier"),
                                       identifier(record), where)));
    }
  }

  /// The errors since `before` are of one file, found in several passes over it.
  void sort_by_line(std::size_t before) {
    std::stable_sort(errors_.begin() + static_cast<std::ptrdiff_t>(before), errors_.end(),
                     [](const ImportError& a, const ImportError& b) { return a.line < b.line; });
  }

  /// What was wrong in the shop before is not the folder's fault.
  std::vector<RuleBreak> newly_broken_rules() const {
    std::vector<RuleBreak> breaks = broken_rules(shop_);
    if (breaks.empty() || existing_.empty()) return breaks;
    for (const RuleBreak& old : broken_rules(existing_))
      std::erase_if(breaks, [&](const RuleBreak& one) {
        return one.record == old.record && one.problem == old.problem;
      });
    return breaks;
  }

  void tell(const std::vector<RuleBreak>& breaks) {
    for (const RuleBreak& broken : breaks)
      std::visit([&](auto id) { tell_broken(id, broken.problem); }, broken.record);
  }

  /// With errors about, what is wrong with single lines is told as well: all of it but what could follow from
  /// a cell that was not understood.
  void tell_single_lines() {
    constexpr std::array<std::string_view, 5> judged_by = {"source", "how", "ended", "date", "hulk_gone"};
    std::set<std::tuple<std::string, std::size_t, std::string>> told;
    std::set<std::pair<std::string, std::size_t>> unclear;
    for (const ImportError& error : errors_) {
      told.emplace(error.file, error.line, error.column);
      const bool judges = std::find(judged_by.begin(), judged_by.end(), error.column) != judged_by.end();
      if (judges || error.column.empty()) unclear.emplace(error.file, error.line);
    }
    const auto before = static_cast<std::ptrdiff_t>(errors_.size());
    tell(broken_by_one_record(shop_));
    const auto follows = [&](const ImportError& error) {
      // An empty cell that must not be empty was told as it was read, or its column is missing.
      return error.value.empty() || told.contains({error.file, error.line, error.column}) ||
             unclear.contains({error.file, error.line});
    };
    errors_.erase(std::remove_if(errors_.begin() + before, errors_.end(), follows), errors_.end());
    sort_by_file();
  }

  /// By file in the order of the tables, then by line.
  void sort_by_file() {
    std::map<std::string, std::size_t> order;
    for (const ImportError& error : errors_)
      order.emplace(error.file, table_place(error.file));
    std::stable_sort(errors_.begin(), errors_.end(), [&](const ImportError& a, const ImportError& b) {
      return std::pair{order[a.file], a.line} < std::pair{order[b.file], b.line};
    });
  }

  template <class Id>
  void tell_broken(Id id, const Problem& broken) {
    const auto in_table = [&]<class Record>(const Table<Record>&) {
      if constexpr (std::is_same_v<typename Table<Record>::Id, Id> && has_file<Record>)
        tell_broken<Record>(id, broken);
    };
    std::as_const(shop_).each_table(in_table);
  }

  template <class Record, class Id>
  void tell_broken(Id id, const Problem& broken) {
    const std::string file{format_of<Record>().file};
    const auto read = tables_.find(file);
    if (read == tables_.end() || number(id) < read->second.first_id) {
      errors_.push_back({file, 0, broken.field, broken.value,
                         fmt::format("A line already in the shop would be wrong: {}", broken.sentence)});
      return;
    }
    const Sheet& sheet = read->second.sheet;
    const auto row = static_cast<std::size_t>(number(id) - read->second.first_id);
    const auto& columns = format_of<Record>().columns;
    const auto column =
        std::find_if(columns.begin(), columns.end(), [&](const auto& c) { return c.name == broken.field; });
    std::optional<std::string_view> cell;
    if (column != columns.end()) cell = sheet.cell(row, static_cast<std::size_t>(column - columns.begin()));
    errors_.push_back(sheet.error(row, broken.field, cell.value_or(broken.value), broken.sentence));
  }

  const std::filesystem::path& folder_;
  const Shop& existing_;
  Shop shop_;
  Names names_;
  std::vector<ImportError> errors_;
  std::map<std::string, Read> tables_;
};

}  // namespace

ImportResult read_folder(const std::filesystem::path& folder, const Shop& existing) {
  return FolderReader{folder, existing}.read();
}

std::string shown(const ImportError& error) {
  std::string out = error.file;
  if (error.line != 0) out += fmt::format(":{}", error.line);
  out += ": ";
  if (!error.column.empty()) out += error.column + ": ";
  const bool has_value = error.value.empty() || error.sentence.find(error.value) != std::string::npos;
  if (!has_value) out += fmt::format("\"{}\": ", error.value);
  out += error.sentence;
  return on_one_line(out);
}

Change import_change(const Shop& existing, const Shop& read) {
  Change change{existing, {}};
  std::size_t lines = 0;
  read.each_table([&]<class Record>(const Table<Record>& table) {
    for (const Record& record : table) {
      if (number(record.id) < existing.next_id) continue;
      change.add(record);
      ++lines;
    }
  });
  const std::size_t machines = read.all<Machine>().size() - existing.all<Machine>().size();
  change.set_title(fmt::format("Imported {} {} and {} other {}", machines,
                               machines == 1 ? "machine" : "machines", lines - machines,
                               lines - machines == 1 ? "line" : "lines"));
  return change;
}

}  // namespace secondpull::db
