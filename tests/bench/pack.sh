#!/bin/sh
# sh tests/bench/pack.sh FOLDER [SECONDS...]   packs every instance (*.json) in FOLDER with three seeds, for 3 and 20 seconds of
# the processor's time or as long as is said, on one core, and prints how much of the strip each layout fills, in %. Figures depend
# on the machine and on what else it does, so the load stands below the table. If FOLDER has a judge (check_layout.py INSTANCE
# LAYOUT, which prints a line of JSON), every layout is put before it, and the table ends with 1 if it finds one wanting.
# COATWRIGHT is the tool to run; else it is built.
set -eu
folder=$(cd "$1" && pwd)
shift
cd "$(dirname "$0")/../.."
tool=${COATWRIGHT:-build-native/coatwright}
if [ -z "${COATWRIGHT:-}" ]; then
  [ -f build-native/build.ninja ] || cmake -S . -B build-native -G Ninja >&2
  cmake --build build-native --target coatwright >&2
fi
[ $# -gt 0 ] || set -- 3 20
layouts=$(mktemp -d)
trap 'rm -rf "$layouts"' EXIT

printf '%-16s %8s' instance seconds
printf ' %8s' 'seed 1' 'seed 2' 'seed 3' mean steps/s
printf '\n'
wanting=0
for instance in "$folder"/*.json; do
  name=$(basename "$instance" .json)
  for seconds; do
    for seed in 1 2 3; do
      nice -n 5 "$tool" pack "$instance" --seconds "$seconds" --seed "$seed" --out "$layouts/$seed.json"
      if [ -f "$folder/check_layout.py" ]; then
        /usr/bin/python3 "$folder/check_layout.py" "$instance" "$layouts/$seed.json" > "$layouts/$seed.judged"
      fi
    done
    /usr/bin/python3 - "$name" "$seconds" "$layouts" <<'END' || wanting=1
import json, pathlib, sys
name, seconds, folder = sys.argv[1:]
seeds = (1, 2, 3)
layouts = [json.load(open(f"{folder}/{seed}.json")) for seed in seeds]
judged = [json.loads(path.read_text()) for seed in seeds if (path := pathlib.Path(folder, f"{seed}.judged")).exists()]
filled = [layout["density_pct"] for layout in layouts]
steps = sum(layout["steps"] for layout in layouts) / 3 / float(seconds)
sound = all(j["feasible"] and j["demand_ok"] and j["rotations_ok"] and abs(j["density_pct"] - f) < 0.01 for j, f in zip(judged, filled))
verdict = "" if not judged else "  sound" if sound else f"  WANTING: {judged}"
print(f"{name:16} {seconds:>8}", *(f"{f:8.2f}" for f in [*filled, sum(filled) / 3]), f"{steps:8.0f}{verdict}", flush=True)
sys.exit(0 if sound else 1)
END
  done
done
uptime
exit $wanting
