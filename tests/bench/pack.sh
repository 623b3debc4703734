#!/bin/sh
# sh tests/bench/pack.sh FOLDER [SECONDS...]   packs every instance (*.json) in FOLDER with three seeds, for 3 and 20 seconds or
# as long as is said, on one core, and prints how much of the strip each layout fills, in %. Figures depend on the machine
# and on what else it does, so the load stands below the table.
set -eu
folder=$(cd "$1" && pwd)
shift
cd "$(dirname "$0")/../.."
[ -f build-native/build.ninja ] || cmake -S . -B build-native -G Ninja >&2
cmake --build build-native --target coatwright >&2
[ $# -gt 0 ] || set -- 3 20
layouts=$(mktemp -d)
trap 'rm -rf "$layouts"' EXIT

printf '%-16s %8s' instance seconds
printf ' %8s' 'seed 1' 'seed 2' 'seed 3' mean steps/s
printf '\n'
for instance in "$folder"/*.json; do
  name=$(basename "$instance" .json)
  for seconds; do
    for seed in 1 2 3; do
      nice -n 5 build-native/coatwright pack "$instance" --seconds "$seconds" --seed "$seed" --out "$layouts/$seed.json"
    done
    /usr/bin/python3 - "$name" "$seconds" "$layouts" <<'END'
import json, sys
name, seconds, folder = sys.argv[1:]
layouts = [json.load(open(f"{folder}/{seed}.json")) for seed in (1, 2, 3)]
filled = [layout["density_pct"] for layout in layouts]
steps = sum(layout["steps"] for layout in layouts) / 3 / float(seconds)
print(f"{name:16} {seconds:>8}", *(f"{f:8.2f}" for f in [*filled, sum(filled) / 3]), f"{steps:8.0f}", flush=True)
END
  done
done
uptime
