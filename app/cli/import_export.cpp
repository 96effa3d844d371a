#include <filesystem>
#include <memory>
#include <system_error>

#include <fmt/format.h>

#include "app/cli/call.h"
#include "db/exchange/demo_folder.h"
#include "db/exchange/exchange.h"
#include "db/exchange/take_in.h"

namespace secondpull::cli {
namespace {

namespace fs = std::filesystem;

Exit tell_all(const std::vector<db::ImportError>& errors) {
  for (const db::ImportError& error : errors)
    tell(db::shown(error));
  tell(fmt::format("{} {}. Nothing was imported.", errors.size(), errors.size() == 1 ? "error" : "errors"));
  return Exit::refused;
}

bool holds_something(const fs::path& folder) {
  std::error_code error;
  return fs::exists(folder, error) && !fs::is_empty(folder, error);
}

/// Takes back a shop that was made for an import which then failed. A folder that was there before stays.
void unmake(const fs::path& shop, bool was_there) {
  std::error_code error;
  if (!was_there) {
    fs::remove_all(shop, error);
    return;
  }
  for (const fs::directory_entry& entry : fs::directory_iterator{shop, error})
    fs::remove_all(entry.path(), error);
}

Exit import_into_new(const fs::path& folder, const Call& call) {
  const db::ImportResult read = db::read_folder(folder, Shop{});
  if (!read.errors.empty()) return tell_all(read.errors);
  std::error_code error;
  const bool was_there = fs::exists(call.shop, error);
  const Change change = db::import_change(Shop{}, read.shop);
  const auto done = [&]() -> Result<db::Done> {
    auto store = db::Store::create(call.shop, read.shop.settings, call.now());
    if (!store) return tl::unexpected{store.error()};
    return store->perform(change, call.now());
  }();
  if (!done) {
    unmake(call.shop, was_there);
    return tell(done.error(), Exit::refused);
  }
  return put(change.title() + ".\n");
}

Exit import_into_existing(const fs::path& folder, const Call& call, bool add) {
  auto store = db::Store::open(call.shop, db::Access::write, call.now());
  if (!store) return tell(store.error(), Exit::refused);
  const std::shared_ptr<const Shop> existing = store->shop();
  if (!existing->empty() && !add) {
    tell(
        fmt::format("The shop in {} has records already: add --add to put these beside them, or name another "
                    "folder for a new shop.",
                    call.shop));
    return Exit::refused;
  }
  const db::ImportResult read = db::read_folder(folder, *existing);
  if (!read.errors.empty()) return tell_all(read.errors);
  const Result<db::Done> done = db::take_in(*store, read.shop, call.now());
  if (!done) return tell(done.error(), Exit::refused);
  return put(done->title + ".\n");
}

Exit make_demo(const Call& call) {
  const auto folder = db::demo_folder();
  if (!folder) return tell(folder.error(), Exit::refused);
  if (holds_something(call.shop)) {
    tell(fmt::format("{} is not empty: the demo shop needs a new folder of its own.", call.shop));
    return Exit::refused;
  }
  return import_into_new(*folder, call);
}

Exit export_to(const fs::path& folder, const Call& call) {
  const auto store = db::Store::open(call.shop, db::Access::read, call.now());
  if (!store) return tell(store.error(), Exit::refused);
  if (const auto written = db::write_folder(*store->shop(), folder); !written)
    return tell(written.error(), Exit::refused);
  return put(
      fmt::format("Exported {} machines to {}.\n", store->shop()->all<Machine>().size(), folder.string()));
}

}  // namespace

void add_import(CLI::App& app, Call& call) {
  const auto folder = std::make_shared<std::string>();
  const auto add = std::make_shared<bool>(false);
  CLI::App* command = add_command(
      app, call, "import", "Takes an exchange folder into a shop, or makes a shop of it", [=, &call] {
        return holds_something(call.shop) ? import_into_existing(*folder, call, *add)
                                          : import_into_new(*folder, call);
      });
  command->add_option("folder", *folder, "The exchange folder")->required()->type_name("");
  command->add_flag("--add", *add, "Add to the records that the shop has");
}

void add_export(CLI::App& app, Call& call) {
  const auto folder = std::make_shared<std::string>();
  CLI::App* command = add_command(app, call, "export", "Writes the shop as an exchange folder",
                                  [=, &call] { return export_to(*folder, call); });
  command->add_option("folder", *folder, "The exchange folder to write")->required()->type_name("");
}

void add_demo(CLI::App& app, Call& call) {
  add_command(app, call, "demo", "Makes a new shop, filled with an invented one's records",
              [&call] { return make_demo(call); });
}

}  // namespace secondpull::cli
