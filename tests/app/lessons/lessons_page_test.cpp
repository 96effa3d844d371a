#include "app/lessons/lessons_page.h"

#include <QPushButton>
#include <QSignalSpy>
#include <QTest>
#include <gtest/gtest.h>

#include "app/frame/page.h"
#include "app/lessons/forecasts_panel.h"
#include "app/lessons/hours_panel.h"
#include "app/lessons/pays_panel.h"
#include "app/lessons/sells_panel.h"
#include "app/lessons/works_panel.h"
#include "app/parts/choices.h"
#include "app/parts/form.h"
#include "core/learning/knowledge_base.h"
#include "core/shop/steps.h"
#include "tests/app/sale/trading_shop.h"

namespace secondpull::app::test {
namespace {

class LessonsTest : public ::testing::Test {
 protected:
  template <class Panel>
  Panel& show() {
    auto made = std::make_unique<Panel>(shop.session(), nullptr);
    Panel& panel = *made;
    panels.push_back(std::move(made));
    panel.resize(1280, 700);
    panel.show();
    panel.refresh();
    return panel;
  }
  static QString sentence(const QWidget& panel, const char* name) {
    return child<QLabel>(panel, name).text();
  }
  /// A machine bought for nothing, worked on for so many minutes, sold.
  MachineId sold(MachineKind kind, std::int64_t price, std::int64_t minutes) {
    const MachineId machine = shop.buy(day(2026, 3, 2), cents(0), kind, Source::curb, "Tarnwick");
    shop.perform(log_labour(*shop.shop(), machine, day(2026, 3, 3), Minutes{minutes}, Work::repair, ""));
    shop.list(machine, day(2026, 4, 1), cents(price), SoldAs::running);
    shop.sell(machine, day(2026, 4, 10), cents(price), "Ruel");
    return machine;
  }
  /// A repair of the knowledge base that usually cures a cause, and a symptom behind which it is.
  struct Cure {
    std::string symptom, cause, repair;
  };
  Cure aCure() const {
    const learning::Knowledge& knowledge = shop_knowledge->knowledge;
    for (const learning::Symptom& symptom : knowledge.symptoms)
      for (const auto& [cause, weight] : symptom.causes)
        for (const learning::Repair& repair : knowledge.repairs)
          for (const auto& [cured, chance] : repair.cures)
            if (cured == cause && chance.mean() > 0.7 && knowledge.cause(cause) != nullptr)
              return {symptom.name, knowledge.cause(cause)->name, repair.name};
    throw std::runtime_error{"no such cure"};
  }
  /// A fault on which the repair was tried once.
  void tried(const Cure& cure, bool mended) {
    const MachineId machine = shop.buy(day(2026, 4, 1), cents(0), MachineKind::push, Source::curb, "");
    shop.perform(open_fault(*shop.shop(), machine, day(2026, 4, 2), cure.symptom, "", ""));
    const FaultId fault = std::prev(shop.shop()->all<Fault>().end())->id;
    NewFinding finding;
    finding.machine = machine;
    finding.date = day(2026, 4, 3);
    finding.step = cure.repair;
    finding.outcome = mended ? "mended" : "failed";
    finding.fault = fault;
    finding.minutes = Minutes{30};
    shop.perform(record_finding(*shop.shop(), finding));
    shop.perform(end_fault(*shop.shop(), fault, day(2026, 4, 4),
                           mended ? FaultEnd::mended : FaultEnd::given_up, cure.cause));
  }

