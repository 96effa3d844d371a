#include "core/shop/knowledge_edits.h"

#include <gmock/gmock.h>

#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::SmallShop;

TEST(KnowledgeEdits, StandOncePerSectionAndEntry) {
  SmallShop s;
  s.carry_out(keep_entry(s.shop, "tests", "leak", R"({"name": "look"})"));
  const auto again = keep_entry(s.shop, "causes", "leak", R"({"name": "drips"})");
  ASSERT_TRUE(again);
  EXPECT_EQ(again->title(), "Own entry: causes leak");
  s.carry_out(again);
  EXPECT_EQ(s.shop.all<KnowledgeEdit>().size(), 2u);
  EXPECT_EQ(s.shop.find(s.own_entry)->text, R"({"name": "drips"})");
  EXPECT_TRUE(keep_entry(s.shop, "causes", "leak", R"({"name": "drips"})")->empty());
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(KnowledgeEdits, GiveWayToThePublishedEntry) {
  SmallShop s;
  const auto dropped = drop_entry(s.shop, "causes", "leak");
  ASSERT_TRUE(dropped);
  EXPECT_EQ(dropped->title(), "Dropped the own entry: causes leak");
  s.carry_out(dropped);
  EXPECT_TRUE(s.shop.all<KnowledgeEdit>().empty());
  EXPECT_TRUE(drop_entry(s.shop, "causes", "leak")->empty());
}

TEST(KnowledgeEdits, NeedASectionAnEntryAndAText) {
  const Shop shop;
  const auto field = [](const Result<Change>& change) { return change ? "" : change.error().field; };
  EXPECT_EQ(field(keep_entry(shop, "", "leak", "{}")), "section");
  EXPECT_EQ(field(keep_entry(shop, "causes", " ", "{}")), "entry");
  EXPECT_EQ(field(keep_entry(shop, "causes", "leak", "")), "text");
  EXPECT_EQ(field(drop_entry(shop, "", "leak")), "section");
}

}  // namespace
}  // namespace secondpull
