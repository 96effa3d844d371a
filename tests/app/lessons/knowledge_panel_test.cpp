// The knowledge base on the screen: read, searched, changed, and what a change would do.
#include "app/lessons/knowledge_panel.h"

#include <QComboBox>
#include <QDeadlineTimer>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QtTest>
#include <gmock/gmock.h>

#include "app/planning/planning.h"
#include "core/shop/bench.h"
#include "core/shop/knowledge_edits.h"
#include "db/exchange/knowledge_json.h"
#include "tests/app/shop_for_test.h"

namespace secondpull::app {
namespace {

using testing::HasSubstr;

class KnowledgePanelTest : public testing::Test {
 protected:
  KnowledgePanelTest() { makePanel(); }

  void makePanel() {
    panel = std::make_unique<KnowledgePanel>(session(), nullptr);
    QObject::connect(&session(), &Session::changed, panel.get(), [this] { panel->refresh(); });
    panel->resize(1000, 700);
    panel->QWidget::show();
    panel->refresh();
  }
  Session& session() { return *shop.session; }
  const learning::Knowledge& knowledge() { return session().knowledge()->knowledge; }
  template <class Widget>
  Widget* at(const char* name) {
    auto* widget = panel->findChild<Widget*>(name);
    EXPECT_NE(widget, nullptr) << name;
    return widget;
  }
  std::string words(const char* label) { return at<QLabel>(label)->text().toStdString(); }
  void type(const char* field, const char* text) {
    auto* line = at<QLineEdit>(field);
    line->selectAll();
    QTest::keyClicks(line, text);
  }
  void press(const char* button) { at<QPushButton>(button)->click(); }
  void perform(Result<Change> change) {
    const auto wrong = session().perform(std::move(change));
    ASSERT_FALSE(wrong) << wrong->sentence;
  }
  MachineId waiting(const char* symptom) {
    const MachineId machine = shop.logMachine("Tarnwick", "21P");
    Machine with = *session().shop()->find(machine);
    with.symptom = symptom;
    perform(replace_line(*session().shop(), with));
    return machine;
  }
  /// Once it is worked out.
  std::string whatWouldChange() {
    for (QDeadlineTimer patience{120'000}; panel->isWorking() && !patience.hasExpired();)
      QTest::qWait(20);
    return words("knowledgeWouldChange") + "\n" + words("knowledgeWouldChangeList");
  }
  int rowOf(QTableWidget* table, const char* id) {
    for (int row = 0; row < table->rowCount(); ++row)
      if (table->item(row, 0)->data(Qt::UserRole).toString() == id) return row;
    ADD_FAILURE() << id;
    return 0;
  }

  test::ShopForTest shop;
  std::unique_ptr<KnowledgePanel> panel;
};

TEST_F(KnowledgePanelTest, FindsAnEntryByItsOtherWordsAndBySort) {
  auto* table = at<DataTable>("knowledgeTable");
  const int all = table->shownRows();
  at<QLineEdit>("knowledgeSearch")->setText("no pop at all");
  EXPECT_EQ(table->shownRows(), 1);
  EXPECT_THAT(table->model()->index(0, 0).data().toString().toStdString(), HasSubstr("Pulls freely"));
  at<QLineEdit>("knowledgeSearch")->clear();
  auto* section = at<QComboBox>("knowledgeSection");
  section->setCurrentIndex(section->findData("causes"));
  EXPECT_EQ(table->shownRows(), static_cast<int>(knowledge().causes.size()));
  EXPECT_LT(table->shownRows(), all);
  section->setCurrentIndex(section->findData("own"));
  EXPECT_EQ(table->shownRows(), 0);
}

TEST_F(KnowledgePanelTest, ShowsAnEntryInFieldsThatArePublishedAndNotToBeSaved) {
  panel->open("repairs", "mend-fresh-fuel");
  EXPECT_EQ(at<QLineEdit>("knowledge.minutes.2")->text(), "10");
  EXPECT_EQ(at<QLineEdit>("knowledge.parts.2")->text(), "3.00");
  auto* cures = at<QTableWidget>("knowledge.cures");
  const int row = rowOf(cures, "fuel-stale");
  EXPECT_EQ(cures->item(row, 1)->text(), "12");
  EXPECT_EQ(cures->item(row, 2)->text(), "20") << "12 worked, 8 did not";
  EXPECT_THAT(words("knowledgeWhose"), HasSubstr("as published"));
  EXPECT_FALSE(at<QPushButton>("knowledgeSave")->isEnabled());
  EXPECT_FALSE(at<QPushButton>("knowledgePublishedAgain")->isEnabled());
}

TEST_F(KnowledgePanelTest, SavesACellThatIsStillBeingTypedIn) {
  panel->activateWindow();
  ASSERT_TRUE(QTest::qWaitForWindowActive(panel.get()));
  panel->open("repairs", "mend-fresh-fuel");
  auto* cures = at<QTableWidget>("knowledge.cures");
  const int row = rowOf(cures, "fuel-stale");
  cures->setFocus();
  cures->setCurrentCell(row, 1);
  cures->editItem(cures->item(row, 1));
  QWidget* cell = QApplication::focusWidget();
  ASSERT_NE(cell, cures);
  QTest::keyClicks(cell, "15");
  QTest::keyClick(cell, Qt::Key_S, Qt::ControlModifier);
  ASSERT_EQ(session().shop()->all<KnowledgeEdit>().size(), 1U);
  cures = at<QTableWidget>("knowledge.cures");
  EXPECT_EQ(cures->item(rowOf(cures, "fuel-stale"), 1)->text(), "15");
}

TEST_F(KnowledgePanelTest, KeepsACellBeingTypedInWhenTheRecordsChange) {
  panel->activateWindow();
  ASSERT_TRUE(QTest::qWaitForWindowActive(panel.get()));
  panel->open("repairs", "mend-fresh-fuel");
  type("knowledge.minutes.2", "11");
  auto* cures = at<QTableWidget>("knowledge.cures");
  const int row = rowOf(cures, "fuel-stale");
  cures->setFocus();
  cures->editItem(cures->item(row, 1));
  QTest::keyClicks(QApplication::focusWidget(), "16");
  shop.logMachine("Tarnwick", "21P");  // something else happens in the shop
  cures = at<QTableWidget>("knowledge.cures");
  EXPECT_EQ(cures->item(rowOf(cures, "fuel-stale"), 1)->text(), "16");
  EXPECT_EQ(at<QLineEdit>("knowledge.minutes.2")->text(), "11");
}

TEST_F(KnowledgePanelTest, SavingIsOneActionThatUndoTakesBack) {
  panel->open("repairs", "mend-fresh-fuel");
  const auto before = session().history().size();
  type("knowledge.minutes.2", "12");
  press("knowledgeSave");
  EXPECT_EQ(session().history().size(), before + 1);
  EXPECT_EQ(knowledge().repair("mend-fresh-fuel")->minutes, (learning::Range{5, 12, 20}));
  EXPECT_THAT(session().knowledge()->texts.at("mend-fresh-fuel").origin.note, HasSubstr("own experience"));
  EXPECT_THAT(words("knowledgeWhose"), HasSubstr("of your own, in the place of the published one"));
  EXPECT_EQ(words("knowledgePublished.minutes"), "changed; published: 5, 10, 20");
  EXPECT_TRUE(at<QLabel>("knowledgePublished.parts")->isHidden());
  EXPECT_FALSE(session().undo());
  EXPECT_EQ(knowledge().repair("mend-fresh-fuel")->minutes.typical, 10);
  EXPECT_EQ(at<QLineEdit>("knowledge.minutes.2")->text(), "10");
}

TEST_F(KnowledgePanelTest, ThePublishedEntryComesBack) {
  panel->open("repairs", "mend-fresh-fuel");
  type("knowledge.minutes.2", "12");
  press("knowledgeSave");
  press("knowledgePublishedAgain");
  EXPECT_TRUE(session().shop()->all<KnowledgeEdit>().empty());
  EXPECT_EQ(at<QLineEdit>("knowledge.minutes.2")->text(), "10");
  EXPECT_THAT(words("knowledgeWhose"), HasSubstr("as published"));
}

TEST_F(KnowledgePanelTest, AnErrorNamesItsFieldAndKeepsWhatIsTyped) {
  panel->open("repairs", "mend-fresh-fuel");
  type("knowledge.minutes.2", "a while");
  type("knowledge.days", "3");
  press("knowledgeSave");
  EXPECT_THAT(words("knowledgeProblem.minutes"), HasSubstr("“a while” is no number"));
  EXPECT_EQ(at<QLineEdit>("knowledge.minutes.2")->text(), "a while");
  EXPECT_EQ(at<QLineEdit>("knowledge.days")->text(), "3");
  EXPECT_TRUE(session().shop()->all<KnowledgeEdit>().empty());
  type("knowledge.minutes.2", "15");
  EXPECT_TRUE(at<QLabel>("knowledgeProblem.minutes")->isHidden());
  press("knowledgeSave");
  EXPECT_EQ(knowledge().repair("mend-fresh-fuel")->days, 3);
}

TEST_F(KnowledgePanelTest, ARowOfChancesSaysItsSumAndIsRefusedUntilItIsAllOfThem) {
  panel->open("tests", "test-first-look");
  auto* chances = at<QTableWidget>("knowledge.likelihood");
  ASSERT_GE(chances->columnCount(), 5) << "cause, three outcomes, their sum";
  EXPECT_EQ(chances->item(0, 4)->text(), "100 %");
  chances->item(0, 1)->setText("50");
  EXPECT_THAT(chances->item(0, 4)->text().toStdString(), HasSubstr("110 %, not 100"));
  press("knowledgeSave");
  EXPECT_THAT(words("knowledgeProblem.likelihood"), HasSubstr("110 %"));
  chances->item(0, 3)->setText("45");
  press("knowledgeSave");
  EXPECT_EQ(knowledge().test("test-first-look")->likelihood.front().second, (std::vector{0.5, 0.05, 0.45}));
}

TEST_F(KnowledgePanelTest, ANewOutcomeHasAColumnOfItsOwn) {
  panel->open("tests", "test-first-look");
  auto* chances = at<QTableWidget>("knowledge.likelihood");
  const int columns = chances->columnCount();
  press("knowledge.outcomes.addButton");
  EXPECT_EQ(chances->columnCount(), columns + 1);
  auto* outcomes = at<QTableWidget>("knowledge.outcomes");
  outcomes->item(outcomes->rowCount() - 1, 0)->setText("Smells of old gas");
  EXPECT_EQ(chances->horizontalHeaderItem(4)->text(), "Smells of old gas");
  EXPECT_EQ(chances->item(0, 1)->text(), "40") << "what was typed stays in its column";
  outcomes->setCurrentCell(0, 0);
  QTest::keyClick(outcomes, Qt::Key_Delete);
  EXPECT_EQ(chances->columnCount(), columns);
  EXPECT_EQ(chances->item(0, 1)->text(), "5");
}

TEST_F(KnowledgePanelTest, ACauseIsAddedToASymptomAndTakenOutAgain) {
  panel->open("symptoms", "nostart-pull");
  auto* add = at<QComboBox>("knowledge.causes.add");
  auto* causes = at<QTableWidget>("knowledge.causes");
  const int before = causes->rowCount();
  add->setCurrentIndex(add->findData("rod-thrown"));
  press("knowledge.causes.addButton");
  ASSERT_EQ(causes->rowCount(), before + 1);
  causes->item(rowOf(causes, "rod-thrown"), 1)->setText("2");
  press("knowledgeSave");
  const auto& kept = knowledge().symptom("nostart-pull")->causes;
  EXPECT_TRUE(std::any_of(kept.begin(), kept.end(),
                          [](const auto& one) { return one.first == "rod-thrown" && one.second == 2; }));
  causes = at<QTableWidget>("knowledge.causes");
  causes->setCurrentCell(rowOf(causes, "fuel-stale"), 1);
  QTest::keyClick(causes, Qt::Key_Delete);
  EXPECT_THAT(words("knowledgePublished.causes"), HasSubstr("published also: "));
  press("knowledgeSave");
  EXPECT_EQ(knowledge().symptom("nostart-pull")->causes.size(), static_cast<std::size_t>(before));
}

TEST_F(KnowledgePanelTest, ANewCauseIsCalledByItsName) {
  panel->openNew("causes");
  type("knowledge.name", "Mouse nest in the airway");
  press("knowledgeSave");
  ASSERT_NE(knowledge().cause("mouse-nest-in-the-airway"), nullptr);
  EXPECT_THAT(words("knowledgeWhose"), HasSubstr("none like it is published"));
  EXPECT_EQ(words("knowledgeName"), "Mouse nest in the airway");
  press("knowledgePublishedAgain");
  EXPECT_EQ(knowledge().cause("mouse-nest-in-the-airway"), nullptr);
}

TEST_F(KnowledgePanelTest, ACauseThatARepairNamesIsNotTakenOut) {
  panel->openNew("causes");
  type("knowledge.name", "Mouse nest");
  press("knowledgeSave");
  panel->open("repairs", "mend-fresh-fuel");
  auto* add = at<QComboBox>("knowledge.cures.add");
  add->setCurrentIndex(add->findData("mouse-nest"));
  press("knowledge.cures.addButton");
  auto* cures = at<QTableWidget>("knowledge.cures");
  cures->item(rowOf(cures, "mouse-nest"), 1)->setText("1");
  cures->item(rowOf(cures, "mouse-nest"), 2)->setText("4");
  press("knowledgeSave");
  panel->open("causes", "mouse-nest");
  press("knowledgePublishedAgain");
  EXPECT_THAT(words("knowledgeProblem"), HasSubstr("mouse-nest"));
  EXPECT_NE(knowledge().cause("mouse-nest"), nullptr);
}

TEST_F(KnowledgePanelTest, WhatIsTypedStaysWhileAnotherEntryIsLookedAtAndOverTheEnd) {
  panel->open("repairs", "mend-fresh-fuel");
  type("knowledge.minutes.2", "14");
  panel->open("causes", "coil-dead");
  panel->open("repairs", "mend-fresh-fuel");
  EXPECT_EQ(at<QLineEdit>("knowledge.minutes.2")->text(), "14");
  EXPECT_THAT(words("knowledgeWhose"), HasSubstr("not saved yet"));
  panel->hide();
  panel.reset();
  shop.reopen();
  makePanel();
  panel->open("repairs", "mend-fresh-fuel");
  EXPECT_EQ(at<QLineEdit>("knowledge.minutes.2")->text(), "14");
  press("knowledgeAsItWas");
  EXPECT_EQ(at<QLineEdit>("knowledge.minutes.2")->text(), "10");
  EXPECT_FALSE(at<QPushButton>("knowledgeSave")->isEnabled());
}

TEST_F(KnowledgePanelTest, TypingItBackLeavesNothingToSave) {
  panel->open("repairs", "mend-fresh-fuel");
  type("knowledge.minutes.2", "14");
  EXPECT_TRUE(at<QPushButton>("knowledgeSave")->isEnabled());
  type("knowledge.minutes.2", "10");
  EXPECT_FALSE(at<QPushButton>("knowledgeSave")->isEnabled());
}

TEST_F(KnowledgePanelTest, SaysWhatTheRecordAddsAndWhatTheyHoldTogether) {
  const MachineId machine = waiting("");
  const Date today = session().today();
  const auto& mend = *knowledge().repair("mend-fresh-fuel");
  perform(open_fault(*session().shop(), machine, today, knowledge().symptom("nostart-pull")->name, {}, {}));
  const FaultId fault = session().shop()->all<Fault>().begin()->id;
  perform(record_finding(*session().shop(), {.machine = machine,
                                             .date = today,
                                             .step = mend.name,
                                             .outcome = "mended",
                                             .fault = fault,
                                             .minutes = Minutes{22}}));
  perform(
      end_fault(*session().shop(), fault, today, FaultEnd::mended, knowledge().cause("fuel-stale")->name));
  panel->open("repairs", "mend-fresh-fuel");
  auto* cures = at<QTableWidget>("knowledge.cures");
  const int row = rowOf(cures, "fuel-stale");
  EXPECT_EQ(cures->item(row, 4)->text(), "1 of 1 cured");
  // (12 + 1) / (20 + 1): Beta counts, learning/beta.h
  EXPECT_EQ(cures->item(row, 5)->text(), "62 %");
  EXPECT_THAT(words("knowledgeRecord.minutes"), HasSubstr("your record: once, 22 min on average"));
  panel->open("symptoms", "nostart-pull");
  auto* causes = at<QTableWidget>("knowledge.causes");
  EXPECT_EQ(causes->item(rowOf(causes, "fuel-stale"), 3)->text(), "1 found");
}

// A symptom with few causes: its plans take no time.
constexpr const char* kLoose = "Loose, crooked or hard to steer";

TEST_F(KnowledgePanelTest, SaysBeforeSavingWhatWouldChange) {
  waiting(kLoose);
  panel->open("repairs", "mend-wheels");
  type("knowledge.minutes.1", "200");
  type("knowledge.minutes.2", "300");
  type("knowledge.minutes.3", "400");
  const std::string touched = whatWouldChange();
  EXPECT_THAT(touched, HasSubstr("one machine that waits is touched"));
  EXPECT_TRUE(session().shop()->all<KnowledgeEdit>().empty());
  press("knowledgeAsItWas");
  panel->open("repairs", "mend-deck-belt");
  type("knowledge.minutes.3", "400");
  EXPECT_THAT(whatWouldChange(), HasSubstr("no machine that waits is touched"));
}

TEST_F(KnowledgePanelTest, SaysStepAndWorthBeforeAndAfter) {
  const MachineId machine = waiting(kLoose);
  panel->open("kinds", "push");
  type("knowledge.running_price.1", "300");
  type("knowledge.running_price.2", "400");
  type("knowledge.running_price.3", "500");
  const std::string lines = whatWouldChange();
  EXPECT_THAT(lines, HasSubstr("#" + session().tagOf(machine).toStdString()));
  EXPECT_THAT(lines, HasSubstr("; worth $"));
  EXPECT_THAT(lines, HasSubstr("→ $"));
}

TEST_F(KnowledgePanelTest, WhatCannotBeReadIsSaidInThePlaceOfWhatWouldChange) {
  panel->open("repairs", "mend-fresh-fuel");
  type("knowledge.minutes.2", "x");
  EXPECT_THAT(whatWouldChange(), HasSubstr("“x” is no number"));
}

TEST_F(KnowledgePanelTest, OwnEntriesThatCannotBeReadAreSaidAndDropped) {
  perform(keep_entry(*session().shop(), "causes", "coil-dead", "{"));
  EXPECT_TRUE(session().knowledgeProblem());
  bool is_said = false;
  for (const QLabel* label : panel->findChildren<QLabel*>())
    is_said = is_said || (label->isVisible() && label->text().contains("own entry causes coil-dead"));
  EXPECT_TRUE(is_said);
  panel->open("causes", "coil-dead");
  press("knowledgePublishedAgain");
  EXPECT_FALSE(session().knowledgeProblem());
}

TEST_F(KnowledgePanelTest, TheReportSaysWhatStandsBesideWhatIsPublished) {
  panel->open("repairs", "mend-fresh-fuel");
  type("knowledge.minutes.2", "12");
  press("knowledgeSave");
  const Report report = panel->report();
  EXPECT_THAT(report.title.toStdString(), HasSubstr("Drain and rinse tank"));
  bool is_there = false;
  for (const ReportRow& row : report.sections.front().rows)
    is_there = is_there || (row.cells.size() == 3 && row.cells[1].text == "5, 12, 20" &&
                            row.cells[2].text == "5, 10, 20");
  EXPECT_TRUE(is_there);
}

}  // namespace
}  // namespace secondpull::app
