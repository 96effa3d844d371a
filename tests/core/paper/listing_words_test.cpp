#include <gmock/gmock.h>

#include "core/paper/condition.h"
#include "core/paper/listing_text.h"
#include "core/shop/listing_text.h"
#include "tests/core/paper/paper_base.h"

namespace secondpull::paper {
namespace {

using test::BareShop;
using test::cents;
using test::day;
using testing::HasSubstr;
using testing::Not;

struct Listed {
  BareShop bare;
  MachineId machine = bare.add(Machine{.tag = "7",
                                       .acquisition = bare.curb,
                                       .kind = MachineKind::self_propelled,
                                       .make = "Tarnwick",
                                       .model = "TW-2",
                                       .model_number = "TW2-118",
                                       .engine = "Orlick 163",
                                       .year = 2016,
                                       .deck_in = Tenths{205}});
  ListingWords words(const ListingTerms& terms) const {
    return listing_words(bare.shop, lines_of(bare.shop, machine), test::paper_base(), terms,
                         day("2026-05-04"));
  }
};

TEST(ListingWords, SayWhatItIsWhatWasDoneAndForHowMuch) {
  Listed s;
  const FaultId fault = s.bare.fault(s.machine, "Surges", "Intake leak", "2026-03-06");
  s.bare.finding(s.machine, "2026-03-06", "Carburettor cleaned", "mended", fault);
  s.bare.finding(s.machine, "2026-03-07", "Test run", "ran through");
  s.bare.finding(s.machine, "2026-03-08", "Safety check: Recall list checked", "passed");
  const ListingWords words = s.words({.asking = cents(14'500), .sold_as = SoldAs::running});
  EXPECT_FALSE(words.own);
  EXPECT_EQ(words.title, "Tarnwick TW-2 self-propelled mower, 20.5 in cut, 2016, running");
  EXPECT_THAT(words.body, HasSubstr("Tarnwick TW-2 self-propelled mower: 20.5 in cut, made in 2016, engine "
                                    "Orlick 163, model no. TW2-118."));
  EXPECT_THAT(words.body, HasSubstr("\n- Mended: Surges (Intake leak): Carburettor cleaned\n"));
  EXPECT_THAT(words.body, HasSubstr("- Test run: ran through, on 7 March 2026"));
  EXPECT_THAT(words.body, HasSubstr("No fault of it is known."));
  EXPECT_THAT(words.body, HasSubstr("Price: $145."));
  EXPECT_THAT(words.body, HasSubstr("It runs and is sold as a running machine"));
  EXPECT_THAT(words.body, HasSubstr("Read the maker's manual"));
  EXPECT_THAT(words.body, HasSubstr("Recalls: looked up on 8 March 2026: none found."));
}

TEST(ListingWords, AsIsPromiseNothingAndDeferToLocalLaw) {
  Listed s;
  s.bare.fault(s.machine, "Does not start");
  const ListingWords words = s.words({.asking = cents(4'050), .sold_as = SoldAs::as_is});
  EXPECT_THAT(words.title, HasSubstr("sold as is"));
  EXPECT_THAT(words.body, HasSubstr("- Does not start"));
  EXPECT_THAT(words.body, HasSubstr("$40.50"));
  EXPECT_THAT(words.body, HasSubstr(std::string{kAsIsWords}));
  EXPECT_THAT(std::string{kAsIsWords}, HasSubstr("local law"));
  EXPECT_THAT(words.body, Not(HasSubstr("It runs")));
  EXPECT_THAT(words.body, Not(HasSubstr("Recalls")));  // nobody looked
}

TEST(ListingWords, DoNotSayThatItRunsWithoutATestRun) {
  const Listed s;
  const ListingWords words = s.words({.sold_as = SoldAs::running});
  EXPECT_THAT(words.body, Not(HasSubstr("It runs")));
  EXPECT_THAT(words.body, Not(HasSubstr("Price")));
}

TEST(ListingWords, OwnWordsTakeThePlaceOfThoseOfTheRecord) {
  Listed s;
  const std::string text = "Läuft prima\n\nKomm und sieh.\nBar.";
  const auto kept = set_listing_text(s.bare.shop, s.machine, day("2026-05-04"), text);
  ASSERT_TRUE(kept);
  s.bare.shop = *apply(s.bare.shop, *kept);
  const ListingWords words = s.words({});
  EXPECT_EQ(words, (ListingWords{"Läuft prima", "Komm und sieh.\nBar.", true}));
  EXPECT_EQ(as_text(words), text);
  EXPECT_EQ(own_words("One line"), (ListingWords{"One line", "", true}));
  EXPECT_EQ(as_text(own_words("One line")), "One line");
}

TEST(ListingWords, TakeTheTermsOfTheListingThatIsOut) {
  Listed s;
  EXPECT_EQ(terms_of(lines_of(s.bare.shop, s.machine)), ListingTerms{});
  s.bare.add(Listing{
      .machine = s.machine, .date = day("2026-04-01"), .asking = cents(20'000), .ended = day("2026-04-09")});
  s.bare.add(Listing{
      .machine = s.machine, .date = day("2026-04-09"), .asking = cents(18'000), .sold_as = SoldAs::as_is});
  EXPECT_EQ(terms_of(lines_of(s.bare.shop, s.machine)), (ListingTerms{cents(18'000), SoldAs::as_is}));
}

}  // namespace
}  // namespace secondpull::paper
