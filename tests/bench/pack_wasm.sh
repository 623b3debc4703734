#!/bin/sh
# sh tests/bench/pack_wasm.sh STEPS INSTANCE...   packs each instance with that budget of steps natively and as WebAssembly under
# Node.js, and prints both times (s), their ratio, and what 99 of 100 steps take at most (ms). Ends with 1 if two layouts differ in
# a byte. The native times are the processor's; those under Node.js run on while others work, so the machine should be quiet.
set -eu
steps=$1
shift
house=$(cd "$(dirname "$0")/../.." && pwd)
for build in build-native build-web; do
  [ -f "$house/$build/build.ninja" ] ||
    $([ "$build" = build-web ] && echo emcmake) cmake -S "$house" -B "$house/$build" -G Ninja >&2
  cmake --build "$house/$build" --target pack_bench >&2
done
layouts=$(mktemp -d)
trap 'rm -rf "$layouts"' EXIT
differ=0
printf '%-16s %8s %8s %8s %10s %10s\n' instance native wasm ratio 'step, ms' 'wasm, ms'
for instance; do
  native=$("$house/build-native/pack_bench" "$instance" "$steps" 1 "$layouts/native.json")
  wasm=$(node --no-experimental-fetch "$house/build-web/pack_bench.js" "$instance" "$steps" 1 "$layouts/wasm.json")
  same=same
  cmp -s "$layouts/native.json" "$layouts/wasm.json" || { same=DIFFERENT; differ=1; }
  # Each printed its time and its steps'.
  # shellcheck disable=SC2086
  set -- $native $wasm "$@"
  printf '%-16s %8s %8s %8.2f %10s %10s  %s\n' "$(basename "$instance" .json)" "$1" "$3" \
    "$(awk -v n="$1" -v w="$3" 'BEGIN { print w / n }')" "$2" "$4" "$same"
  shift 4
done
exit $differ
