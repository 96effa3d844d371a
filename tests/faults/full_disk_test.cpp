#include <csignal>
#include <filesystem>
#include <sys/resource.h>

#include <gtest/gtest.h>

#include "tests/faults/busy_shop.h"
#include "tests/faults/child.h"

namespace secondpull::faults {
namespace {

/// Files of this process can grow to that size at most. Stands in for a full disk: a write then fails.
void limit_files_to(rlim_t bytes) {
  std::signal(SIGXFSZ, SIG_IGN);
  rlimit limit{};
  ::getrlimit(RLIMIT_FSIZE, &limit);
  limit.rlim_cur = std::min(bytes, limit.rlim_max);
  ::setrlimit(RLIMIT_FSIZE, &limit);
}

enum Answer : std::uint64_t { yes = 1, no = 0 };

TEST(FullDisk, KeepsTheShopAsItWasAndSaysSo) {
  const TempFolder folder;
  make_shop(folder.shop());
  // In a child, since a limit once lowered in the test program would stay with its report.
  Child child{[&](const Teller& teller) {
    const auto answer = [&](bool is_so) { teller.tell(is_so ? yes : no); };
    db::Store store = open_shop(folder.shop());
    do_step(store);  // with the day's backup
    const auto shop = store.shop();
    const std::string dump = store.dump();
    const auto entries = store.history().size();
    const Change import = import_labour(*shop, 20'000);

    constexpr rlim_t little = 300'000;
    limit_files_to(little);
    const auto refused = store.perform(import, now);
    answer(!refused);
    answer(!refused && refused.error().sentence.find(folder.shop().string()) != std::string::npos);
    answer(store.shop() == shop);

    limit_files_to(RLIM_INFINITY);
    answer(store.dump() == dump);
    answer(store.history().size() == entries);
    answer(store.check().empty());
    answer(store.perform(import, now).has_value());
    answer(store.undo().has_value());
    answer(store.dump() == dump);
  }};
  for (const char* what :
       {"the import is refused", "the sentence names the shop", "the records in memory stay",
        "the file's records stay", "the history stays", "all is in order",
        "with room the import goes through", "and can be undone", "entirely"}) {
    const auto answered = child.next();
    ASSERT_TRUE(answered) << "the child ended before: " << what;
    EXPECT_EQ(*answered, yes) << what;
  }
}

TEST(FullDisk, LeavesNoFolderBehindThatIsHalfAShop) {
  const TempFolder folder;
  Child child{[&](const Teller& teller) {
    limit_files_to(20'000);
    teller.tell(db::Store::create(folder.shop(), Settings{.name = "The shed"}, now) ? yes : no);
    limit_files_to(RLIM_INFINITY);
    teller.tell(db::Store::create(folder.shop(), Settings{.name = "The shed"}, now) ? yes : no);
  }};
  EXPECT_EQ(child.next(), no);
  EXPECT_EQ(child.next(), yes) << "the next try takes the folder";
}

}  // namespace
}  // namespace secondpull::faults
