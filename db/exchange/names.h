#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <unordered_map>

#include "core/shop/shop.h"

namespace secondpull::db {

// Records that lines of other files name have an identifier of the user's own. It is the `code` of a record,
// of a machine its tag.

template <class Record>
concept Named = requires(const Record& record) {
  record.code;
}
|| requires(const Record& record) {
  record.tag;
};

template <Named Record>
const std::string& identifier(const Record& record) {
  if constexpr (requires { record.code; })
    return record.code;
  else
    return record.tag;
}

/// What the identifiers of a folder (and of the shop it is added to) stand for.
class Names {
 public:
  template <class Id>
  std::optional<Id> find(std::string_view name) const {
    const auto& ids = of<Id>().ids;
    const auto at = ids.find(name);
    return at == ids.end() ? std::nullopt : std::optional{at->second};
  }
  /// False (and nothing changed) if the name is taken.
  template <class Id>
  bool add(std::string_view name, Id id) {
    return of<Id>().ids.emplace(std::string{name}, id).second;
  }
  /// Says that the file with these identifiers could not be read as a whole, so that one that is not found
  /// may well stand there.
  template <class Id>
  void set_incomplete() {
    of<Id>().complete = false;
  }
  template <class Id>
  bool complete() const {
    return of<Id>().complete;
  }

 private:
  struct Hash : std::hash<std::string_view> {
    using is_transparent = void;
  };
  template <class Id>
  struct Kind {
    std::unordered_map<std::string, Id, Hash, std::equal_to<>> ids;
    bool complete = true;
  };
  template <class Id>
  Kind<Id>& of() {
    return std::get<Kind<Id>>(kinds_);
  }
  template <class Id>
  const Kind<Id>& of() const {
    return std::get<Kind<Id>>(kinds_);
  }
  std::tuple<Kind<PersonId>, Kind<AcquisitionId>, Kind<MachineId>, Kind<FaultId>, Kind<PartId>, Kind<OrderId>>
      kinds_;
};

}  // namespace secondpull::db
