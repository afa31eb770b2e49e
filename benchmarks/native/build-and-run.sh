#!/usr/bin/env bash
# Builds the yardstick kernels with CMake and runs each of them once; a kernel that fails its own checks fails the script.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
build=../../artifacts/native
cmake -S . -B "$build" -DCMAKE_BUILD_TYPE=Release > /dev/null
cmake --build "$build" > /dev/null
failed=0
for yardstick in peng_robinson helmholtz multi_fluid; do
    "$build/$yardstick" || failed=1
done
exit "$failed"
