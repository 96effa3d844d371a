#include "db/exchange/take_in.h"

#include <fmt/format.h>

namespace secondpull::db {

Result<Done> take_in(Store& store, const Shop& read, Instant now) {
  const std::shared_ptr<const Shop> existing = store.shop();
  if (const auto set = store.set_settings(read.settings); !set) return tl::unexpected{set.error()};
  Result<Done> done = store.perform(import_change(*existing, read), now);
  if (done) return done;
  if (const auto back = store.set_settings(existing->settings); !back)
    return problem(fmt::format("{} {}", done.error().sentence, back.error().sentence));
  return done;
}

}  // namespace secondpull::db
