#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "core/result.h"

namespace secondpull::db {

/// The value that a JSON text holds. Refused with the path of the place: what is no JSON, numbers that are
/// not finite, and a field that stands twice in one object (a reader would have to guess which one is meant).
Result<nlohmann::json> parse_json(std::string_view text);

/// A value as it stands in the text, cut short if it is long: for the sentence of a problem.
std::string shown(const nlohmann::json& value);

/// A place in a JSON value that is read field by field. The first problem is kept and the reading goes on
/// with empty values, so that a reader needs no test after each field; it asks `problem` at the end.
class JsonPlace {
 public:
  JsonPlace(const nlohmann::json& value, std::string path, std::optional<Problem>& first_problem)
      : value_{&value}, path_{std::move(path)}, problem_{&first_problem} {}

  /// Refuses it if it is not an object, or has a field that is not one of these.
  void fields(std::initializer_list<std::string_view> known) const;
  bool has(const char* field) const { return value_->is_object() && value_->contains(field); }
  /// The place of a field that is there.
  JsonPlace at(const char* field) const { return {value_->at(field), path_of(field), *problem_}; }

  double number() const;
  std::string text() const;
  /// A whole number that fits an int.
  int whole() const;
  std::vector<JsonPlace> list() const;
  /// The fields of an object, in the order of the alphabet.
  std::vector<std::pair<std::string, JsonPlace>> members() const;

  /// The field's value, or nothing changed where it is absent.
  void read(const char* field, double& out) const {
    if (has(field)) out = at(field).number();
  }
  void read(const char* field, std::string& out) const {
    if (has(field)) out = at(field).text();
  }
  void read(const char* field, int& out) const {
    if (has(field)) out = at(field).whole();
  }

  void refuse(std::string_view what) const;
  const std::string& path() const { return path_; }

 private:
  std::string path_of(std::string_view field) const;

  const nlohmann::json* value_;
  std::string path_;
  std::optional<Problem>* problem_;
};

}  // namespace secondpull::db
