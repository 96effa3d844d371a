#include "db/exchange/csv.h"

#include <algorithm>
#include <cstdint>
#include <utility>

#include <fmt/format.h>

namespace secondpull::db {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
constexpr std::string_view kFormulaStarts = "=+-@\t\r";

/// Where the apostrophes at the start of a text end in what would run as a formula; npos if they do not.
std::size_t formula_at(std::string_view text) {
  const std::size_t at = text.find_first_not_of('\'');
  if (at == std::string_view::npos || kFormulaStarts.find(text[at]) == std::string_view::npos)
    return std::string_view::npos;
  return at;
}

/// The length of the well-formed UTF-8 sequence at the start of `bytes` (not empty), or 0.
/// Source: RFC 3629, section 4.
std::size_t sequence_length(std::string_view bytes) {
  const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(bytes[at]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) return 1;
  std::size_t length = 0;
  unsigned char low = 0x80;  // the range of the second byte, narrowed by some leads
  unsigned char high = 0xBF;
  if (lead >= 0xC2 && lead <= 0xDF) {
    length = 2;
  } else if (lead >= 0xE0 && lead <= 0xEF) {
    length = 3;
    if (lead == 0xE0) low = 0xA0;   // overlong
    if (lead == 0xED) high = 0x9F;  // surrogates
  } else if (lead >= 0xF0 && lead <= 0xF4) {
    length = 4;
    if (lead == 0xF0) low = 0x90;   // overlong
    if (lead == 0xF4) high = 0x8F;  // above U+10FFFF
  } else {
    return 0;
  }
  if (bytes.size() < length || byte(1) < low || byte(1) > high) return 0;
  for (std::size_t at = 2; at < length; ++at)
    if (byte(at) < 0x80 || byte(at) > 0xBF) return 0;
  return length;
}

/// The text with NULs and bytes that are not UTF-8 written out as \xNN.
std::string legible(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t length = text.front() == '\0' ? 0 : sequence_length(text);
    if (length == 0) {
      out += fmt::format("\\x{:02X}", static_cast<unsigned char>(text.front()));
      text.remove_prefix(1);
    } else {
      out += text.substr(0, length);
      text.remove_prefix(length);
    }
  }
  return out;
}

}  // namespace

/// Walks the text once. Cells are unescaped in place: what is written never overtakes what is read.
class CsvReader {
 public:
  explicit CsvReader(std::string_view text) : all_plain_{is_plain_text(text)} {
    if (text.substr(0, kByteOrderMark.size()) == kByteOrderMark) text.remove_prefix(kByteOrderMark.size());
    table_.text_.assign(text.begin(), text.end());
    at_ = table_.text_.data();
    end_ = at_ + table_.text_.size();
  }

  CsvTable read() && {
    while (at_ != end_)
      read_row();
    return std::move(table_);
  }

 private:
  void read_row() {
    const std::size_t first = table_.cells_.size();
    const std::size_t line = line_;
    bool more = true;
    for (cell_ = 0; more; ++cell_) {
      const char* begin = at_;
      const std::size_t cell_line = line_;
      const std::size_t faults_before = table_.faults_.size();
      const char* cell_end = at_ != end_ && *at_ == '"' ? quoted_cell() : open_cell(at_);
      const std::string_view cell{begin, static_cast<std::size_t>(cell_end - begin)};
      table_.cells_.push_back(cell);
      for (std::size_t i = faults_before; i < table_.faults_.size(); ++i)
        table_.faults_[i].value = legible(cell);
      if (!all_plain_ && !is_plain_text(cell)) {
        const bool nul = cell.find('\0') != std::string_view::npos;
        fault(cell_line, nul ? "holds a NUL character, which is no text" : "is not UTF-8 text");
        table_.faults_.back().value = legible(cell);
      }
      more = at_ != end_ && *at_ == ',';
      if (more) ++at_;
    }
    pass_line_end();
    table_.rows_.push_back({line, first, table_.cells_.size() - first});
  }

  /// A cell without quotes, or what stands after a closing quote: up to the next comma or line end. Moves it
  /// down to `out` and returns its end there.
  char* open_cell(char* out) {
    bool told = false;
    while (at_ != end_ && *at_ != ',' && *at_ != '\n' && *at_ != '\r') {
      if (*at_ == '"' && !told) {
        fault(line_, "has a quote inside an unquoted cell; put the cell in quotes and double those inside");
        told = true;
      }
      *out++ = *at_++;
    }
    return out;
  }

  char* quoted_cell() {
    char* out = at_;
    const std::size_t opened = line_;
    ++at_;
    while (at_ != end_) {
      if (*at_ == '"') {
        ++at_;
        if (at_ == end_ || *at_ != '"') return after_quotes(out);
      } else if (*at_ == '\n') {
        ++line_;
      }
      *out++ = *at_++;
    }
    fault(opened, "begins with a quote that is never closed");
    return out;
  }

  char* after_quotes(char* out) {
    if (at_ == end_ || *at_ == ',' || *at_ == '\n' || *at_ == '\r') return out;
    fault(line_, "has text after its closing quote; quotes inside a quoted cell must be doubled");
    while (at_ != end_ && *at_ != ',' && *at_ != '\n' && *at_ != '\r')
      *out++ = *at_++;
    return out;
  }

  void pass_line_end() {
    if (at_ == end_) return;
    if (*at_ == '\r') {
      ++at_;
      if (at_ == end_ || *at_ != '\n') {
        // One word a file is enough: where one line ends so, the others do too.
        if (!lone_return_told_) fault(line_, "ends with a carriage return alone; end lines with CRLF or LF");
        lone_return_told_ = true;
        ++line_;
        return;
      }
    }
    ++at_;
    ++line_;
  }

  void fault(std::size_t line, std::string sentence) {
    table_.faults_.push_back({line, table_.rows_.size(), cell_, {}, std::move(sentence)});
  }

  CsvTable table_;
  char* at_ = nullptr;
  char* end_ = nullptr;
  std::size_t line_ = 1;
  std::size_t cell_ = 0;
  bool all_plain_;
  bool lone_return_told_ = false;
};

CsvRow CsvTable::row(std::size_t index) const {
  const Extent& extent = rows_[index];
  return {extent.line, std::span{cells_}.subspan(extent.first, extent.count)};
}

CsvTable read_csv(std::string_view text) {
  return CsvReader{text}.read();
}

void append_csv_row(std::string& out, std::span<const std::string> cells) {
  bool first = true;
  for (const std::string& cell : cells) {
    if (!first) out += ',';
    first = false;
    const bool outer_space = !cell.empty() && (cell.front() == ' ' || cell.back() == ' ');
    if (!outer_space && cell.find_first_of(",\"\r\n") == std::string::npos) {
      out += cell;
      continue;
    }
    out += '"';
    for (const char c : cell) {
      if (c == '"') out += '"';
      out += c;
    }
    out += '"';
  }
  out += "\r\n";
}

std::string guard_formula(std::string_view text) {
  return formula_at(text) == std::string_view::npos ? std::string{text} : fmt::format("'{}", text);
}

std::string_view unguard_formula(std::string_view cell) {
  const std::size_t at = formula_at(cell);
  return at == std::string_view::npos || at == 0 ? cell : cell.substr(1);
}

bool is_plain_text(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = text.front() == '\0' ? 0 : sequence_length(text);
    if (length == 0) return false;
    text.remove_prefix(length);
  }
  return true;
}

}  // namespace secondpull::db
