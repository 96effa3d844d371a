// Scout through its own fields, as a person types into them.

#include "app/scout/scout_page.h"

#include <QAbstractButton>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QtTest/QTest>
#include <gmock/gmock.h>

#include "app/parts/data_table.h"
#include "tests/app/bench/test_shop.h"

namespace secondpull::app {
namespace {

using testing::HasSubstr;

constexpr int kPatience = 60'000;  // milliseconds for what is worked out beside

class ScoutTest : public testing::Test {
 protected:
  ScoutTest() : page_{makeScoutPage(test_.session(), nullptr)} {
    QObject::connect(&test_.session(), &Session::changed, page_.get(),
                     [this](const std::vector<AnyId>& ids) { page_->refresh(ids); });
    QObject::connect(page_.get(), &Page::wantsMachine, page_.get(),
                     [this](MachineId machine) { opened_ = machine; });
    page_->resize(1280, 700);
    page_->show();
  }
  template <class Widget>
  Widget* child(const char* name) {
    auto* found = page_->findChild<Widget*>(QString::fromLatin1(name));
    EXPECT_NE(found, nullptr) << name;
    return found;
  }
  void type(const char* name, const char* keys) {
    auto* field = child<QLineEdit>(name);
    field->setFocus();
    field->clear();
    QTest::keyClicks(field, QString::fromUtf8(keys));
  }
  void click(const char* name) { child<QAbstractButton>(name)->click(); }
  std::string shows(const char* name) { return child<QLabel>(name)->text().toStdString(); }
  /// A push mower that surges, at $20.
  void describe() {
    type("findWhat", "Tarnwick 21P");
    type("findSymptom", "Speed swings up and down");
    type("findAsking", "20");
  }
  bool waitForAnswers() {
    return QTest::qWaitFor(
        [this] { return page_->findChild<QWidget*>(QStringLiteral("scoutAnswer1")) != nullptr; }, kPatience);
  }
  const Find& onlyFind() { return *test_.shop()->all<Find>().begin(); }

