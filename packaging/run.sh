#!/usr/bin/env bash
# From a fresh Debian 12 to the running program: installs what is missing, builds, and opens a shop (the demo shop on the
# first run). Without a display it says so and prints the demo shop's report.
#   packaging/run.sh [SHOP]
set -euo pipefail
cd "$(dirname "$0")/.."

packaging/install-packages.sh packaging/packages-build.txt
cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DSECONDPULL_TESTS=OFF -DSECONDPULL_BENCH=OFF
cmake --build build

if [[ -n ${DISPLAY:-}${WAYLAND_DISPLAY:-} ]]; then
  if (($#)); then exec build/bin/secondpull "$@"; fi
  exec build/bin/secondpull --demo-if-new
fi

echo
echo "There is no display here (DISPLAY and WAYLAND_DISPLAY are empty), so no window opens. The demo shop's report instead:"
echo
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
build/bin/secondpull-cli demo --shop "$folder/shop"
build/bin/secondpull-cli machines --shop "$folder/shop"
echo
build/bin/secondpull-cli books 2026 --shop "$folder/shop"
