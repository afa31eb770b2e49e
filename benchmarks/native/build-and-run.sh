#!/usr/bin/env bash
# Builds the yardstick kernels with CMake and runs each of them once.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
build=../../artifacts/native
cmake -S . -B "$build" -DCMAKE_BUILD_TYPE=Release > /dev/null
cmake --build "$build" > /dev/null
"$build/peng_robinson"
