#include "app/print/machine_papers.h"

#include <algorithm>

#include <QAction>
#include <QMenu>
#include <QtTest/QTest>
#include <gtest/gtest.h>

#include "app/planning/planning.h"
#include "core/learning/knowledge_base.h"
#include "core/shop/intake.h"
#include "core/shop/selling.h"
#include "tests/app/shop_for_test.h"

namespace secondpull::app::test {
namespace {

const PaperChoice& choice(const std::vector<PaperChoice>& papers, const char* name) {
  return *std::find_if(papers.begin(), papers.end(),
                       [&](const PaperChoice& each) { return each.name == QLatin1String{name}; });
}

TEST(MachinePapers, AreOfTheMachineThatThePageIsAbout) {
  ShopForTest shop;
  std::optional<MachineId> open;
  const auto papers = machinePapers(*shop.session, [&open] { return open; });
  for (const PaperChoice& paper : papers)
    EXPECT_FALSE(paper.make()) << paper.name.toStdString();
  open = shop.logMachine("Tarnwick", "TW-2");
  EXPECT_EQ(choice(papers, "tag").make()->title, "Tag #1");
  EXPECT_EQ(choice(papers, "tag").make()->file_name, "tag-1");
  EXPECT_EQ(choice(papers, "benchSheet").make()->title, "Bench sheet #1");
}

TEST(MachinePapers, ABenchSheetHasTheStepsOnceThePlanIsThere) {
  ShopForTest shop;
  const MachineId machine = shop.logMachine("Tarnwick", "TW-2");
  Machine changed = *shop.session->shop()->find(machine);
  changed.symptom = shop.session->knowledge()->knowledge.symptoms.front().name;
  ASSERT_FALSE(shop.session->perform(edit_machine(*shop.session->shop(), changed)));
  EXPECT_EQ(benchSheetOf(*shop.session, machine).tag.number, "#1");
  shop.session->planning().watch(machine);
  constexpr int kLongest = 60'000;  // ms
  EXPECT_TRUE(QTest::qWaitFor([&] { return !benchSheetOf(*shop.session, machine).steps.empty(); }, kLongest));
  EXPECT_FALSE(benchSheetOf(*shop.session, machine).causes.empty());
}

TEST(MachinePapers, TagsOfAllAreThoseOfMachinesThatAreHere) {
  ShopForTest shop;
  const PaperChoice all = tagsOfAllHere(*shop.session);
  EXPECT_FALSE(all.make());
  const MachineId machine = shop.logMachine("Tarnwick", "TW-2");
  EXPECT_EQ(all.make()->title, "Tag #1");
  shop.logMachine("Ostrel", "Meadow 20");
  EXPECT_EQ(all.make()->title, "Tags");
  ASSERT_FALSE(shop.session->perform(
      sell(*shop.session->shop(), {.machine = machine, .date = shop.session->today()})));
  EXPECT_EQ(all.make()->title, "Tag #2");
}

TEST(PaperButton, OffersEachPaperToPrintAndAsPdfInItsMenuAndAsADeed) {
  ShopForTest shop;
  QString said;
  PaperButton button{machinePapers(*shop.session, [] { return std::nullopt; }),
                     [&said](const QString& sentence, bool problem) {
                       EXPECT_TRUE(problem);
                       said = sentence;
                     }};
  EXPECT_FALSE(button.accessibleName().isEmpty());
  QStringList words;
  for (const Page::Deed& deed : button.deeds())
    words << deed.words;
  for (const char* wanted : {"print the tag", "tag as PDF", "print the bench sheet", "bench sheet as PDF"})
    EXPECT_TRUE(words.contains(QString::fromLatin1(wanted))) << wanted;
  auto* action = button.menu()->findChild<QAction*>("benchSheetPdf");
  ASSERT_NE(action, nullptr);
  EXPECT_EQ(action->text(), "Bench sheet as PDF…");
  action->trigger();  // no machine is open
  EXPECT_FALSE(said.isEmpty());
}

}  // namespace
}  // namespace secondpull::app::test
