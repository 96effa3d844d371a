#include "app/bench/cautions.h"

#include <gmock/gmock.h>

namespace secondpull::app {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Not;

TEST(Cautions, WorkNearTheBladeAsksForThePlugWire) {
  EXPECT_THAT(dangersOf(u"sharpen the blade"), Contains(Danger::blade));
  EXPECT_THAT(dangersOf(u"Blades off"), Contains(Danger::blade));
  EXPECT_TRUE(cautionLine(u"mulching blade").contains(u"Plug wire off"));
}

TEST(Cautions, WhatHoldsFuelIsDoneOutdoorsAndCold) {
  for (const char16_t* words :
       {u"drain the tank", u"carburettor cleaned", u"carb off", u"fuel line", u"float stuck"})
    EXPECT_THAT(dangersOf(words), Contains(Danger::fuel)) << QString::fromUtf16(words).toStdString();
  EXPECT_TRUE(caution(Danger::fuel).contains(u"outdoors"));
}

TEST(Cautions, AGasketIsNoGas) {
  EXPECT_THAT(dangersOf(u"head gasket"), IsEmpty());
  EXPECT_THAT(dangersOf(u"gas in it was old"), Contains(Danger::fuel));
}

TEST(Cautions, EachDangerOfTheBenchIsKnown) {
  EXPECT_THAT(dangersOf(u"jets into the ultrasonic"), Contains(Danger::ultrasonic));
  EXPECT_THAT(dangersOf(u"spray cleaner"), Contains(Danger::spray));
  EXPECT_THAT(dangersOf(u"blow out with compressed air"), Contains(Danger::spray));
  EXPECT_THAT(dangersOf(u"run it for ten minutes"), Contains(Danger::exhaust));
  EXPECT_THAT(dangersOf(u"test run"), Contains(Danger::exhaust));
  EXPECT_THAT(dangersOf(u"jacked up the front"), Contains(Danger::lifting));
  EXPECT_THAT(dangersOf(u"recoil spring"), Contains(Danger::recoil));
  EXPECT_THAT(dangersOf(u"blade brake"), Contains(Danger::blade_brake));
  EXPECT_THAT(dangersOf(u"battery charged"), Contains(Danger::battery));
  EXPECT_THAT(dangersOf(u"seat switch"), Contains(Danger::safety_switch));
  EXPECT_THAT(dangersOf(u"bent crankshaft"), Contains(Danger::crankshaft));
}

TEST(Cautions, AStarterIsNoRunningEngine) {
  EXPECT_THAT(dangersOf(u"starter rope"), ElementsAre(Danger::recoil));
}

TEST(Cautions, HarmlessWorkCarriesNone) {
  EXPECT_TRUE(cautionLine(u"polished the handle").isEmpty());
  EXPECT_TRUE(cautionLine(u"").isEmpty());
}

TEST(Cautions, EveryLineDefersToTheMakersManualOnce) {
  const QString line = cautionLine(u"blade and fuel and battery");
  EXPECT_EQ(line.count(QStringLiteral("maker's manual")), 1);
  EXPECT_TRUE(line.endsWith(QStringLiteral("The maker's manual comes first.")));
}

TEST(Cautions, EachDangerIsNamedOnce) {
  EXPECT_THAT(dangersOf(u"blade blade blades"), ElementsAre(Danger::blade));
}

}  // namespace
}  // namespace secondpull::app
