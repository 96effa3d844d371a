#!/usr/bin/env bash
# Builds the benchmarks and prints their figures. Run on a machine that does nothing else.
set -euo pipefail
cd "$(dirname "$0")/../.."

cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DSECONDPULL_TESTS=ON -DSECONDPULL_BENCH=ON >/dev/null
cmake --build build --target shop_bench books_bench start_bench planner_bench planning_bench
build/bin/shop_bench "$@"
build/bin/books_bench "$@"
build/bin/start_bench "$@"
build/bin/planner_bench "$@"
build/bin/planning_bench "$@"
