#include "db/search_text.h"

#include <algorithm>
#include <concepts>

#include "db/rows/kinds.h"

namespace secondpull::db {

namespace {

template <class Record>
std::string text_of(const Record& record) {
  std::string text;
  // Figures, paths and entries of the knowledge base are no words that anybody looks for a record by, and
  // what a seller answered stands with the find.
  if constexpr (std::same_as<Record, KeptFigure> || std::same_as<Record, FindAnswer> ||
                std::same_as<Record, OwnNumber> || std::same_as<Record, KnowledgeEdit> ||
                std::same_as<Record, ForecastCause>)
    return text;
  each_column<Record>([&](const auto& column, int) {
    const auto& member = record.*column.member;
    if constexpr (std::same_as<std::remove_cvref_t<decltype(member)>, std::string>) {
      if (member.empty() || std::string_view{column.name} == "sha256") return;
      if (!text.empty()) text += '\n';
      text += member;
    }
  });
  return text;
}

template <class Record>
std::optional<MachineId> owner_of(const Record& record) {
  if constexpr (std::same_as<Record, Machine>)
    return record.id;
  else if constexpr (requires { record.machine; })
    return record.machine;
  else if constexpr (requires { record.donor; })
    return record.donor;
  else
    return std::nullopt;
}

}  // namespace

std::string searchable_text(const AnyRecord& record) {
  return std::visit([](const auto& one) { return text_of(one); }, record);
}

std::string searchable_text(const Shop& shop, const AnyId& id) {
  return std::visit(
      [&](const auto key) {
        const auto* record = shop.find(key);
        return record != nullptr ? text_of(*record) : std::string{};
      },
      id);
}

std::optional<MachineId> machine_of(const Shop& shop, const AnyId& id) {
  return std::visit(
      [&](const auto key) -> std::optional<MachineId> {
        const auto* record = shop.find(key);
        return record != nullptr ? owner_of(*record) : std::nullopt;
      },
      id);
}

Query query_of(std::string_view typed) {
  Query query;
  constexpr std::string_view spaces = " \t\r\n\0";
  for (std::size_t at = typed.find_first_not_of(spaces); at != std::string_view::npos;) {
    const std::size_t end = std::min(typed.find_first_of(spaces, at), typed.size());
    std::string_view word = typed.substr(at, end - at);
    if (word.size() > 1 && word.front() == '#') word.remove_prefix(1);
    if (!query.tag.empty()) query.tag += ' ';
    query.tag += word;
    query.words.push_back(folded(word));
    at = typed.find_first_not_of(spaces, end);
  }
  return query;
}

std::string folded(std::string_view text) {
  constexpr char lead = '\xC3';  // in UTF-8, U+00C0 to U+00FF follow this byte
  std::string result{text};
  for (std::size_t i = 0; i < result.size(); ++i) {
    char& c = result[i];
    if (c >= 'A' && c <= 'Z') {
      c = static_cast<char>(c - 'A' + 'a');
    } else if (i > 0 && result[i - 1] == lead) {
      const auto byte = static_cast<unsigned char>(c);
      constexpr unsigned char first = 0x80, last = 0x9E, times_sign = 0x97, apart = 0x20;
      if (byte >= first && byte <= last && byte != times_sign) c = static_cast<char>(byte + apart);
    }
  }
  return result;
}

bool holds_all(std::string_view text, const std::vector<std::string>& words) {
  const std::string in = folded(text);
  return std::ranges::all_of(words,
                             [&](const std::string& word) { return in.find(word) != std::string::npos; });
}

std::string matching_line(std::string_view text, const std::vector<std::string>& words) {
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    const std::string_view line = text.substr(begin, end - begin);
    if (!words.empty() && folded(line).find(words.front()) != std::string::npos) return std::string{line};
    begin = end + 1;
  }
  return std::string{text.substr(0, text.find('\n'))};
}

}  // namespace secondpull::db
