#!/bin/sh
# sh tests/bench/pack_wasm.sh STEPS INSTANCE...   packs each instance with that budget of steps natively and as WebAssembly under
# Node.js, and prints both processor times (s) and their ratio. Ends with 1 if two layouts differ in a byte.
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
printf '%-16s %8s %8s %8s\n' instance native wasm ratio
for instance; do
  native=$("$house/build-native/pack_bench" "$instance" "$steps" 1 "$layouts/native.json")
  wasm=$(node --no-experimental-fetch "$house/build-web/pack_bench.js" "$instance" "$steps" 1 "$layouts/wasm.json")
  same=same
  cmp -s "$layouts/native.json" "$layouts/wasm.json" || { same=DIFFERENT; differ=1; }
  printf '%-16s %8s %8s %8.2f  %s\n' "$(basename "$instance" .json)" "$native" "$wasm" \
    "$(awk -v n="$native" -v w="$wasm" 'BEGIN { print w / n }')" "$same"
done
exit $differ
