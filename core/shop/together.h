#pragma once

#include <optional>
#include <string>
#include <utility>

#include "core/result.h"
#include "core/shop/change.h"

namespace secondpull {

/// Several actions as one: each is made for the shop as the ones before leave it.
class Together {
 public:
  explicit Together(const Shop& shop) : shop_{shop}, change_{shop, ""} {}

  /// Makes the next one. Nothing is made any more after a problem.
  template <class Make>
  void add(Make make) {
    if (problem_) return;
    const Result<Change> next = make(std::as_const(shop_));
    if (!next) {
      problem_ = next.error();
      return;
    }
    auto after = apply(shop_, *next);
    if (!after) {
      problem_ = after.error();
      return;
    }
    shop_ = *std::move(after);
    if (change_.title().empty()) change_.set_title(next->title());
    change_.follow(*next);
  }
  const Shop& shop() const { return shop_; }
  Result<Change> result(std::string title = {}) && {
    if (problem_) return tl::unexpected(*std::move(problem_));
    if (!title.empty()) change_.set_title(std::move(title));
    return std::move(change_);
  }

 private:
  Shop shop_;
  Change change_;
  std::optional<Problem> problem_;
};

}  // namespace secondpull