  TradingShop shop;
  std::shared_ptr<const learning::KnowledgeBase> shop_knowledge = shop.session().knowledge();
  std::vector<std::unique_ptr<LessonsPanel>> panels;
};

TEST_F(LessonsTest, AnEmptyShopSaysWhatGoesHereAndOffersTheFirstStep) {
  const auto look = [](LessonsPanel& panel, const char* page) {
    auto* empty = panel.findChild<EmptyState*>();
    ASSERT_NE(empty, nullptr);
    EXPECT_TRUE(empty->isVisible()) << page;
    QSignalSpy wants{&panel, &LessonsPanel::wantsPage};
    emit empty->stepTaken();
    ASSERT_EQ(wants.size(), 1);
    EXPECT_EQ(wants[0][0].toString(), page);
    EXPECT_TRUE(panel.report().sections.empty());
    panel.start();
  };
  look(show<WorksPanel>(), "Bench");
  look(show<PaysPanel>(), "For sale");
  look(show<SellsPanel>(), "For sale");
  look(show<ForecastsPanel>(), "Bench");
  look(show<HoursPanel>(), "Yard");
}

TEST_F(LessonsTest, ARepairIsSaidToWorkLessOftenOnlyWhenTheTriesCarryIt) {
  const Cure cure = aCure();
  for (int times = 0; times < 4; ++times)
    tried(cure, false);
  WorksPanel& panel = show<WorksPanel>();
  EXPECT_TRUE(sentence(panel, "worksSentence").startsWith("Not enough yet"));
  EXPECT_FALSE(child<QLabel>(panel, "worksSentenceToDo").isVisible());
  for (int times = 0; times < 4; ++times)
    tried(cure, false);
  panel.refresh();
  EXPECT_EQ(sentence(panel, "worksSentence").left(4 + static_cast<int>(cure.repair.size())),
            QString{"“%1” wo"}
                .arg(QString::fromStdString(cure.repair))
                .left(4 + static_cast<int>(cure.repair.size())));
  EXPECT_TRUE(sentence(panel, "worksSentence").contains("hardly ever; usually"));
  EXPECT_TRUE(child<QLabel>(panel, "worksSentenceToDo").isVisible());
  auto& why = child<QPushButton>(panel, "worksSentenceWhy");
  why.click();
  EXPECT_TRUE(panel.findChild<QLabel*>("why")->isVisible());
  EXPECT_TRUE(panel.findChild<QLabel*>("why")->text().contains("Jeffreys"));
}

TEST_F(LessonsTest, WhatWorksHasCausesAndMinutesInViewsOfTheirOwn) {
  const Cure cure = aCure();
  tried(cure, true);
  WorksPanel& panel = show<WorksPanel>();
  panel.turnTo(1);
  const auto& causes = child<DataTable>(panel, "worksCauses");
  EXPECT_TRUE(causes.isVisible());
  EXPECT_GE(causes.shownRows(), 1);
  EXPECT_TRUE(sentence(panel, "worksSentence").contains(QString::fromStdString(cure.cause)));
  panel.turnTo(2);
  EXPECT_EQ(child<DataTable>(panel, "worksMinutes").shownRows(), 1);
  const Report report = panel.report();
  ASSERT_EQ(report.sections.size(), 3U);
  EXPECT_EQ(report.sections[2].rows.size(), 1U);
  EXPECT_EQ(report.notes.size(), 3);
}

TEST_F(LessonsTest, WhatPaysIsTheBooksSumByKind) {
  for (int times = 0; times < 5; ++times) {
    sold(MachineKind::push, 20'000 + 100 * times, 60);
    sold(MachineKind::trimmer, 3'000 + 100 * times, 60);
  }
  PaysPanel& panel = show<PaysPanel>();
  std::vector<const MachineFigures*> all;
  const auto books = shop.books();
  for (const MachineFigures& machine : books->machines())
    all.push_back(&machine);
  EXPECT_EQ(figureOf(panel, "paysHourly"), shop.session().money(earned(all).pay_per_hour));
  EXPECT_EQ(child<DataTable>(panel, "paysKind").shownRows(), 2);
  EXPECT_TRUE(sentence(panel, "paysSentence").startsWith("Push pays you more than the rest"));
  EXPECT_EQ(sentence(panel, "paysSentenceToDo"), "Look out for more of them.");
  const auto& chart = child<RangeChart>(panel, "paysChart");
  ASSERT_EQ(chart.shown().rows.size(), 2U);
  EXPECT_EQ(chart.shown().rows[0].name, "push");
  EXPECT_TRUE(chart.shown().rows[0].low.has_value());
  // The chart follows the table's order.
  child<DataTable>(panel, "paysKind").sortByColumn(0, Qt::DescendingOrder);
  EXPECT_EQ(chart.shown().rows[0].name, "trimmer");
  panel.turnTo(2);
  EXPECT_TRUE(sentence(panel, "paysSentence").startsWith("No source pays clearly more"));
  EXPECT_EQ(panel.report().sections.size(), 5U);
}

TEST_F(LessonsTest, OfFewMachinesNothingIsSaid) {
  sold(MachineKind::push, 20'000, 60);
  sold(MachineKind::trimmer, 100, 600);
  PaysPanel& panel = show<PaysPanel>();
  EXPECT_TRUE(sentence(panel, "paysSentence").startsWith("Not enough yet: 2 machines are gone"));
  EXPECT_EQ(sentence(panel, "paysSentenceToDo"), "");
}

TEST_F(LessonsTest, WhatSellsTakesOwnListings) {
  for (int times = 0; times < 6; ++times)
    sold(MachineKind::push, 9'000, 60);
  SellsPanel& panel = show<SellsPanel>();
  EXPECT_EQ(child<DataTable>(panel, "sellsKinds").shownRows(), 1);
  EXPECT_TRUE(sentence(panel, "sellsSentence").startsWith("Of kind push, listed today"));
  panel.turnTo(2);
  EXPECT_EQ(child<DataTable>(panel, "sellsMonths").shownRows(), 12);
  EXPECT_TRUE(sentence(panel, "sellsSentence").contains("April"));
}

TEST_F(LessonsTest, AForecastKeptAtTheBenchIsHeldAgainstWhatCame) {
  const Cure cure = aCure();
  const MachineId machine = shop.buy(day(2026, 3, 2), cents(0), MachineKind::push, Source::curb, "Tarnwick");
  StepMade step;
  step.finding.machine = machine;
  step.finding.date = day(2026, 3, 4);
  step.finding.step = cure.repair;
  step.finding.outcome = "mended";
  step.opens = cure.symptom;
  step.promise = Promise{.figures = {.chance_revived = 0.85, .cash = 80, .low = 50, .high = 110, .hours = 1}};
  shop.perform(record_step(*shop.shop(), step));
  const FaultId fault = std::prev(shop.shop()->all<Fault>().end())->id;
  shop.perform(end_fault(*shop.shop(), fault, day(2026, 3, 5), FaultEnd::mended, cure.cause));
  shop.sell(machine, day(2026, 3, 20), cents(9'000), "Ruel");
  ForecastsPanel& panel = show<ForecastsPanel>();
  EXPECT_TRUE(sentence(panel, "forecastsSentence").startsWith("Not enough yet: 1 forecast is settled"));
  panel.turnTo(3);
  auto& machines = child<DataTable>(panel, "forecastsMachines");
  ASSERT_EQ(machines.shownRows(), 1);
  EXPECT_EQ(sentence(panel, "forecastsSentence"), "1 forecast kept, 1 settled.");
  const auto cell = [&](int column) { return machines.model()->index(0, column).data().toString(); };
  EXPECT_EQ(cell(2), "85 %");
  EXPECT_EQ(cell(3), "yes");
  EXPECT_EQ(cell(4), "$80.00");
  EXPECT_EQ(cell(5), "$90.00");
  QSignalSpy wants{&panel, &LessonsPanel::wantsMachine};
  machines.setFocus();
  machines.selectSourceRow(0);
  QTest::keyClick(&machines, Qt::Key_Return);
  ASSERT_EQ(wants.size(), 1);
  EXPECT_EQ(wants[0][0].value<MachineId>(), machine);
}

TEST_F(LessonsTest, HoursSayWhatWasPaidAndHowLongMachinesTake) {
  for (int times = 0; times < 3; ++times)
    sold(MachineKind::push, 9'000, 60);
  shop.buy(day(2026, 5, 2), cents(0), MachineKind::push, Source::curb, "Tarnwick");
  HoursPanel& panel = show<HoursPanel>();
  std::vector<const MachineFigures*> all;
  const auto books = shop.books();
  for (const MachineFigures& machine : books->machines())
    all.push_back(&machine);
  EXPECT_EQ(figureOf(panel, "hoursPaid"), shop.session().money(earned(all).pay_per_hour));
  EXPECT_TRUE(sentence(panel, "hoursSentence").startsWith("A machine takes you 2 h 45 min"))
      << sentence(panel, "hoursSentence").toStdString();
  panel.turnTo(1);
  // From 2 March on there are months; the last is the one that is not over.
  EXPECT_EQ(child<DataTable>(panel, "hoursFlow").shownRows(), 3);
  EXPECT_TRUE(sentence(panel, "hoursSentence").startsWith("1 machine is on the place"));
}

TEST_F(LessonsTest, EachViewHasItsKey) {
  std::unique_ptr<Page> page{makeLessonsPage(shop.session(), nullptr)};
  page->resize(1280, 700);
  page->show();
  page->activateWindow();
  (void)QTest::qWaitForWindowActive(page.get());
  const auto& words = child<WordRow>(*page, "lessonsWords");
  EXPECT_EQ(words.current(), 0);
  int at = 0;
  for (const int key : {Qt::Key_F5, Qt::Key_F6, Qt::Key_F7, Qt::Key_F8, Qt::Key_F9, Qt::Key_F10}) {
    QTest::keyClick(page.get(), static_cast<Qt::Key>(key));
    EXPECT_EQ(words.current(), at++);
  }
}

TEST_F(LessonsTest, EveryTableAndChartHasANameForAScreenReader) {
  sold(MachineKind::push, 9'000, 60);
  tried(aCure(), true);
  const auto look = [](QWidget& panel) {
    for (const auto* table : panel.findChildren<DataTable*>())
      EXPECT_FALSE(table->accessibleName().isEmpty()) << table->objectName().toStdString();
    for (const auto* chart : panel.findChildren<RangeChart*>())
      EXPECT_FALSE(chart->accessibleName().isEmpty()) << chart->objectName().toStdString();
  };
  look(show<WorksPanel>());
  look(show<PaysPanel>());
  look(show<SellsPanel>());
  look(show<HoursPanel>());
}

}  // namespace
}  // namespace secondpull::app::test
