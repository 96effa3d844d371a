// The planner against the plain sweep, in one run: sizes, the worked knowledge cases, and a backlog.
#include <chrono>
#include <cmath>
#include <fstream>
#include <iterator>
#include <map>
#include <stdexcept>
#include <string>
#include <unistd.h>

#include <benchmark/benchmark.h>

#include "core/decision/hours.h"
#include "core/decision/planner.h"
#include "core/decision/search.h"
#include "core/decision/sweep.h"
#include "db/exchange/case_json.h"
#include "tests/bench/plain_sweep.h"
#include "tests/bench/random_model.h"

namespace secondpull::bench {
namespace {

using namespace decision;
using Clock = std::chrono::steady_clock;

constexpr double megabyte = 1024.0 * 1024.0;
constexpr std::size_t plain_state_bytes = sizeof(double);

double seconds_since(Clock::time_point begin) {
  return std::chrono::duration<double>(Clock::now() - begin).count();
}

/// What the plain sweep took, for the ratio that stands beside the planner's time.
std::map<std::string, double>& plain_seconds() {
  static std::map<std::string, double> seconds;
  return seconds;
}

bool fits_memory(std::size_t states) {
  const double free_bytes =
      static_cast<double>(sysconf(_SC_AVPHYS_PAGES)) * static_cast<double>(sysconf(_SC_PAGESIZE));
  return static_cast<double>(states) * static_cast<double>(plain_state_bytes) < 0.8 * free_bytes;
}

void run_plain(benchmark::State& state, const std::string& name, const Model& model,
               std::size_t most_states) {
  if (states_of(model) > most_states || !fits_memory(states_of(model))) {
    state.SkipWithError("more states than a plain sweep can hold");
    return;
  }
  PlainSweep plain;
  double seconds = 0;
  for (auto _ : state) {
    const auto begin = Clock::now();
    plain = plain_sweep(model);
    seconds = seconds_since(begin);
  }
  plain_seconds()[name] = seconds;
  state.counters["states"] = static_cast<double>(plain.states);
  state.counters["MB"] = static_cast<double>(plain.bytes) / megabyte;
  state.counters["V"] = plain.value;
}

/// When the proved gap first fell below a share of what the plan gains over stopping now.
struct Milestones {
  std::map<double, double> seconds{{0.05, -1}, {0.01, -1}, {0.001, -1}};
  void note(const Progress& progress, double stop_now, double now) {
    for (auto& [share, at] : seconds)
      if (at < 0 && progress.at_most - progress.value <= share * (progress.value - stop_now)) at = now;
  }
};

double stop_now(const Model& model) {
  double best = -std::numeric_limits<double>::infinity();
  for (const Model::Stop& stop : model.stops) {
    double value = 0;
    for (std::size_t c = 0; c < model.causes.size(); ++c)
      value += model.causes[c].weight * stop.worth[c];
    best = std::max(best, value);
  }
  return best;
}

void run_planner(benchmark::State& state, const std::string& name, const Model& model, double most_seconds) {
  Progress progress;
  Milestones milestones;
  double seconds = 0;
  for (auto _ : state) {
    const auto begin = Clock::now();
    Budget budget;
    budget.time =
        std::chrono::duration_cast<std::chrono::nanoseconds>(std::chrono::duration<double>{most_seconds});
    budget.spent = [&] { return Clock::now() - begin; };
    budget.go_on = [&](const Progress& so_far) {
      milestones.note(so_far, stop_now(model), seconds_since(begin));
      return true;
    };
    const auto solution = solve(model, budget);
    seconds = seconds_since(begin);
    progress = solution->progress();
    milestones.note(progress, stop_now(model), seconds);
  }
  state.counters["states"] = static_cast<double>(progress.states);
  state.counters["MB"] = static_cast<double>(progress.bytes) / megabyte;
  state.counters["V"] = progress.value;
  state.counters["gap%"] =
      has_met(progress) ? 0 : 100 * (progress.at_most - progress.value) / (progress.value - stop_now(model));
  state.counters["s_5%"] = milestones.seconds[0.05];
  state.counters["s_1%"] = milestones.seconds[0.01];
  state.counters["s_.1%"] = milestones.seconds[0.001];
  if (plain_seconds().contains(name)) state.counters["plain/this"] = plain_seconds()[name] / seconds;
}

diagnosis::Case demo_case(const std::string& name) {
  std::ifstream in{SECONDPULL_SOURCE_DIR "/demo-data/cases/" + name + ".json", std::ios::binary};
  const std::string text{std::istreambuf_iterator<char>{in}, {}};
  auto of = db::read_case(text);
  if (!of) throw std::runtime_error(name + ": " + of.error().sentence);
  return *of;
}

void register_case(const std::string& name, const diagnosis::Case& of, std::size_t most_plain_states,
                   double most_seconds) {
  const Model model = model_of(of);
  benchmark::RegisterBenchmark(
      ("plain/" + name).c_str(),
      [=](benchmark::State& state) { run_plain(state, name, model, most_plain_states); })
      ->Iterations(1)
      ->Unit(benchmark::kMillisecond);
  benchmark::RegisterBenchmark(
      ("planner/" + name).c_str(),
      [=](benchmark::State& state) { run_planner(state, name, model, most_seconds); })
      ->Iterations(1)
      ->Unit(benchmark::kMillisecond);
}

void register_sizes() {
  struct Size {
    std::size_t repairs;
    std::size_t tests;
  };
  constexpr unsigned seeds = 5;
  constexpr std::size_t all_states = std::size_t{1} << 40;
  constexpr std::size_t most_of_the_largest = std::size_t{100} << 20;
  for (const Size size : {Size{8, 6}, Size{12, 6}, Size{16, 5}, Size{10, 10}, Size{20, 6}})
    for (unsigned seed = 1; seed <= seeds; ++seed)
      // The largest takes half a minute and 6 GB plainly: once is enough.
      register_case(
          std::to_string(size.repairs) + "+" + std::to_string(size.tests) + "/" + std::to_string(seed),
          random_case(size.repairs, size.tests, seed), seed == 1 ? all_states : most_of_the_largest, 60);
}

void register_knowledge() {
  constexpr std::size_t most_plain_states = std::size_t{800} << 20;
  constexpr double a_minute = 60;
  for (const std::string name : {"no-spark", "cord-locked", "runs-on-prime-then-dies", "surges",
                                 "pulls-over-does-not-start", "cranks-does-not-start"}) {
    const diagnosis::Case grouped = demo_case(name);
    register_case(name, grouped, most_plain_states, a_minute);
    diagnosis::Case ungrouped = grouped;
    for (diagnosis::Test& test : ungrouped.tests)
      test.group.clear();
    register_case(name + "/no-groups", ungrouped, most_plain_states, a_minute);
  }
  diagnosis::Case answered = demo_case("pulls-over-does-not-start");
  answered.evidence = {diagnosis::TestShowed{"prime-intake", "nothing"},
                       diagnosis::TestShowed{"spark", "strong"}};
  register_case("pulls-over-does-not-start/after-two-answers", answered, most_plain_states, a_minute);
}

/// A backlog of machines of the usual size.
void BM_HoursOfBacklog(benchmark::State& state) {
  Backlog backlog{.hours = 40};
  for (unsigned i = 0; i < static_cast<unsigned>(state.range(0)); ++i)
    backlog.cases.push_back({std::to_string(i), random_case(5, 4, i)});
  for (auto _ : state)
    benchmark::DoNotOptimize(hours(backlog));
}
BENCHMARK(BM_HoursOfBacklog)->Arg(30)->Arg(300)->Iterations(1)->Unit(benchmark::kMillisecond);

/// All figures of the answer, for a case of the usual size: what a person waits for.
void BM_VerdictOfUsualCase(benchmark::State& state) {
  const diagnosis::Case of = random_case(8, 6, 1);
  for (auto _ : state)
    benchmark::DoNotOptimize(verdict(of));
}
BENCHMARK(BM_VerdictOfUsualCase)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace secondpull::bench

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
  secondpull::bench::register_sizes();
  secondpull::bench::register_knowledge();
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}
