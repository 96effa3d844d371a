#include "core/shop/bench.h"

#include <algorithm>
#include <map>

#include <QAbstractButton>
#include <QLabel>

#include "app/planning/planning.h"
#include "core/planning/names.h"
#include "tests/journeys/journey.h"

namespace secondpull::app::test {
namespace {

/// How a person answers: by the number pad or with the mouse.
enum class Hand { number_pad, mouse };

/// From the fault to the sale, each step as the Bench offers it, in a world in which one cause is the true
/// one.
class AtTheBench : public Journey, public ::testing::WithParamInterface<Hand> {
 protected:
  /// `hour_value`: cents.
  void log(const char* what, const char* symptom, std::int64_t hour_value = 1'500) {
    Settings settings = shop.session->shop()->settings;
    settings.hour_value = dollars(hour_value);
    ASSERT_FALSE(shop.session->setSettings(settings));
    NewAcquisition in;
    in.date = shop.session->today();
    in.source = Source::curb;
    in.price = dollars(1'000);
    in.machines.push_back({.kind = MachineKind::push, .make = "Ostrel", .model = what, .symptom = symptom});
    ASSERT_FALSE(shop.session->perform(log_acquisition(*shop.session->shop(), in)));
    window->openMachine(newest());
  }

  /// Chooses the number on the buttons called `name` + number.
  void choose(const char* name, int number) {
    const std::string button = name + std::to_string(number);
    constexpr int kFinger = 20;  // its layout may still be under way
    ASSERT_TRUE(QTest::qWaitFor([&] {
      return isShown(button.c_str()) && find(button.c_str())->isEnabled() &&
             find(button.c_str())->height() > kFinger;
    })) << button
        << " does not come";
    if (GetParam() == Hand::mouse) return click(button.c_str());
    find(button.c_str())->setFocus();  // any of them: digits work wherever the focus is among them
    key(Qt::Key_0 + number, Qt::KeypadModifier);
  }
  void acknowledgeIfAsked() {
    if (!isShown("stepAcknowledge")) return;
    if (GetParam() == Hand::mouse) return click("stepAcknowledge");
    find("stepAcknowledge")->setFocus();
    key(Qt::Key_Enter, Qt::KeypadModifier);
  }
  QString shownText(const char* name) { return find<QLabel>(name)->text(); }

  /// The place from 1 of the button that says this.
  int numberOf(const char* name, const QString& text) {
    for (int number = 1; isShown((name + std::to_string(number)).c_str()); ++number)
      if (find<QAbstractButton>((name + std::to_string(number)).c_str())->text() == text) return number;
    return 0;
  }
  const learning::Knowledge& knowledge() { return shop.session->knowledge()->knowledge; }

  bool stepIsThere() {
    return QTest::qWaitFor(
        [&] {
          const bool step = isShown("outcome1") && shop.session->planning().now(newest()).firm;
          return step || isShown("cause1") || isShown("finish1");
        },
        30'000);
  }

  /// What a test shows when that cause is the true one: its likeliest outcome, from 1.
  int outcomeUnder(const std::string& cause, const learning::Test& test) {
    for (const auto& [listed, chances] : test.likelihood)
      if (listed == cause)
        return static_cast<int>(std::max_element(chances.begin(), chances.end()) - chances.begin()) + 1;
    if (!test.otherwise) return 1;
    return static_cast<int>(std::max_element(test.otherwise->begin(), test.otherwise->end()) -
                            test.otherwise->begin()) +
           1;
  }
  /// Does the step, and answers as the true cause has it. False: it is no step but a stop, or it is mended.
  bool answer(const std::string& cause, const std::map<std::string, int>& told = {}) {
    if (!stepIsThere() || !isShown("outcome1")) return false;
    acknowledgeIfAsked();
    const std::string step = shownText("stepTitle").toStdString();
    steps.push_back(step);
    if (const learning::Test* test = knowledge().test(step)) {
      const auto known = told.find(test->id);
      choose("outcome", known != told.end() ? known->second : outcomeUnder(cause, *test));
      return true;
    }
    const learning::Repair* repair = knowledge().repair(step);
    if (repair == nullptr) return false;
    const auto cure = std::find_if(repair->cures.begin(), repair->cures.end(),
                                   [&](const auto& row) { return row.first == cause; });
    const bool mends = cure != repair->cures.end() && cure->second.mean() > 0.5;
    choose("outcome", mends ? 1 : 2);
    return true;
  }
  void picture(const char* name) {
    const QString folder = qEnvironmentVariable("SECONDPULL_PICTURES");
    for (int round = 0; round < 4; ++round)  // layouts settle in a few
      QApplication::processEvents();
    if (!folder.isEmpty())
      window->grab().save(
          QStringLiteral("%1/journey-%2-%3.png")
              .arg(folder, QString::fromLatin1(name),
                   GetParam() == Hand::mouse ? QStringLiteral("mouse") : QStringLiteral("pad")));
  }
  static constexpr int kMostSteps = 25;
  std::vector<std::string> steps;
};

TEST_P(AtTheBench, PullsDoesNotStartRunsOnPrimeIsCleanedAndSold) {
  const std::string cause = "carb-main-clogged";
  log("Meadow 20", "pulls over, does not start");
  ASSERT_TRUE(stepIsThere());
  picture("no-start-1");
  for (int step = 0; step < kMostSteps && answer(cause, {{"test-prime-intake", 1}}); ++step) {
    if (steps.size() == 2) picture("no-start-2");
  }
  ASSERT_TRUE(isShown("cause1")) << "it ended at " << steps.back();
  EXPECT_TRUE(std::find(steps.begin(), steps.end(), knowledge().test("test-prime-intake")->name) !=
              steps.end())
      << "nobody fed it a little fuel";
  picture("no-start-cause");
  const int found = numberOf("cause", QString::fromStdString(planning::called_cause(cause, knowledge())));
  ASSERT_GT(found, 0) << "the cause is not among those that this repair cures";
  choose("cause", found);
  const Fault& fault = *shop.session->shop()->all<Fault>().begin();
  EXPECT_EQ(fault.how, FaultEnd::mended);
  EXPECT_EQ(fault.cause, knowledge().cause(cause)->name);

  // The test run, and everything that is looked at before the sale.
  picture("no-start-run");
  choose("finish", 2);
  for (int look = 0; look < 40 && find<QLabel>("finishTitle")->text() != QStringLiteral("Ready for sale");
       ++look)
    choose("finish", 1);
  picture("no-start-ready");
  EXPECT_EQ(shownText("finishTitle"), QStringLiteral("Ready for sale"));
  choose("finish", 1);
  EXPECT_TRUE(isShown("salePanel"));
  click("doSell");
  typeInto("salePrice", "92");
  enterIn("salePrice");
  ASSERT_EQ(shop.session->shop()->all<Sale>().size(), 1u) << said().toStdString();
  picture("no-start-sold");
  EXPECT_GT(figures(newest()).minutes.count, 0);
}

TEST_P(AtTheBench, ASeizedOneIsPartedOut) {
  log("Meadow 21", "engine stuck", 500);
  ASSERT_TRUE(stepIsThere());
  picture("seized-1");
  for (int step = 0; step < kMostSteps && answer("engine-seized"); ++step) {
  }
  ASSERT_TRUE(isShown("outcome1")) << "a seized engine was mended";
  EXPECT_EQ(shownText("stepTitle").toStdString(), "Stop here: part it out");
  picture("seized-stop");
  choose("outcome", 1);
  EXPECT_TRUE(isShown("partOut.donor"));
  picture("seized-part-out");
  typeInto("part1", "deck shell");
  typeInto("amount1", "60");
  enterIn("amount1");
  ASSERT_EQ(shop.session->shop()->all<Disposal>().size(), 1u) << said().toStdString();
  EXPECT_EQ(shop.session->shop()->all<Disposal>().begin()->how, DisposalKind::parted_out);
}

TEST_P(AtTheBench, AnOutcomeIsOneActionThatUndoTakesBack) {
  log("Meadow 20", "pulls over, does not start");
  ASSERT_TRUE(stepIsThere());
  acknowledgeIfAsked();
  const auto before = shop.session->shop();
  const QString step = shownText("stepTitle");
  choose("outcome", 1);
  EXPECT_EQ(shop.session->shop()->all<Finding>().size(), before->all<Finding>().size() + 1);
  EXPECT_EQ(shop.session->shop()->all<Labour>().size(), before->all<Labour>().size() + 1);
  EXPECT_EQ(shop.session->shop()->all<Fault>().size(), 1u) << "what it came with was not opened as a fault";
  key(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_TRUE(shop.session->shop()->same_records(*before));
  EXPECT_TRUE(QTest::qWaitFor([&] { return isShown("outcome1") && shownText("stepTitle") == step; }));
}

TEST_P(AtTheBench, DiesInTheTestRunWithTheSameTroubleAndTheRepairHasFailed) {
  log("Meadow 20", "pulls over, does not start");
  for (int step = 0; step < kMostSteps && answer("carb-main-clogged"); ++step) {
  }
  ASSERT_TRUE(isShown("cause1"));
  choose("cause", 1);
  choose("finish", 3);  // it was run already: it died
  choose("finish", 1);  // same trouble
  const Fault& fault = *shop.session->shop()->all<Fault>().begin();
  EXPECT_FALSE(fault.ended);
  EXPECT_TRUE(stepIsThere());
  EXPECT_TRUE(isShown("outcome1"));

  // Mended once more, it is asked for a test run again, not what the last one died of.
  for (int step = 0; step < kMostSteps && answer("carb-main-clogged"); ++step) {
  }
  ASSERT_TRUE(isShown("cause1"));
  choose("cause", 1);
  ASSERT_TRUE(stepIsThere());
  EXPECT_EQ(shownText("finishTitle"), QStringLiteral("Test run"));
}

TEST_P(AtTheBench, AnOutcomeTakesTheMinutesThatTheClockShowsThen) {
  log("Meadow 20", "pulls over, does not start");
  ASSERT_TRUE(stepIsThere());
  acknowledgeIfAsked();
  ASSERT_FALSE(shop.session->startClock(newest()));
  tick(std::chrono::minutes{12});
  choose("outcome", 1);
  ASSERT_EQ(shop.session->shop()->all<Labour>().size(), 1u);
  EXPECT_EQ(shop.session->shop()->all<Labour>().begin()->minutes, Minutes{12});
  EXPECT_EQ(shop.session->clockMinutes(), Minutes{1}) << "the clock counts the same minutes again";
}

TEST_P(AtTheBench, WhatIsTypedAtAStepStaysWhileOtherWorkIsLogged) {
  log("Meadow 20", "pulls over, does not start");
  ASSERT_TRUE(stepIsThere());
  const QString step = shownText("stepTitle");
  typeInto("stepMinutes", "25");
  ASSERT_FALSE(shop.session->perform(
      log_labour(*shop.session->shop(), newest(), shop.session->today(), Minutes{30}, Work::clean, {})));
  ASSERT_TRUE(stepIsThere());
  EXPECT_EQ(shownText("stepTitle"), step);
  EXPECT_TRUE(find<QLineEdit>("stepMinutes")->text().contains("25"));
}

TEST_P(AtTheBench, TheTestRunsClockLogsWhatItCountedBeforeAsWorkOfItsOwn) {
  log("Meadow 20", "pulls over, does not start");
  for (int step = 0; step < kMostSteps && answer("carb-main-clogged"); ++step) {
  }
  ASSERT_TRUE(isShown("cause1"));
  choose("cause", 1);
  const Minutes before = figures(newest()).minutes;
  ASSERT_FALSE(shop.session->startClock(newest()));
  tick(std::chrono::minutes{9});
  choose("finish", 1);  // start the test run
  tick(std::chrono::minutes{15});
  choose("finish", 1);  // it ran through
  EXPECT_EQ(figures(newest()).minutes, before + Minutes{24});
  EXPECT_FALSE(shop.session->clock());
}

INSTANTIATE_TEST_SUITE_P(ByHand, AtTheBench, ::testing::Values(Hand::number_pad, Hand::mouse),
                         [](const auto& hand) { return hand.param == Hand::mouse ? "Mouse" : "NumberPad"; });

}  // namespace
}  // namespace secondpull::app::test
