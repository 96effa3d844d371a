#include "tests/faults/busy_shop.h"

#include <cstdlib>
#include <stdexcept>

#include "core/shop/intake.h"

namespace secondpull::faults {

namespace fs = std::filesystem;

namespace {

template <class T>
T value_of(Result<T> result) {
  if (!result) throw std::runtime_error(result.error().sentence);
  return std::move(*result);
}

const Date today = db::utc_day(now);
constexpr std::uint64_t round = 5;
enum class Step { take_in, undo, redo };

Step step_to(std::uint64_t generation) {
  switch (generation % round) {
    case 3:
      return Step::undo;
    case 4:
      return Step::redo;
    default:
      return Step::take_in;
  }
}

}  // namespace

TempFolder::TempFolder() {
  std::string name = (fs::temp_directory_path() / "secondpull-faults-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
  path_ = name;
}
TempFolder::~TempFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

void make_shop(const fs::path& folder) {
  db::Store store = value_of(db::Store::create(folder, Settings{.name = "The shed"}, now));
  value_of(store.perform(take_in(*store.shop()), now));
}

db::Store open_shop(const fs::path& folder) {
  return value_of(db::Store::open(folder, db::Access::write, now));
}

Change take_in(const Shop& shop) {
  NewAcquisition acquisition{.date = today, .source = Source::curb, .minutes = Minutes{20}};
  acquisition.machines.push_back({.make = "Tarnwick", .symptom = "dead"});
  return value_of(log_acquisition(shop, acquisition));
}

Change import_labour(const Shop& shop, int lines) {
  Change change{shop, "Imported hours"};
  Labour line;
  line.machine = shop.all<Machine>().begin()->id;
  line.date = today;
  line.minutes = Minutes{10};
  line.note = "swept the floor";
  for (int i = 0; i < lines; ++i)
    change.add(line);
  return change;
}

void do_step(db::Store& store) {
  switch (step_to(store.generation() + 1)) {
    case Step::take_in:
      value_of(store.perform(take_in(*store.shop()), now));
      break;
    case Step::undo:
      value_of(store.undo());
      break;
    case Step::redo:
      value_of(store.redo());
      break;
  }
}

const Shop& Expected::at(std::uint64_t generation) {
  while (first_ + shops_.size() <= generation) {
    const std::uint64_t next = first_ + shops_.size();
    const Shop& last = shops_.back();
    switch (step_to(next)) {
      case Step::take_in:
        shops_.push_back(value_of(apply(last, take_in(last))));
        break;
      case Step::undo:
      case Step::redo: {
        Shop other = shops_.at(shops_.size() - 2);  // as it was two steps ago; only the counter went on
        other.next_id = last.next_id;
        shops_.push_back(std::move(other));
        break;
      }
    }
  }
  return shops_.at(generation - first_);
}

}  // namespace secondpull::faults
