#include "db/exchange/json_text.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace secondpull::db {
namespace {

using nlohmann::json;

constexpr std::size_t most_shown = 60;
constexpr std::string_view whole_text = "The text";

std::string cut_short(std::string text) {
  if (text.size() > most_shown) text = text.substr(0, most_shown) + "...";
  return text;
}

/// Walks through a text without keeping it: remembers where it is, so that a fault can be named by its path.
class Walker {
 public:
  explicit Walker(std::string_view text) : text_{text} {}

  std::optional<Problem> problem;

  bool null() { return value(); }
  bool boolean(bool) { return value(); }
  bool number_integer(json::number_integer_t) { return value(); }
  bool number_unsigned(json::number_unsigned_t) { return value(); }
  bool number_float(json::number_float_t number, const json::string_t& token) {
    if (!std::isfinite(number)) return fault(fmt::format("is {}; it must be a finite number.", token), token);
    return value();
  }
  bool string(json::string_t&) { return value(); }
  bool binary(json::binary_t&) { return value(); }
  bool start_object(std::size_t) {
    rooms_.push_back({.is_list = false});
    return true;
  }
  bool key(json::string_t& name) {
    rooms_.back().name = name;
    if (!rooms_.back().seen.insert(name).second) return fault("stands there twice; give it once.", name);
    return true;
  }
  bool end_object() {
    rooms_.pop_back();
    return value();
  }
  bool start_array(std::size_t) {
    rooms_.push_back({.is_list = true});
    return true;
  }
  bool end_array() { return end_object(); }
  bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception& error) {
    if (problem) return false;
    const std::string token = token_at(position);
    const int out_of_range = 406;
    if (error.id == out_of_range || is_no_number(token))
      return fault(fmt::format("is {}; it must be a finite number.", token), token);
    return fault(fmt::format("is no JSON from line {} on, at \"{}\".", line_of(position), token), token);
  }

 private:
  struct Room {
    bool is_list = false;
    std::size_t place = 0;
    std::string name;
    std::set<std::string> seen;
  };

  bool value() {
    if (!rooms_.empty()) ++rooms_.back().place;
    return true;
  }

  bool fault(std::string what, std::string token) {
    const std::string where = path();
    problem =
        Problem{fmt::format("{} {}", where.empty() ? whole_text : where, what), where, std::move(token)};
    return false;
  }

  std::string path() const {
    std::string out;
    for (const Room& room : rooms_) {
      if (room.is_list)
        out += fmt::format("[{}]", room.place);
      else if (!room.name.empty())
        out += (out.empty() ? "" : ".") + room.name;
    }
    return out;
  }

  /// The word that a position stands in. `position` counts the characters read.
  std::string token_at(std::size_t position) const {
    constexpr std::string_view ends = " \t\r\n,:[]{}\"";
    std::size_t at = std::min(position == 0 ? 0 : position - 1, text_.size());
    const auto is_end = [&](std::size_t place) { return ends.find(text_[place]) != std::string_view::npos; };
    if (at < text_.size() && is_end(at)) return std::string{text_.substr(at, 1)};
    while (at > 0 && !is_end(at - 1))
      --at;
    std::size_t end = at;
    while (end < text_.size() && !is_end(end))
      ++end;
    return end == at ? "the end" : cut_short(std::string{text_.substr(at, end - at)});
  }

  std::size_t line_of(std::size_t position) const {
    const auto end = text_.begin() + static_cast<std::ptrdiff_t>(std::min(position, text_.size()));
    return 1 + static_cast<std::size_t>(std::count(text_.begin(), end, '\n'));
  }

  /// What other writers of JSON put for a number that is none.
  static bool is_no_number(std::string_view token) {
    return token == "NaN" || token == "nan" || token == "Infinity" || token == "-Infinity" ||
           token == "inf" || token == "-inf";
  }

  std::string_view text_;
  std::vector<Room> rooms_;
};

std::string_view kind_of(const json& value) {
  if (value.is_object()) return "an object";
  if (value.is_array()) return "a list";
  return "a value";
}

}  // namespace

Result<json> parse_json(std::string_view text) {
  Walker walker{text};
  if (!json::sax_parse(text, &walker)) return tl::unexpected<Problem>(*walker.problem);
  return json::parse(text);
}

std::string shown(const json& value) {
  if (value.is_object() || value.is_array()) return std::string{kind_of(value)};
  return cut_short(value.dump(-1, ' ', false, json::error_handler_t::replace));
}

std::string JsonPlace::path_of(std::string_view field) const {
  return path_.empty() ? std::string{field} : fmt::format("{}.{}", path_, field);
}

void JsonPlace::refuse(std::string_view what) const {
  if (*problem_) return;
  const std::string value = value_->is_string() ? value_->get<std::string>() : shown(*value_);
  *problem_ = Problem{fmt::format("{} {}", path_.empty() ? whole_text : path_, what), path_, value};
}

void JsonPlace::fields(std::initializer_list<std::string_view> known) const {
  if (!value_->is_object()) {
    refuse(fmt::format("is {}; it must be an object.", shown(*value_)));
    return;
  }
  for (const auto& [name, value] : value_->items()) {
    if (std::find(known.begin(), known.end(), name) != known.end()) continue;
    JsonPlace{value, path_of(name), *problem_}.refuse(fmt::format(
        "(here {}) is not a field that is known; known are: {}.", shown(value), fmt::join(known, ", ")));
  }
}

double JsonPlace::number() const {
  if (value_->is_number()) return value_->get<double>();
  refuse(fmt::format("is {}; it must be a number.", shown(*value_)));
  return 0;
}

int JsonPlace::whole() const {
  const double value = number();
  if (value == std::floor(value) && std::abs(value) <= std::numeric_limits<int>::max())
    return static_cast<int>(value);
  refuse(fmt::format("is {}; it must be a whole number.", shown(*value_)));
  return 0;
}

std::string JsonPlace::text() const {
  if (value_->is_string()) return value_->get<std::string>();
  refuse(fmt::format("is {}; it must be a text.", shown(*value_)));
  return {};
}

std::vector<JsonPlace> JsonPlace::list() const {
  std::vector<JsonPlace> out;
  if (!value_->is_array()) {
    refuse(fmt::format("is {}; it must be a list.", shown(*value_)));
    return out;
  }
  for (std::size_t i = 0; i < value_->size(); ++i)
    out.emplace_back((*value_)[i], fmt::format("{}[{}]", path_, i), *problem_);
  return out;
}

std::vector<std::pair<std::string, JsonPlace>> JsonPlace::members() const {
  std::vector<std::pair<std::string, JsonPlace>> out;
  if (!value_->is_object()) {
    refuse(fmt::format("is {}; it must be an object.", shown(*value_)));
    return out;
  }
  for (const auto& [name, value] : value_->items())
    out.emplace_back(name, JsonPlace{value, path_of(name), *problem_});
  return out;
}

}  // namespace secondpull::db
