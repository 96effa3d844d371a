#include "db/records.h"

#include <cmath>
#include <random>
#include <type_traits>

#include <gtest/gtest.h>

#include "core/calendar/date.h"
#include "db/connection.h"
#include "db/rows/kinds.h"
#include "db/shop_folder.h"
#include "tests/db/store/test_shop.h"

namespace secondpull::db {
namespace {

using namespace testing;

/// Draws members of a record: any value that its type can have and the schema takes.
class Draw {
 public:
  explicit Draw(unsigned seed) : random_{seed} {}
  template <class T>
  T value() {
    if constexpr (is_optional<T>) {
      return count(0, 2) == 0 ? T{} : T{value<typename T::value_type>()};
    } else if constexpr (std::same_as<T, std::string>) {
      std::string text;
      for (std::int64_t i = count(0, 12); i > 0; --i)
        text += static_cast<char>(count(1, 255));  // bytes that are no UTF-8 as well
      return text;
    } else if constexpr (std::same_as<T, Date>) {
      return plus_days(Date{std::chrono::year{1900}, std::chrono::January, std::chrono::day{1}},
                       static_cast<int>(count(0, 2'900'000)));
    } else if constexpr (Word<T>) {
      const auto words = all_words<T>();
      return words[static_cast<std::size_t>(count(0, std::ssize(words) - 1))];
    } else if constexpr (Key<T>) {
      return static_cast<T>(count(1, 1'000'000));
    } else if constexpr (std::same_as<T, Money>) {
      return Money::from_minor(count(0, INT64_MAX));
    } else if constexpr (Count<T>) {
      return T{count(0, 1'000'000)};
    } else if constexpr (std::same_as<T, double>) {
      return std::ldexp(std::uniform_real_distribution<double>{-1, 1}(random_),
                        static_cast<int>(count(-1000, 1000)));
    } else if constexpr (std::same_as<T, bool>) {
      return count(0, 1) == 1;
    } else {
      return static_cast<T>(count(1, 9999));
    }
  }
  template <class Record>
  Record record(std::int64_t id) {
    Record drawn;
    each_column<Record>([&](const auto& column, int) {
      auto& member = drawn.*column.member;
      member = value<std::remove_reference_t<decltype(member)>>();
    });
    drawn.id = static_cast<decltype(drawn.id)>(id);
    make_sense(drawn);
    return drawn;
  }

 private:
  std::int64_t count(std::int64_t least, std::int64_t most) {
    return std::uniform_int_distribution<std::int64_t>{least, most}(random_);
  }
  // What the schema asks of more than a member's type.
  template <class Record>
  void make_sense(Record& drawn) {
    if constexpr (requires { drawn.tag; }) drawn.tag += "1";
    if constexpr (std::same_as<Record, ClosedYear>) drawn.year = 1900 + drawn.year % 1000;
    if constexpr (std::same_as<Record, KeptFigure>) drawn.line += "1";
    if constexpr (std::same_as<Record, OwnNumber>) drawn.path += "1";
    if constexpr (std::same_as<Record, KnowledgeEdit>) {
      drawn.section += "1";
      drawn.entry += "1";
    }
    if constexpr (requires { drawn.cause; } && !std::same_as<Record, Fault>) drawn.cause += "1";
    if constexpr (std::same_as<Record, Forecast>) drawn.chance_revived = 0.25;
    if constexpr (std::same_as<Record, ForecastCause>) drawn.chance = 0.75;
    if constexpr (requires { drawn.sha256; }) drawn.sha256 = std::string(64, 'a');
    if constexpr (requires {
                    drawn.from_donor;
                    drawn.from_order;
                  }) {
      if (drawn.from_order) drawn.from_donor.reset();
    }
    if constexpr (std::same_as<Record, Labour> || std::same_as<Record, Trip>) {
      if (drawn.machine) drawn.acquisition.reset();
    }
  }
  std::mt19937 random_;
};

/// A shop file whose references are not looked at, since records are drawn one by one.
SQLite::Database loose_database(const TempFolder& folder) {
  std::filesystem::create_directory(folder.shop());
  make_shop_file(folder.shop(), test_settings(), schema_migrations());
  SQLite::Database database = open_file(shop_file(folder.shop()), OpenAs::writer);
  database.exec("PRAGMA foreign_keys = OFF");
  return database;
}

TEST(Records, OfEveryKindComeBackAsTheyWentIn) {
  const TempFolder folder;
  SQLite::Database database = loose_database(folder);
  Records records{database};
  Draw draw{17};
  Shop expected;
  {
    SQLite::Transaction all{database};
    std::int64_t id = 1;
    each_kind([&]<class Record>(std::type_identity<Record>) {
      for (int i = 0; i < 50; ++i) {
        const Record record = draw.record<Record>(id++);
        records.write({EditKind::add, record});
        expected.all<Record>().insert(record);
      }
    });
    all.commit();
  }
  Shop loaded;
  records.load(loaded);
  EXPECT_TRUE(loaded.same_records(expected));
}

TEST(Records, ReplacedAndRemovedAreFoundByRefresh) {
  const TempFolder folder;
  SQLite::Database database = loose_database(folder);
  Records records{database};
  Draw draw{3};
  Shop memory;
  for (std::int64_t id = 1; id <= 9; ++id)
    memory.all<Machine>().insert(draw.record<Machine>(id));
  for (const Machine& machine : memory.all<Machine>())
    records.write({EditKind::add, machine});
  const auto nobody = draw.record<Machine>(10);
  records.write({EditKind::add, nobody});
  records.write({EditKind::replace, draw.record<Machine>(4)});
  records.write({EditKind::remove, *memory.find(MachineId{9})});
  records.write({EditKind::remove, *memory.find(MachineId{1})});
  records.refresh(memory, {MachineId{9}, MachineId{4}, MachineId{10}, MachineId{1}, MachineId{4}});
  Shop loaded;
  records.load(loaded);
  EXPECT_TRUE(loaded.same_records(memory));
  EXPECT_EQ(memory.all<Machine>().size(), 8U);
}

TEST(Records, OfEveryKindHaveEveryMemberInAColumn) {
  // A member that is in no column would come back at its default. Laid out one after the other, the columns'
  // members must fill the record exactly.
  each_kind([]<class Record>(std::type_identity<Record>) {
    SCOPED_TRACE(Rows<Record>::table);
    const Record record;
    const auto aligned = [](std::size_t offset, std::size_t to) { return (offset + to - 1) / to * to; };
    std::size_t end = 0;
    each_column<Record>([&](const auto& column, int) {
      const auto& member = record.*column.member;
      end = aligned(end, alignof(std::remove_cvref_t<decltype(member)>));
      EXPECT_EQ(reinterpret_cast<const char*>(&member) - reinterpret_cast<const char*>(&record),
                static_cast<std::ptrdiff_t>(end))
          << "before " << column.name;
      end += sizeof member;
    });
    EXPECT_EQ(aligned(end, alignof(Record)), sizeof(Record));
  });
}

}  // namespace
}  // namespace secondpull::db
