#include "db/exchange/single_sheet.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <fstream>
#include <iterator>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/field_words.h"
#include "db/exchange/columns.h"
#include "db/failure.h"
#include "db/files.h"

namespace secondpull::db {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kMachines = "machines.csv", kAcquisitions = "acquisitions.csv",
                           kSales = "sales.csv";

/// A machine's own acquisition and sale stand on its line under these names.
struct Renamed {
  std::string_view file, column, label;
  bool required;
};
constexpr std::array kOfAMachine = {Renamed{kAcquisitions, "date", "came in on", true},
                                    Renamed{kAcquisitions, "source", "where it came from", false},
                                    Renamed{kAcquisitions, "price", "paid for it", false},
                                    Renamed{kAcquisitions, "pickup_cost", "pickup cost", false},
                                    Renamed{kSales, "date", "sold on", false},
                                    Renamed{kSales, "price", "sold for", false},
                                    Renamed{kSales, "fee", "selling fee", false},
                                    Renamed{kSales, "sales_tax", "sales tax", false}};

/// Other names that columns go by, as `letters` leaves them.
struct Synonym {
  std::string_view name, label;
};
constexpr std::array kSynonyms = {Synonym{"number", "tag"},
                                  Synonym{"no", "tag"},
                                  Synonym{"brand", "make"},
                                  Synonym{"maker", "make"},
                                  Synonym{"type", "kind"},
                                  Synonym{"problem", "symptom"},
                                  Synonym{"notes", "note"},
                                  Synonym{"bought", "came in on"},
                                  Synonym{"datebought", "came in on"},
                                  Synonym{"boughton", "came in on"},
                                  Synonym{"acquired", "came in on"},
                                  Synonym{"cost", "paid for it"},
                                  Synonym{"paid", "paid for it"},
                                  Synonym{"boughtfor", "paid for it"},
                                  Synonym{"purchaseprice", "paid for it"},
                                  Synonym{"source", "where it came from"},
                                  Synonym{"from", "where it came from"},
                                  Synonym{"datesold", "sold on"},
                                  Synonym{"saledate", "sold on"},
                                  Synonym{"sold", "sold on"},
                                  Synonym{"saleprice", "sold for"},
                                  Synonym{"soldprice", "sold for"},
                                  Synonym{"fee", "selling fee"}};

constexpr std::array<std::string_view, 5> kDays = {"date", "arrived", "ended", "comes", "hulk_gone"};
constexpr std::array<std::string_view, 15> kAmounts = {
    "price", "cost",       "amount",   "fee",      "tax",    "sales_tax", "freight",   "pickup_cost",
    "value", "value_then", "proceeds", "refunded", "asking", "delivery",  "hulk_value"};
constexpr std::array<std::string_view, 7> kClosedLists = {"kind",   "source",  "work", "how",
                                                          "result", "sold_as", "stage"};

template <std::size_t n>
bool is_one_of(const std::array<std::string_view, n>& list, std::string_view word) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// Its letters and digits alone, small.
std::string letters(std::string_view text) {
  std::string out;
  for (const char c : text)
    if (is_digit(c) || (lower(c) >= 'a' && lower(c) <= 'z') || static_cast<unsigned char>(c) >= 0x80)
      out += lower(c);
  return out;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view spaces = " \t\r\n";
  const std::size_t first = text.find_first_not_of(spaces);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(spaces) - first + 1);
}

/// 3/4/26 as 2026-03-04; what is no such day as it stands.
std::string day_cell(std::string_view cell, DayOrder order) {
  std::array<int, 3> parts{};
  std::array<std::size_t, 3> digits{};
  const char* at = cell.data();
  const char* const end = cell.data() + cell.size();
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) {
      if (at == end || std::string_view{"/-."}.find(*at) == std::string_view::npos) return std::string{cell};
      ++at;
    }
    if (at == end || !is_digit(*at)) return std::string{cell};
    const auto read = std::from_chars(at, end, parts[i]);
    if (read.ec != std::errc{}) return std::string{cell};
    digits[i] = static_cast<std::size_t>(read.ptr - at);
    at = read.ptr;
  }
  constexpr std::size_t year_digits = 4;
  if (at != end) return std::string{cell};
  if (digits[0] == year_digits) order = DayOrder::year_month_day;
  const std::size_t year = order == DayOrder::year_month_day ? 0 : 2;
  const std::size_t month = order == DayOrder::month_day_year ? 0 : 1;
  const std::size_t day = 3 - year - month;
  if (digits[year] != 2 && digits[year] != year_digits) return std::string{cell};
  constexpr int century = 2000;  // of a year of two digits
  const std::chrono::year_month_day read{std::chrono::year{parts[year] + (digits[year] == 2 ? century : 0)},
                                         std::chrono::month{static_cast<unsigned>(parts[month])},
                                         std::chrono::day{static_cast<unsigned>(parts[day])}};
  return read.ok() ? iso(read) : std::string{cell};
}

