#include "app/cli/text_table.h"

#include <algorithm>
#include <utility>

namespace secondpull::cli {
namespace {

/// How many characters a terminal shows: code points, as near as can be told without its font.
std::size_t width(const std::string& text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

std::string harmless(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    const bool c1 = byte == 0xC2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xA0;
    if (c1) ++i;  // U+0080 to U+009F are two bytes
    out += byte < 0x20 || byte == 0x7F || c1 ? '?' : text[i];
  }
  return out;
}

}  // namespace

TextTable::TextTable(std::vector<Column> columns) : columns_{std::move(columns)} {
  for (const Column& column : columns_)
    widths_.push_back(width(column.name));
}

void TextTable::add(const std::vector<std::string>& cells) {
  std::vector<std::string>& row = rows_.emplace_back();
  row.reserve(cells.size());
  for (std::size_t i = 0; i < cells.size(); ++i) {
    row.push_back(harmless(cells[i]));
    widths_[i] = std::max(widths_[i], width(row[i]));
  }
}

std::string TextTable::text() const {
  std::string out;
  const auto append = [&](std::size_t i, const std::string& cell) {
    const std::string gap(widths_[i] - width(cell), ' ');
    if (i > 0) out += "  ";
    out += columns_[i].side == Side::right ? gap + cell : cell + gap;
  };
  const auto end_line = [&] {
    out.erase(out.find_last_not_of(' ') + 1);
    out += '\n';
  };
  for (std::size_t i = 0; i < columns_.size(); ++i)
    append(i, columns_[i].name);
  end_line();
  for (const auto& row : rows_) {
    for (std::size_t i = 0; i < columns_.size(); ++i)
      append(i, row[i]);
    end_line();
  }
  return out;
}

}  // namespace secondpull::cli
