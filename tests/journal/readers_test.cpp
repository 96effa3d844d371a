#include <memory>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "db/exchange/exchange.h"
#include "db/exchange/journal.h"
#include "db/rates/published_rates.h"
#include "tests/core/books/random_shop.h"
#include "tests/core/decision/case_count.h"
#include "tests/journal/books_say.h"

// hledger and ledger as referees: what they add up from the journal is what the books say.

namespace secondpull::test {
namespace {

namespace fs = std::filesystem;

/// Sums the accounts of machines and parts, which an inventory counts together.
Amounts with_stock(Amounts stands) {
  Money stock;
  for (const char* account : {"Assets:Machines", "Assets:Parts"})
    if (const auto found = stands.find(account); found != stands.end()) {
      stock += found->second;
      stands.erase(found);
    }
  if (!stock.is_zero()) stands["stock"] = stock;
  return stands;
}

/// What names no machine or place is not asked for.
Amounts named(Amounts amounts) {
  amounts.erase("");
  return amounts;
}

void expect_years_agree(const Books& books, const Readers& readers) {
  const auto moved = readers.hledger_by_year("'^Income:' '^Expenses:'");
  const auto stands = readers.hledger_by_year("-H --depth 2 '^Assets:' '^Liabilities:'");
  const auto tax = readers.hledger_by_year("-H --pivot place '^Liabilities:'");
  const auto of = [](const std::map<int, Amounts>& years, int year) {
    const auto found = years.upper_bound(year);
    return found == years.begin() ? Amounts{} : std::prev(found)->second;
  };
  const auto [first, last] = *books.years();
  for (int year = first; year <= last; ++year) {
    EXPECT_EQ(moved.contains(year) ? moved.at(year) : Amounts{}, moved_in(books, year)) << year;
    // A balance stands until it changes.
    EXPECT_EQ(with_stock(of(stands, year)), stands_at_end_of(books, year)) << year;
    EXPECT_EQ(of(tax, year), sales_tax_at_end_of(books, year)) << year;
  }
}

void expect_machines_agree(const Books& books, const Readers& readers) {
  EXPECT_EQ(named(readers.hledger("--pivot tag '^Income:' '^Expenses:(commissions and fees|delivery)$'")),
            proceeds_by_machine(books));
  EXPECT_EQ(named(readers.hledger("--pivot tag '^Assets:Machines:' '^Expenses:Cost of goods$'")),
            cost_by_machine(books));
  EXPECT_EQ(named(readers.hledger("--pivot tag '^Expenses:car and truck$'")), trips_by_machine(books));
}

void expect_readers_agree(const Books& books) {
  const Readers readers{db::journal(books), books.shop().settings.currency};
  readers.check();
  expect_years_agree(books, readers);
  expect_machines_agree(books, readers);
  EXPECT_EQ(readers.ledger(""), readers.hledger(""));
}

Books books_of_folder(const fs::path& folder) {
  db::ImportResult read = db::read_folder(folder, Shop{});
  for (const db::ImportError& error : read.errors)
    ADD_FAILURE() << shown(error);
  auto books = Books::of(std::make_shared<const Shop>(std::move(read.shop)), db::published_mileage_rates());
  if (!books) throw std::runtime_error(books.error().sentence);
  return *std::move(books);
}

const fs::path kSource = SECONDPULL_SOURCE_DIR;

TEST(JournalReaders, AgreeWithTheBooksOfTheWorkedMonth) {
  expect_readers_agree(books_of_folder(kSource / "tests/db/exchange/data/worked-month"));
}

// The figures of the money model's worked month, asked for as a person would.
TEST(JournalReaders, GiveTheFiguresOfTheWorkedMonth) {
  const Books books = books_of_folder(kSource / "tests/db/exchange/data/worked-month");
  const Readers readers{db::journal(books), {}};
  EXPECT_EQ(readers.hledger("-b 2026-01-01 -e 2027-01-01 '^Expenses:Cost'"),
            (Amounts{{"Expenses:Cost of goods", money("92.10")}}));
  EXPECT_EQ(readers.hledger("tag:tag=^M1$ '^Income:' '^Expenses:'"),
            (Amounts{{"Income:Sales", money("-185.00")},
                     {"Expenses:commissions and fees", money("4.63")},
                     {"Expenses:Cost of goods", money("90.43")},
                     {"Expenses:car and truck", money("12.18")}}));
  EXPECT_EQ(readers.hledger("-e 2027-01-01 '^Assets:Machines' '^Assets:Parts'"),
            (Amounts{{"Assets:Machines:M2", money("30.00")}, {"Assets:Parts", money("3.33")}}));
  EXPECT_EQ(readers.ledger("--limit 'tag(\"tag\") == \"M1\"' Income"),
            (Amounts{{"Income:Sales", money("-185.00")}}));
}

TEST(JournalReaders, AgreeWithTheBooksOfTheDemoShop) {
  expect_readers_agree(books_of_folder(kSource / "demo-data/shop"));
}

/// The same shop for the same seed.
RandomShop random_shop(std::uint64_t seed, int days_apart) {
  const auto shops = rc::gen::exec([days_apart] { return RandomShop{days_apart}; });
  return shops(rc::Random{seed}, rc::kNominalSize).value();
}

TEST(JournalReaders, AgreeWithTheBooksOfRandomShops) {
  for (std::uint64_t seed = 0; seed < case_count(25); ++seed) {
    SCOPED_TRACE(seed);
    expect_readers_agree(
        random_shop(seed, seed % 4 == 0 ? RandomShop::kDaysApart : RandomShop::kWeeksApart).books());
  }
}

TEST(JournalReaders, ReadCurrenciesOfNoDecimalsAndOfThree) {
  for (const char* code : {"JPY", "KWD"})
    for (std::uint64_t seed = 0; seed < case_count(4); ++seed) {
      SCOPED_TRACE(seed);
      RandomShop shop = random_shop(1000 + seed, RandomShop::kWeeksApart);
      shop.build.shop().settings.currency = *currency_of(code);
      expect_readers_agree(shop.books());
    }
}

}  // namespace
}  // namespace secondpull::test
