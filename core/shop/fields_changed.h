#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace secondpull {

/// The fields in which a record differs from what it was, for the title of the edit.
class FieldsChanged {
 public:
  /// @param name  as a person calls the field: "asking price"
  template <class Value>
  void compare(const Value& before, const Value& after, const char* name) {
    if (before != after) names_.emplace_back(name);
  }
  bool empty() const { return names_.empty(); }
  /// "Changed #14: symptom and deck"; "Changed #14" where they are none, or too many to be named.
  std::string title(std::string_view record) const;

 private:
  std::vector<std::string> names_;
};

}  // namespace secondpull
