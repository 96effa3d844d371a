// From the call of the program to the first picture of the Yard with 10,000 machines, against an empty Qt
// window. Both are whole processes on Qt's offscreen platform, so that neither is helped by what the other
// left in memory.

#include <cstdlib>

#include <benchmark/benchmark.h>

#include "tests/bench/big_shop.h"

namespace secondpull::bench {
namespace {

const std::string kPlatform = "QT_QPA_PLATFORM=offscreen ";

void BM_StartToYard(benchmark::State& state) {
  const ScratchFolder scratch;
  make_shop_folder(scratch / "shop", big_shop(static_cast<std::size_t>(state.range(0)),
                                              static_cast<std::size_t>(state.range(0))));
  for (auto _ : state)
    run_or_throw(kPlatform + SECONDPULL_BIN_DIR "/secondpull --quit-after-first-picture '" +
                 (scratch / "shop").string() + "'");
}
BENCHMARK(BM_StartToYard)->Arg(60)->Arg(10'000)->Unit(benchmark::kMillisecond)->UseRealTime();

void BM_StartEmptyWindow(benchmark::State& state) {
  for (auto _ : state)
    run_or_throw(kPlatform + SECONDPULL_BIN_DIR "/empty_window");
}
BENCHMARK(BM_StartEmptyWindow)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
}  // namespace secondpull::bench
