#include "db/exchange/sheet.h"

#include <algorithm>
#include <fstream>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/field_words.h"

namespace secondpull::db {
namespace {

std::optional<std::string> contents(const std::filesystem::path& path) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error)) return std::nullopt;
  const auto size = std::filesystem::file_size(path, error);
  std::ifstream in{path, std::ios::binary};
  if (error || !in) return std::nullopt;
  std::string text(size, '\0');
  if (!in.read(text.data(), static_cast<std::streamsize>(size))) return std::nullopt;
  return text;
}

bool is_utf16(std::string_view text) {
  return text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF");
}

/// An empty line. No table has but one column, so it is never a line with an empty cell.
bool is_empty(std::span<const std::string_view> cells) {
  return cells.size() == 1 && cells.front().empty();
}

std::string names(std::span<const ColumnHead> heads) {
  std::vector<std::string_view> list;
  for (const ColumnHead& head : heads)
    list.push_back(head.name);
  return fmt::format("{}", fmt::join(list, ", "));
}

}  // namespace

Sheet Sheet::read(const std::filesystem::path& path, std::string file, std::span<const ColumnHead> heads,
                  std::vector<ImportError>& errors) {
  Sheet sheet;
  sheet.file_ = std::move(file);
  sheet.places_.resize(heads.size());
  const auto unreadable = [&](std::size_t line, std::string sentence) {
    sheet.whole_ = false;
    errors.push_back({sheet.file_, line, {}, {}, std::move(sentence)});
  };
  const auto text = contents(path);
  if (!text) {
    unreadable(0, "The file cannot be read.");
  } else if (is_utf16(*text)) {
    unreadable(0, "The file is UTF-16; save it as CSV in UTF-8.");
  } else {
    sheet.table_ = read_csv(*text);
    if (sheet.table_.size() == 0) {
      unreadable(1, fmt::format("The file is empty; its first line names the columns: {}.", names(heads)));
      return sheet;
    }
    sheet.tell_faults(errors);
    sheet.read_header(heads, errors);
    sheet.tell_lengths(errors);
  }
  return sheet;
}

std::optional<std::string_view> Sheet::cell(std::size_t row, std::size_t column) const {
  const auto place = places_[column];
  const auto cells = table_.row(row + 1).cells;
  if (!place || *place >= cells.size() || is_empty(cells) || faulty_.contains({row + 1, *place}))
    return std::nullopt;
  return cells[*place];
}

ImportError Sheet::error(std::size_t row, std::string_view column, std::string_view value,
                         std::string sentence) const {
  return {file_, line(row), std::string{column}, std::string{value}, std::move(sentence)};
}

void Sheet::read_header(std::span<const ColumnHead> heads, std::vector<ImportError>& errors) {
  const CsvRow header = table_.row(0);
  const auto wrong = [&](std::string_view column, std::string sentence) {
    errors.push_back({file_, header.line, std::string{column}, std::string{column}, std::move(sentence)});
  };
  for (std::size_t place = 0; place < header.cells.size(); ++place) {
    const std::string_view name = header.cells[place];
    const auto head =
        std::find_if(heads.begin(), heads.end(), [&](const ColumnHead& h) { return h.name == name; });
    if (head == heads.end()) {
      if (!faulty_.contains({0, place}))
        wrong(name, fmt::format("\"{}\" is not a column of {} ({}).", name, file_, names(heads)));
      continue;
    }
    auto& known = places_[static_cast<std::size_t>(head - heads.begin())];
    if (known)
      wrong(name, fmt::format("The column \"{}\" stands here twice.", name));
    else
      known = place;
  }
  for (std::size_t i = 0; i < heads.size(); ++i) {
    if (!heads[i].required || places_[i]) continue;
    errors.push_back({file_,
                      header.line,
                      std::string{heads[i].name},
                      {},
                      fmt::format("The column \"{}\" is missing.", heads[i].name)});
    whole_ = whole_ && i != 0;  // without its identifiers nothing of the file can be found
  }
}

void Sheet::tell_faults(std::vector<ImportError>& errors) {
  const CsvRow header = table_.row(0);
  for (const CsvFault& fault : table_.faults()) {
    faulty_.insert({fault.row, fault.cell});
    const std::string_view column =
        fault.cell < header.cells.size() ? header.cells[fault.cell] : std::string_view{};
    const std::string words = field_words(column, "line");
    errors.push_back({file_, fault.line, std::string{column}, fault.value,
                      fault.value.empty()
                          ? fmt::format("The {} {}.", words, fault.sentence)
                          : fmt::format("The {} \"{}\" {}.", words, fault.value, fault.sentence)});
    whole_ = false;
  }
}

void Sheet::tell_lengths(std::vector<ImportError>& errors) const {
  const auto columns = table_.row(0).cells;
  for (std::size_t row = 0; row < size(); ++row) {
    const auto cells = table_.row(row + 1).cells;
    if (cells.size() == columns.size()) continue;
    if (is_empty(cells))
      errors.push_back(error(row, columns.front(), {}, "The line is empty."));
    else if (cells.size() < columns.size())
      errors.push_back(error(row, columns[cells.size()], {},
                             fmt::format("The line has {} cells where the header names {} columns.",
                                         cells.size(), columns.size())));
    else
      errors.push_back(error(row, {}, cells[columns.size()],
                             fmt::format("The line has {} cells where the header names {} columns; \"{}\" "
                                         "stands in none of them.",
                                         cells.size(), columns.size(), cells[columns.size()])));
  }
}

}  // namespace secondpull::db
