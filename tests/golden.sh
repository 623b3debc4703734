#!/bin/sh
# sh tests/golden.sh   writes the pictures in tests/golden anew from the drafts of now. Look at each that changed before
#                      you commit it.
set -eu
cd "$(dirname "$0")/.."
[ -f build-native/build.ninja ] || cmake -S . -B build-native -G Ninja >&2
cmake --build build-native --target core_tests >&2
mkdir -p tests/golden
COATWRIGHT_WRITE_GOLDEN=1 build-native/core_tests --gtest_filter='Golden.Ten*'
git status --short tests/golden