/// "$1,234.50" as 1234.50; what is no such amount as it stands.
std::string amount_cell(std::string_view cell) {
  std::string_view rest = cell;
  for (const std::string_view sign : {"$", "\u20AC", "\u00A3"})
    if (rest.starts_with(sign)) rest = trimmed(rest.substr(sign.size()));
  const std::string_view whole = rest.substr(0, rest.find('.'));
  std::string out;
  for (std::size_t i = 0; i < whole.size(); ++i) {
    constexpr std::size_t group = 4;  // a comma and three digits
    const bool comma = whole[i] == ',' && i > 0 && (whole.size() - i) % group == 0;
    if (!comma && !is_digit(whole[i])) return std::string{cell};
    if (!comma) out += whole[i];
  }
  return out.append(rest.substr(whole.size()));
}

std::string tidy_cell(std::string_view column, std::string_view cell, DayOrder order) {
  if (is_one_of(kDays, column)) return day_cell(cell, order);
  if (is_one_of(kAmounts, column)) return amount_cell(cell);
  std::string out{cell};
  if (is_one_of(kClosedLists, column)) std::transform(out.begin(), out.end(), out.begin(), lower);
  return out;
}

template <class Record>
SheetKind kind_of_table() {
  const Format<Record>& format = format_of<Record>();
  const std::string file{format.file};
  SheetKind kind{field_words(file.substr(0, file.find('.')), {}), {}};
  for (const Column<Record>& column : format.columns)
    kind.fields.push_back({file, std::string{column.name}, field_words(column.name, {}), column.required});
  return kind;
}

SheetKind machines_kind() {
  SheetKind kind = kind_of_table<Machine>();
  // Its acquisition is made of its own line, and the stage follows from what happened.
  std::erase_if(kind.fields, [](const SheetField& field) {
    return field.column == "acquisition" || field.column == "stage";
  });
  for (SheetField& field : kind.fields)
    field.required = field.column == "tag";
  for (const Renamed& one : kOfAMachine)
    kind.fields.push_back(
        {std::string{one.file}, std::string{one.column}, std::string{one.label}, one.required});
  return kind;
}

/// The text of a table, and which line of the sheet each of its lines came from.
class TableText {
 public:
  void add(std::span<const std::string> cells, std::size_t line_in_sheet) {
    lines_.emplace(next_line_, line_in_sheet);
    const std::size_t before = text_.size();
    append_csv_row(text_, cells);
    next_line_ += static_cast<std::size_t>(
        std::count(text_.begin() + static_cast<std::ptrdiff_t>(before), text_.end(), '\n'));
  }
  const std::string& text() const { return text_; }
  std::size_t line_in_sheet(std::size_t line) const {
    const auto after = lines_.upper_bound(line);
    return after == lines_.begin() ? line : std::prev(after)->second;
  }

 private:
  std::string text_;
  std::map<std::size_t, std::size_t> lines_;
  std::size_t next_line_ = 1;
};

class SheetReader {
 public:
  SheetReader(const SingleSheet& sheet, const SheetKind& kind, const ColumnChoice& choice, DayOrder order,
              const Shop& existing)
      : sheet_{sheet}, kind_{kind}, choice_{choice}, order_{order}, existing_{existing} {}

  ImportResult read() {
    ImportResult result;
    tell_missing(result.errors);
    if (!result.errors.empty()) return result;
    write_tables();
    result = read_tables();
    for (ImportError& error : result.errors)
      error = in_the_sheet(std::move(error));
    std::stable_sort(result.errors.begin(), result.errors.end(),
                     [](const ImportError& a, const ImportError& b) { return a.line < b.line; });
    return result;
  }

 private:
  void tell_missing(std::vector<ImportError>& errors) const {
    for (std::size_t i = 0; i < kind_.fields.size(); ++i)
      if (kind_.fields[i].required && !choice_[i])
        errors.push_back(
            {sheet_.file(),
             1,
             kind_.fields[i].label,
             {},
             fmt::format("No column of the sheet was chosen for \"{}\", and every line needs one.",
                         kind_.fields[i].label)});
  }

