// The planner behind the window: from an outcome button to the next step on screen, and a yard of machines
// that wait. Both through the real window on Qt's offscreen platform.

#include <algorithm>
#include <chrono>
#include <cstdlib>

#include <QAbstractButton>
#include <QApplication>
#include <QElapsedTimer>
#include <QTemporaryDir>
#include <QTest>
#include <QTimer>
#include <benchmark/benchmark.h>

#include "app/frame/main_window.h"
#include "app/frame/session.h"
#include "app/planning/planning.h"
#include "core/shop/intake.h"

namespace secondpull::app {
namespace {

constexpr int kFrame = 16;  // ms between two pictures of a screen

db::Instant noon() {
  return std::chrono::sys_days{std::chrono::year{2026} / 5 / 20} + std::chrono::hours{12};
}

/// A shop with machines that wait, their symptoms taken in turn from the knowledge base.
struct WaitingShop {
  explicit WaitingShop(int machines, const std::string& only = {}) {
    Settings settings;
    settings.hours_a_week = Tenths{100};
    session = std::make_unique<Session>(
        *db::Store::create((folder.path() + "/shop").toStdString(), settings, noon()), [] { return noon(); });
    const auto base = session->knowledge();
    NewAcquisition lot{.date = session->today(), .source = Source::dump};
    for (int i = 0; i < machines; ++i) {
      const auto& symptoms = base->knowledge.symptoms;
      const learning::Symptom& symptom = symptoms[static_cast<std::size_t>(i) % symptoms.size()];
      lot.machines.push_back({.kind = symptom.kinds.empty() ? MachineKind::push : symptom.kinds.front(),
                              .symptom = only.empty() ? symptom.name : only});
    }
    if (const auto wrong = session->perform(log_acquisition(*session->shop(), lot)))
      throw std::runtime_error(wrong->sentence);
  }
  QTemporaryDir folder;
  std::unique_ptr<Session> session;
};

/// The symptom with most causes.
std::string largest_symptom(const Session& session) {
  const auto base = session.knowledge();
  const auto& symptoms = base->knowledge.symptoms;
  return std::max_element(symptoms.begin(), symptoms.end(),
                          [](const auto& a, const auto& b) { return a.causes.size() < b.causes.size(); })
      ->name;
}

void BM_OutcomeToNextStep(benchmark::State& state) {
  const WaitingShop first{1};
  const std::string symptom = largest_symptom(*first.session);
  for (auto _ : state) {
    state.PauseTiming();
    WaitingShop shop{1, symptom};
    MainWindow window{*shop.session};
    window.resize(1280, 800);
    window.show();
    window.openMachine(shop.session->shop()->all<Machine>().begin()->id);
    const MachineId machine = shop.session->shop()->all<Machine>().begin()->id;
    const auto second_outcome = [&]() -> QAbstractButton* {
      for (auto* each : window.findChildren<QAbstractButton*>("outcome2"))
        if (each->isVisible() && each->isEnabled()) return each;
      return nullptr;
    };
    const auto is_ready = [&] {
      // A caution that stops the way is read first.
      auto* read = window.findChild<QAbstractButton*>("stepAcknowledge");
      if (read != nullptr && read->isVisible()) read->click();
      return shop.session->planning().now(machine).firm && second_outcome() != nullptr;
    };
    if (!QTest::qWaitFor(is_ready, 30'000)) throw std::runtime_error{"no next step is shown"};
    QAbstractButton* button = second_outcome();
    const std::size_t found = shop.session->shop()->all<Finding>().size();
    state.ResumeTiming();
    button->click();
    if (shop.session->shop()->all<Finding>().size() == found)
      throw std::runtime_error{"nothing was written down"};
    while (shop.session->planning().now(machine).answer == nullptr &&
           !shop.session->planning().now(machine).problem)
      QApplication::processEvents(QEventLoop::AllEvents, 1);
    window.grab();
    state.PauseTiming();
    if (const auto plan = shop.session->planning().now(machine); plan.answer != nullptr)
      state.counters["gap"] = plan.answer->gap;
    state.ResumeTiming();
  }
}
BENCHMARK(BM_OutcomeToNextStep)->Unit(benchmark::kMillisecond)->UseRealTime()->Iterations(3);

/// The whole yard planned in the background; `longest_ms` is the longest time in which the window could not
/// have drawn.
void BM_YardPlanned(benchmark::State& state) {
  for (auto _ : state) {
    state.PauseTiming();
    WaitingShop shop{static_cast<int>(state.range(0))};
    MainWindow window{*shop.session};
    window.resize(1280, 800);
    bool settled = false;
    QObject::connect(&shop.session->planning(), &Planning::settled, &window, [&] { settled = true; });
    QElapsedTimer since_frame;
    qint64 longest = 0;
    QTimer frames;
    frames.setTimerType(Qt::PreciseTimer);
    QObject::connect(&frames, &QTimer::timeout, &window,
                     [&] { longest = std::max(longest, since_frame.restart()); });
    window.show();
    QApplication::processEvents();
    state.ResumeTiming();
    since_frame.start();
    frames.start(kFrame);
    while (!settled)
      QApplication::processEvents(QEventLoop::WaitForMoreEvents);
    state.counters["longest_ms"] = static_cast<double>(longest);
  }
}
BENCHMARK(BM_YardPlanned)->Arg(50)->Arg(200)->Unit(benchmark::kMillisecond)->UseRealTime()->Iterations(1);

}  // namespace
}  // namespace secondpull::app

int main(int argc, char** argv) {
  setenv("QT_QPA_PLATFORM", "offscreen", 1);
  QApplication app(argc, argv);
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}