  TestShop test_;
  std::unique_ptr<Page> page_;
  std::optional<MachineId> opened_;
};

TEST_F(ScoutTest, ShowsWhatToOfferAndWhatItTakes) {
  describe();
  ASSERT_TRUE(waitForAnswers());
  EXPECT_THAT(shows("scoutOffer"), HasSubstr("Offer up to $"));
  EXPECT_THAT(shows("scoutAsked"), HasSubstr("$20"));
  EXPECT_THAT(shows("scoutChance"), HasSubstr("Chance of making money when bought for $20"));
  EXPECT_THAT(shows("scoutTakes"), HasSubstr("First step"));
}

TEST_F(ScoutTest, AnAnswerOfTheSellerIsListedAndCanBeTakenBack) {
  describe();
  ASSERT_TRUE(waitForAnswers());
  const std::string before = shows("scoutQuestion");
  click("scoutAnswer1");
  ASSERT_NE(page_->findChild<QPushButton*>(QStringLiteral("scoutSaid1")), nullptr);
  ASSERT_TRUE(QTest::qWaitFor([&] { return shows("scoutQuestion") != before; }, kPatience));
  click("scoutSaid1");
  EXPECT_TRUE(QTest::qWaitFor([&] { return shows("scoutQuestion") == before; }, kPatience));
}

TEST_F(ScoutTest, ABoughtFindIsAMachineWithItsFaultAndWhatWasSaid) {
  describe();
  ASSERT_TRUE(waitForAnswers());
  click("scoutAnswer1");
  click("scoutBuy");
  type("scoutPrice", "15");
  click("scoutTakeIn");
  ASSERT_TRUE(opened_);
  const auto books = test_.books();
  const ByMachine::Lines& lines = books->by_machine().of(*opened_);
  ASSERT_EQ(lines.faults.size(), 1U);
  EXPECT_EQ(lines.faults.front()->symptom, "Speed swings up and down");
  ASSERT_EQ(lines.findings.size(), 1U);
  EXPECT_EQ(lines.findings.front()->note, "said by the seller");
  EXPECT_EQ(lines.acquisition->price, cents(15'00));
  EXPECT_EQ(onlyFind().how, FindEnd::bought);

  test_.session().undo();
  EXPECT_TRUE(test_.shop()->all<Machine>().empty());
  EXPECT_TRUE(test_.shop()->all<Find>().empty()) << "one action, since it had not been kept before";
}

TEST_F(ScoutTest, AKeptFindThatIsBoughtIsAFindAgainWhenThatIsUndone) {
  describe();
  click("save");
  click("scoutBuy");
  click("scoutTakeIn");
  ASSERT_TRUE(opened_);
  EXPECT_EQ(onlyFind().how, FindEnd::bought);
  test_.session().undo();
  EXPECT_TRUE(test_.shop()->all<Machine>().empty());
  EXPECT_EQ(onlyFind().how, std::nullopt);
}

TEST_F(ScoutTest, WhatIsPassedOnIsKept) {
  describe();
  click("scoutPassOn");
  ASSERT_EQ(test_.shop()->all<Find>().size(), 1U);
  EXPECT_EQ(onlyFind().how, FindEnd::passed_on);
  EXPECT_EQ(onlyFind().make, "Tarnwick");
  EXPECT_EQ(child<QLineEdit>("findWhat")->text(), "");
  test_.session().undo();
  EXPECT_TRUE(test_.shop()->all<Find>().empty());
}

TEST_F(ScoutTest, AnAnswerThatIsNotKeptYetStandsInTheDraft) {
  describe();
  ASSERT_TRUE(waitForAnswers());
  click("scoutAnswer1");
  const std::string said = child<QPushButton>("scoutSaid1")->text().toStdString();
  page_.reset();  // closed before a second has passed: what was typed is kept all the same
  page_.reset(makeScoutPage(test_.session(), nullptr));
  page_->show();
  click("draftGoOn");
  EXPECT_EQ(child<QPushButton>("scoutSaid1")->text().toStdString(), said);
}

TEST_F(ScoutTest, ANewFindThatIsHalfTypedOutlivesALookAtAKeptOne) {
  describe();
  click("save");
  const FindId kept = onlyFind().id;
  const QString draft = QStringLiteral("scout.find-%1").arg(number(kept));
  click("scoutNew");
  type("findWhat", "Ollenby 18");
  auto* table = child<DataTable>("scoutTable");
  table->selectSourceRow(0);
  emit table->opened(0);
  EXPECT_EQ(child<QLineEdit>("findWhat")->text(), "Tarnwick 21P");
  EXPECT_FALSE(QTest::qWaitFor([&] { return test_.session().draft(draft).has_value(); }, 1500))
      << "nobody changed it";
  click("scoutNew");
  click("draftGoOn");
  EXPECT_EQ(child<QLineEdit>("findWhat")->text(), "Ollenby 18");
  EXPECT_EQ(test_.shop()->all<Find>().size(), 1U);
}

TEST_F(ScoutTest, WhatCannotBeReadIsSaidBeforeTheFindEnds) {
  describe();
  type("findAsking", "12o");
  click("scoutPassOn");
  EXPECT_TRUE(test_.shop()->all<Find>().empty());
  EXPECT_EQ(child<QLineEdit>("findAsking")->text(), "12o");
  type("findAsking", "12");
  click("scoutBuy");
  type("scoutPrice", "");
  click("scoutTakeIn");
  EXPECT_TRUE(test_.shop()->all<Machine>().empty()) << "nothing said is not nothing paid";
}

TEST_F(ScoutTest, KeepingWhatWasKeptChangesIt) {
  describe();
  click("save");
  type("findAsking", "35");
  click("save");
  ASSERT_EQ(test_.shop()->all<Find>().size(), 1U);
  EXPECT_EQ(onlyFind().asking, cents(35'00));
}

}  // namespace
}  // namespace secondpull::app