  /// The cells of one line for a table, in the order of header().
  std::vector<std::string> cells(std::string_view file, std::size_t row) const {
    std::vector<std::string> all;
    for (std::size_t i = 0; i < kind_.fields.size(); ++i)
      if (kind_.fields[i].file == file && choice_[i])
        all.push_back(tidy_cell(kind_.fields[i].column, sheet_.cell(row, *choice_[i]), order_));
    return all;
  }
  std::vector<std::string> header(std::string_view file) const {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < kind_.fields.size(); ++i)
      if (kind_.fields[i].file == file && choice_[i]) names.push_back(kind_.fields[i].column);
    return names;
  }
  /// Puts `value` where the cell is empty, in a column that is added if the sheet has none for it.
  static void fill_in(std::vector<std::string>& names, std::vector<std::string>& cells, const char* column,
                      const std::string& value) {
    const auto at = static_cast<std::size_t>(std::find(names.begin(), names.end(), column) - names.begin());
    if (at == names.size()) names.emplace_back(column);
    if (at == cells.size()) cells.emplace_back();
    if (cells[at].empty()) cells[at] = value;
  }

  void write_tables() {
    if (kind_.name == sheet_kinds().front().name) return write_machines();
    const std::string& file = kind_.fields.front().file;
    write_header(file, header(file));
    for (std::size_t row = 0; row < sheet_.size(); ++row)
      tables_[file].add(cells(file, row), sheet_.line(row));
  }
  void write_header(std::string_view file, const std::vector<std::string>& names) {
    tables_[std::string{file}].add(names, 1);
  }

  void write_machines() {
    std::set<std::string, std::less<>> codes;
    for (const Acquisition& acquisition : existing_.all<Acquisition>())
      codes.insert(acquisition.code);
    bool headed = false, sales_headed = false;
    for (std::size_t row = 0; row < sheet_.size(); ++row) {
      const std::size_t line = sheet_.line(row);
      std::vector<std::string> names = header(kMachines), machine = cells(kMachines, row);
      std::vector<std::string> in_names = header(kAcquisitions), in = cells(kAcquisitions, row);
      const auto tag = std::find(names.begin(), names.end(), "tag") - names.begin();
      std::string code = machine[static_cast<std::size_t>(tag)];
      for (int again = 2; !codes.insert(code).second; ++again)
        code = fmt::format("{}-{}", machine[static_cast<std::size_t>(tag)], again);
      fill_in(names, machine, "kind", "other");
      fill_in(names, machine, "acquisition", code);
      fill_in(in_names, in, "source", "other");
      fill_in(in_names, in, "acquisition", code);
      if (!std::exchange(headed, true)) {
        write_header(kMachines, names);
        write_header(kAcquisitions, in_names);
      }
      tables_[std::string{kMachines}].add(machine, line);
      tables_[std::string{kAcquisitions}].add(in, line);

      std::vector<std::string> sale_names = header(kSales), sale = cells(kSales, row);
      if (std::all_of(sale.begin(), sale.end(), [](const std::string& cell) { return cell.empty(); }))
        continue;
      for (const char* needed : {"date", "price"})
        fill_in(sale_names, sale, needed, {});
      fill_in(sale_names, sale, "machine", machine[static_cast<std::size_t>(tag)]);
      if (!std::exchange(sales_headed, true)) write_header(kSales, sale_names);
      tables_[std::string{kSales}].add(sale, line);
    }
  }

  ImportResult read_tables() const {
    // As a folder, so that a sheet is held to the very same rules as one.
    const ScratchFolder folder;
    const auto write = [&](const std::string& file, std::string_view text) {
      std::ofstream out{folder.path() / file, std::ios::binary};
      out.write(text.data(), static_cast<std::streamsize>(text.size()));
      if (!out.flush()) throw Failure{{fmt::format("There is no room to read {}.", sheet_.file()), {}, {}}};
    };
    std::string shop;
    append_csv_row(shop, std::array<std::string, 2>{"name", "currency"});
    append_csv_row(shop, std::array<std::string, 2>{"-", existing_.settings.currency.code});
    write("shop.csv", shop);
    for (const auto& [file, table] : tables_)
      write(file, table.text());
    ImportResult read = read_folder(folder.path(), existing_);
    read.shop.settings = existing_.settings;
    return read;
  }

  ImportError in_the_sheet(ImportError error) const {
    const auto table = tables_.find(error.file);
    if (table == tables_.end()) return error;
    error.line = error.line == 0 ? 0 : table->second.line_in_sheet(error.line);
    for (std::size_t i = 0; i < kind_.fields.size(); ++i)
      if (kind_.fields[i].file == error.file && kind_.fields[i].column == error.column)
        error.column = choice_[i] ? sheet_.columns()[*choice_[i]] : kind_.fields[i].label;
    error.file = sheet_.file();
    return error;
  }

  const SingleSheet& sheet_;
  const SheetKind& kind_;
  const ColumnChoice& choice_;
  DayOrder order_;
  const Shop& existing_;
  std::map<std::string, TableText> tables_;
};

}  // namespace

