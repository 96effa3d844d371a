// Entries of the knowledge base written as text: what is written is what was read.
#include "db/exchange/knowledge_writing.h"

#include <filesystem>
#include <fstream>

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include "core/shop/knowledge_edits.h"
#include "db/exchange/knowledge_json.h"

namespace secondpull {
namespace {

using namespace learning;
using db::KnowledgeEntry;
using testing::HasSubstr;
using testing::StartsWith;

const KnowledgeBase& base() {
  return db::published_knowledge();
}

KnowledgeEntry published(const char* section, const char* id) {
  const auto entry = db::find_entry(base(), section, id);
  if (!entry) throw std::invalid_argument(id);
  return *entry;
}

// Every entry of every file of the published knowledge base, as a value, is a shape that writers must keep:
// the source of what is expected is the file itself.
TEST(KnowledgeWriting, EveryPublishedEntryIsWrittenAsItStandsInItsFile) {
  int seen = 0;
  for (const auto& file : std::filesystem::directory_iterator{SECONDPULL_SOURCE_DIR "/resources/knowledge"}) {
    std::ifstream in{file.path()};
    const auto whole = nlohmann::json::parse(in);
    for (const auto& [section, entries] : whole.items()) {
      if (section == "sources") continue;
      for (const auto& [id, value] : entries.items()) {
        std::string written;
        if (section == "trade") {
          written = db::write_trade(id, base().knowledge, base().texts.at(id).origin);
        } else {
          const auto entry = db::find_entry(base(), section, id);
          ASSERT_TRUE(entry) << section << ' ' << id;
          EXPECT_EQ(db::section_of(*entry), section);
          EXPECT_EQ(db::id_of(*entry), id);
          written = db::write_entry(*entry);
        }
        EXPECT_EQ(nlohmann::json::parse(written), value) << section << ' ' << id;
        ++seen;
      }
    }
  }
  EXPECT_GT(seen, 300);
}

TEST(KnowledgeWriting, AnEntryReadAloneIsTheEntry) {
  for (const char* section : {"symptoms", "causes", "tests", "repairs", "known_work", "parts_to_pull",
                              "kinds", "cautions", "measurements", "checks"}) {
    const auto ids = [&] {
      std::vector<std::string> out;
      const auto add = [&](const auto& list) {
        for (const auto& each : list)
          if (KnowledgeEntry one{.of = each, .text = {}}; db::section_of(one) == section)
            out.push_back(db::id_of(one));
      };
      const Knowledge& k = base().knowledge;
      add(k.symptoms), add(k.causes), add(k.tests), add(k.repairs), add(k.known_work), add(k.parts_to_pull);
      add(k.kinds), add(base().cautions), add(base().measurements), add(base().checks);
      return out;
    }();
    ASSERT_FALSE(ids.empty()) << section;
    for (const std::string& id : ids) {
      const std::string text = db::write_entry(published(section, id.c_str()));
      const auto read = db::read_entry(section, id, text);
      ASSERT_TRUE(read) << read.error().sentence;
      EXPECT_EQ(db::write_entry(*read), text);
      EXPECT_EQ(db::id_of(*read), id);
    }
  }
}

TEST(KnowledgeWriting, KeepsWhatIsRareInTheFiles) {
  learning::Test test{.id = "tap",
                      .name = "Tap \"twice\"\nthen listen",
                      .also = {"knock"},
                      .kinds = {MachineKind::push, MachineKind::blower},
                      .symptoms = {"surge"},
                      .needs = Needs::turning_but_not_starting,
                      .after = {{"test-spark", {"weak", "none"}}},
                      .group = "ears",
                      .minutes = about(2.5),
                      .cost = Money::from_minor(35),
                      .outcomes = {{"stops", "stops", {"it stops"}}, {"goes-on", "goes on", {}}},
                      .likelihood = {{"coil-dead", {0.1, 0.9}}},
                      .otherwise = {{1.0 / 3, 2.0 / 3}}};
  const KnowledgeEntry entry{
      .of = test, .text = {.origin = {.sources = {"M1"}, .note = "own"}, .says = "so", .ask = "is it?"}};
  const auto read = db::read_entry("tests", "tap", db::write_entry(entry));
  ASSERT_TRUE(read) << read.error().sentence;
  const auto& again = std::get<learning::Test>(read->of);
  EXPECT_EQ(again.name, test.name);
  EXPECT_EQ(again.also, test.also);
  EXPECT_EQ(again.kinds, test.kinds);
  EXPECT_EQ(again.symptoms, test.symptoms);
  EXPECT_EQ(again.needs, test.needs);
  ASSERT_EQ(again.after.size(), 1U);
  EXPECT_EQ(again.after[0].test, "test-spark");
  EXPECT_EQ(again.after[0].outcomes, test.after[0].outcomes);
  EXPECT_EQ(again.group, "ears");
  EXPECT_EQ(again.minutes, test.minutes);
  EXPECT_EQ(again.cost, test.cost);
  EXPECT_EQ(again.outcomes[0].also, test.outcomes[0].also);
  EXPECT_EQ(again.likelihood, test.likelihood);
  EXPECT_EQ(again.otherwise, test.otherwise) << "to the last digit";
  EXPECT_EQ(read->text.says, "so");
  EXPECT_EQ(read->text.ask, "is it?");
  EXPECT_EQ(read->text.origin.sources, std::vector<std::string>{"M1"});
  EXPECT_EQ(read->text.origin.note, "own");
}

TEST(KnowledgeWriting, AnEntryThatIsNoneIsRefusedByItsPath) {
  EXPECT_EQ(db::read_entry("reasons", "x", "{}").error().field, "section");
  EXPECT_EQ(db::read_entry("causes", "leak", "{").error().field, "causes.leak");
  EXPECT_EQ(db::read_entry("causes", "leak", R"({"name": 3, "note": "x"})").error().field,
            "causes.leak.name");
  EXPECT_THAT(db::read_entry("causes", "leak", R"({"name": "x"})").error().sentence, HasSubstr("\"note\""));
  EXPECT_FALSE(db::find_entry(base(), "causes", "no such"));
  EXPECT_FALSE(db::find_entry(base(), "reasons", "coil-dead"));
}

TEST(KnowledgeWriting, ANewIdIsTheNameAndIsTakenByNobody) {
  EXPECT_EQ(db::new_entry_id(base(), {}, "  Bowl gasket, swollen! "), "bowl-gasket-swollen");
  EXPECT_EQ(db::new_entry_id(base(), {}, "Coil dead"), "coil-dead-2") << "a cause is called so";
  EXPECT_EQ(db::new_entry_id(base(), {}, "plug off"), "plug-off-2") << "a caution is called so";
  EXPECT_EQ(db::new_entry_id(base(), {}, "Push"), "push-2") << "a kind of machine is called so";
  EXPECT_EQ(db::new_entry_id(base(), {}, "unlisted"), "unlisted-2");
  EXPECT_EQ(db::new_entry_id(base(), {}, "\xD0\x96"), "own") << "no letter of ASCII in it";
  Shop shop;
  shop.all<KnowledgeEdit>().insert(
      {.id = KnowledgeEditId{1}, .entered = 1, .section = "x", .entry = "own", .text = "y"});
  EXPECT_EQ(db::new_entry_id(base(), shop, ""), "own-2");
}

TEST(KnowledgeIf, SaysWhatWouldBeAndKeepsNothing) {
  const Shop shop;
  const auto kept =
      db::knowledge_if_kept(shop, "causes", "coil-dead", R"({"name": "coil gone", "note": "own"})");
  ASSERT_TRUE(kept) << kept.error().sentence;
  EXPECT_EQ(kept->knowledge.cause("coil-dead")->name, "coil gone");
  EXPECT_TRUE(shop.all<KnowledgeEdit>().empty());
}

TEST(KnowledgeIf, RefusesWhatCannotBeReadByEntryAndField) {
  const auto wrong = db::knowledge_if_kept({}, "repairs", "seat", R"({"name": "Seat", "minutes": [9, 5, 20],
    "parts": [1, 2, 3], "cures": {}, "note": "own"})");
  ASSERT_FALSE(wrong);
  EXPECT_THAT(wrong.error().field, HasSubstr("repairs.seat.minutes"));
  EXPECT_EQ(wrong.error().value, "9, 5, 20");
  EXPECT_EQ(db::knowledge_if_kept({}, "causes", "", "{}").error().field, "entry");
}

TEST(KnowledgeIf, AnEntryThatOthersNameCannotBeDropped) {
  Shop shop;
  const auto keep = [&](const char* section, const char* entry, const char* text) {
    shop = *apply(shop, *keep_entry(shop, section, entry, text));
  };
  keep("causes", "gasket-swollen", R"({"name": "gasket swollen", "note": "own"})");
  EXPECT_TRUE(db::knowledge_if_dropped(shop, "causes", "gasket-swollen"));
  keep("repairs", "new-gasket", R"({"name": "New gasket", "minutes": [5, 9, 20], "parts": [1, 2, 3],
    "cures": {"gasket-swollen": [3, 1]}, "note": "own"})");
  const auto wrong = db::knowledge_if_dropped(shop, "causes", "gasket-swollen");
  ASSERT_FALSE(wrong);
  EXPECT_THAT(wrong.error().sentence, StartsWith("own entry repairs new-gasket"));
  EXPECT_EQ(wrong.error().value, "gasket-swollen");
}

}  // namespace
}  // namespace secondpull
