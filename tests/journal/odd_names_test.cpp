#include <set>

#include <gtest/gtest.h>

#include "db/exchange/journal.h"
#include "tests/core/books/shop_builder.h"
#include "tests/journal/readers.h"

// Names that the journal's format would take for something of its own.

namespace secondpull::test {
namespace {

constexpr const char* kOddNames[] = {
    "a:b",
    "two  spaces",
    "three   spaces",
    " outer ",
    "semi;colon",
    "comma, date:2031-05-06",
    "date:2031-05-06",
    "percent % %41",
    "say \"pull\"",
    "it's",
    "[2031-05-06]",
    "[=2031-05-06]",
    "[1]",
    "{12 USD}",
    "@ 12 USD",
    "= 12 USD",
    "(left",
    "right)",
    "(both)",
    "* done",
    "! not done",
    "M\xC3\xA4her gr\xC3\xBCn",
    "\xF0\x9F\x9A\x9C",
    "\xE8\x8D\x89\xE5\x88\x88\xE3\x82\x8A",
    "wide\xC2\xA0\xC2\xA0space",
    "\xE3\x80\x80ideographic\xE3\x80\x80",
    "tab\tin",
    "two\nlines",
    "two\r\nlines",
    "a|b",
    ":a:b:",
    "key:: 1 + 1",
    "#5",
    "~ monthly",
    "back\\slash",
    "Cost of goods",
    "car and truck",
    "commissions and fees",
};

/// One name in every text that comes into the journal.
struct NamedShop {
  ShopBuilder build;

  explicit NamedShop(const std::string& name) {
    build.shop().settings.name = name;
    const PersonId person = build.add(Person{.code = name, .name = name});
    const PartId part = build.add(Part{.code = name, .name = name});
    const Date day = test::day("2026-03-02");
    const MachineId machine = build.machine(
        name, build.add(Acquisition{.code = name, .date = day, .from = person, .price = money("40.00")}));
    const OrderId order = build.add(Order{.code = name, .date = day, .supplier = person, .arrived = day});
    build.add(OrderLine{.order = order, .part = part, .quantity = 3, .price = money("1.00")});
    build.fit(machine, day, part);
    build.fit(machine, day, part);
    build.add(Material{.machine = machine, .date = day, .what = name, .cost = money("0.20")});
    build.add(Finding{.machine = machine, .date = day, .step = name, .cost = money("0.30")});
    build.add(Sale{.machine = machine,
                   .date = day,
                   .buyer = person,
                   .price = money("100.00"),
                   .sales_tax = money("6.00"),
                   .place = name});
    build.add(PartSale{.date = day, .part = part, .price = money("7.00"), .buyer = person});
    build.add(Trip{.date = day, .miles = {100}, .purpose = name, .machine = machine});
    build.add(Expense{.date = day, .category = name, .amount = money("9.00")});
    build.add(TaxPaid{.date = day, .place = name, .amount = money("2.00")});
  }
  std::string journal() const {
    return db::journal(
        build.books(*MileageRates::make({{day("2026-01-01"), day("2026-12-31"), 725, "made up"}})));
  }
};

/// Adds to what stands already: a category may be called like an account of the program's own.
Amounts expected(const std::string& name) {
  Amounts amounts{{"Assets:Cash", money("58.50")},           {"Liabilities:Sales tax", money("-4.00")},
                  {"Income:Sales", money("-107.00")},        {"Expenses:Cost of goods", money("43.50")},
                  {"Expenses:car and truck", money("7.25")}, {"Equity:Owner", money("-7.25")}};
  amounts["Expenses:" + db::account_name(name)] += money("9.00");
  return amounts;
}

TEST(JournalReaders, ReadOddNamesAsWritten) {
  for (const std::string name : kOddNames) {
    SCOPED_TRACE(name);
    const Readers readers{NamedShop{name}.journal(), {}};
    readers.check();
    // In the year of their day: a name that is read as a date would move them out of it.
    EXPECT_EQ(readers.hledger("-b 2026-01-01 -e 2027-01-01"), expected(name));
    EXPECT_EQ(readers.ledger("-b 2026-01-01 -e 2027-01-01"), expected(name));
    const std::string written = db::account_name(name);
    EXPECT_EQ(readers.hledger("--pivot tag '^Income:'").at(written), money("-100.00"));
    EXPECT_EQ(readers.hledger("--pivot place '^Liabilities:'"), (Amounts{{written, money("-4.00")}}));
  }
}

TEST(AccountName, IsAnotherForAnotherName) {
  std::set<std::string> written;
  for (const std::string name : kOddNames)
    EXPECT_TRUE(written.insert(db::account_name(name)).second) << name;
}

TEST(AccountName, LeavesAPlainNameAsItIs) {
  EXPECT_EQ(db::account_name("rent (barn), 2nd"), "rent (barn)%2C 2nd");
  EXPECT_EQ(db::account_name("M\xC3\xA4her 14"), "M\xC3\xA4her 14");
}

}  // namespace
}  // namespace secondpull::test