const std::vector<SheetKind>& sheet_kinds() {
  static const std::vector<SheetKind> kinds = [] {
    std::vector<SheetKind> all{machines_kind()};
    Shop{}.each_table([&]<class Record>(const Table<Record>&) {
      if constexpr (has_file<Record> && !std::is_same_v<Record, Machine> &&
                    !std::is_same_v<Record, Acquisition> && !std::is_same_v<Record, Order> &&
                    !std::is_same_v<Record, OrderLine>)
        all.push_back(kind_of_table<Record>());
    });
    return all;
  }();
  return kinds;
}

Result<SingleSheet> SingleSheet::open(const fs::path& path) {
  std::error_code error;
  std::ifstream in{path, std::ios::binary};
  if (!fs::is_regular_file(path, error) || !in)
    return problem(fmt::format("The file {} cannot be read.", path.string()), "file", path.string());
  const std::string text{std::istreambuf_iterator<char>{in}, {}};
  if (in.bad())
    return problem(fmt::format("The file {} cannot be read.", path.string()), "file", path.string());
  return of(text, path.filename().string());
}

Result<SingleSheet> SingleSheet::of(std::string_view text, const std::string& file_name) {
  const auto refused = [&](const std::string& why) {
    return problem(fmt::format("{}: {}", file_name, why), "file", file_name);
  };
  SingleSheet sheet;
  sheet.file_ = file_name;
  sheet.table_ = read_csv(text);
  if (!sheet.table_.faults().empty()) {
    const CsvFault& first = sheet.table_.faults().front();
    return refused(
        fmt::format("line {}: {} Save the sheet as CSV in UTF-8, with commas.", first.line, first.sentence));
  }
  if (sheet.table_.size() == 0) return refused("The file is empty.");
  for (const std::string_view name : sheet.table_.row(0).cells)
    sheet.columns_.emplace_back(trimmed(name));
  for (std::size_t row = 1; row < sheet.table_.size(); ++row) {
    const auto cells = sheet.table_.row(row).cells;
    if (std::any_of(cells.begin(), cells.end(), [](std::string_view cell) { return !trimmed(cell).empty(); }))
      sheet.rows_.push_back(row);
  }
  if (sheet.rows_.empty()) return refused("There is no line below the first, which names the columns.");
  return sheet;
}

std::string_view SingleSheet::cell(std::size_t row, std::size_t column) const {
  const auto cells = table_.row(rows_[row]).cells;
  return column < cells.size() ? trimmed(cells[column]) : std::string_view{};
}

ColumnChoice guess_columns(const SingleSheet& sheet, const SheetKind& kind) {
  ColumnChoice choice(kind.fields.size());
  std::set<std::size_t> taken;
  const auto take = [&](auto&& fits) {
    for (std::size_t i = 0; i < kind.fields.size(); ++i)
      for (std::size_t column = 0; column < sheet.columns().size() && !choice[i]; ++column)
        if (!taken.contains(column) && fits(kind.fields[i], letters(sheet.columns()[column]))) {
          choice[i] = column;
          taken.insert(column);
        }
  };
  take([](const SheetField& field, const std::string& name) { return name == letters(field.label); });
  take([](const SheetField& field, const std::string& name) {
    return std::any_of(kSynonyms.begin(), kSynonyms.end(), [&](const Synonym& synonym) {
      return synonym.name == name && synonym.label == field.label;
    });
  });
  return choice;
}

ImportResult read_single_sheet(const SingleSheet& sheet, const SheetKind& kind, const ColumnChoice& choice,
                               DayOrder order, const Shop& existing) {
  try {
    return SheetReader{sheet, kind, choice, order, existing}.read();
  } catch (const Failure& failure) {
    return {existing, {{sheet.file(), 0, {}, {}, failure.problem().sentence}}};
  } catch (const fs::filesystem_error& error) {
    return {existing,
            {{sheet.file(), 0, {}, {}, fmt::format("The sheet cannot be read: {}.", error.what())}}};
  }
}

}  // namespace secondpull::db
