#include "app/frame/wire.h"

#include <QAbstractButton>
#include <QSignalSpy>
#include <QTest>
#include <gtest/gtest.h>

namespace secondpull::app::test {
namespace {

class WireOf : public ::testing::Test {
 protected:
  WireOf() {
    wire.setWords({{"Yard", QKeySequence{"Alt+1"}}, {"Bench", QKeySequence{"Alt+2"}}, {"Evening", {}, true}});
    wire.setTags({{MachineId{7}, "14", "Tarnwick 21"}, {MachineId{8}, "A-117", "Oldbarrow"}});
    wire.resize(1000, wire.sizeHint().height());
    wire.show();
  }
  QAbstractButton* at(const char* name) { return wire.findChild<QAbstractButton*>(name); }
  Wire wire;
};

TEST_F(WireOf, SagsInItsMiddleAndIsLevelAtItsEnds) {
  EXPECT_DOUBLE_EQ(wire.heightAt(0), wire.heightAt(1000));
  EXPECT_GT(wire.heightAt(500), wire.heightAt(0));
}

TEST_F(WireOf, StandsEveryWordOnTheWireAndHangsEveryTagFromIt) {
  for (const char* name : {"wire.Yard", "wire.Bench", "wire.Evening"}) {
    const QRect place = at(name)->geometry();
    EXPECT_NEAR(place.bottom(), wire.heightAt(place.center().x()), 4) << name;
  }
  for (const char* name : {"wire.tag.14", "wire.tag.A-117"}) {
    const QRect place = at(name)->geometry();
    EXPECT_NEAR(place.top(), wire.heightAt(place.center().x()), 2) << name;
    EXPECT_LE(place.bottom(), wire.height()) << name;
  }
}

TEST_F(WireOf, TellsWhatWasClickedAndWhatAKeyWasPressedOn) {
  QSignalSpy words(&wire, &Wire::wordChosen), machines(&wire, &Wire::machineChosen);
  QTest::mouseClick(at("wire.Bench"), Qt::LeftButton);
  EXPECT_EQ(words.back().front().toString(), "Bench");
  QTest::keyClick(at("wire.tag.A-117"), Qt::Key_Space);
  EXPECT_EQ(machines.back().front().value<MachineId>(), MachineId{8});
}

TEST_F(WireOf, NamesEverythingForAScreenReader) {
  for (const QAbstractButton* button : wire.findChildren<QAbstractButton*>()) {
    if (!button->isVisible()) continue;
    EXPECT_FALSE(button->accessibleName().isEmpty());
  }
}

TEST_F(WireOf, HangsTheClockWhileItRuns) {
  EXPECT_FALSE(at("wire.clock")->isVisible());
  wire.setClock(Wire::Running{MachineId{7}, "14", "0:42"});
  EXPECT_TRUE(at("wire.clock")->isVisible());
  QSignalSpy chosen(&wire, &Wire::clockChosen);
  QTest::mouseClick(at("wire.clock"), Qt::LeftButton);
  EXPECT_EQ(chosen.count(), 1);
  wire.setClock(std::nullopt);
  EXPECT_FALSE(at("wire.clock")->isVisible());
}

}  // namespace
}  // namespace secondpull::app::test
