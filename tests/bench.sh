#!/bin/sh
# sh tests/bench.sh   builds, measures, and prints a table of figures beside their limits. Times depend on the machine and
#                     on what else it does: the table is for people to read, and no test run depends on it.
set -eu
cd "$(dirname "$0")/.."
. web/packages.sh
# shellcheck disable=SC2086
need_packages $pages_packages g++ npm chromium

[ -f build-native/build.ninja ] || cmake -S . -B build-native -G Ninja >&2
cmake --build build-native --target pattern_bench >&2
site=$(sh web/serve.sh --build-only | tail -n 1)
cmake --build build-web --target pattern_bench >&2

results=$(mktemp -d)
trap 'rm -rf "$results"' EXIT
build-native/pattern_bench >"$results/native"
node --no-experimental-fetch build-web/pattern_bench.js >"$results/wasm"
node tests/bench/bench.mjs "$site" "$results/native" "$results/wasm"
