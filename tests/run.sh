#!/bin/sh
# sh tests/run.sh            installs what is missing, builds, and runs every test; the last line is the count
# sh tests/run.sh STAGE...   only these stages: native sanitizers node python pages browser
#
# A stage is a function below. It fails if its command fails or no test ran; the others go on. Tests are counted
# from what they print: GoogleTest's lines, libFuzzer's last line, and 'ok NAME' or 'FAIL NAME' from our own runners.
# Beside its seconds stand those that the processors worked: on a machine that does other things too, only they compare.
set -u
cd "$(dirname "$0")/.." || exit 1
. web/packages.sh
all_stages="native sanitizers node python pages browser"

build() {  # folder target... -- configure arguments
  folder=$1; shift
  targets=
  while [ "$1" != -- ]; do targets="$targets $1"; shift; done
  shift
  "$@" -S . -B "$folder" -G Ninja || return 1
  # shellcheck disable=SC2086
  cmake --build "$folder" --target $targets
}
run_ctest() { ctest --test-dir "$1" --verbose --parallel "$(nproc)" --timeout 1800; }

native() {  # g++, optimised, everything that is built natively
  build build-native all -- cmake -DCOATWRIGHT_REQUIRE_REFERENCE=ON && run_ctest build-native
}
sanitizers() {  # clang, the same tests stopped at the first bad access or undefined operation; a short fuzz of each target
  build build-sanitizers all_tests -- cmake -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_BUILD_TYPE=RelWithDebInfo \
    -DCOATWRIGHT_SANITIZE=ON -DCOATWRIGHT_FUZZ=ON -DCOATWRIGHT_REQUIRE_REFERENCE=ON && run_ctest build-sanitizers
}
node() {  # the tests of core and shell as WebAssembly under Node.js; the pages are built beside them
  build build-web all_tests coatwright_pages -- emcmake cmake && run_ctest build-web
}
python() {  # rules of the house, file formats, geometry against independent libraries
  build build-native coatwright -- cmake && /usr/bin/python3 tests/python/run.py build-native/coatwright
}
pages() {  # the static site builds with the command that README.md names
  sh web/serve.sh --build-only && echo "ok the pages are built"
}
browser() {  # the built site in headless Chromium
  sh web/serve.sh --build-only && command node tests/web/run.mjs build-web/site
}

failed_line='^([0-9]+: )?(\[  FAILED  \] .* \([0-9]+ ms\)$|FAIL |did not finish: )'
passed_line='^([0-9]+: )?(\[       OK \] |ok |Done [0-9]+ runs)'
# The tests that started and neither passed nor failed: those in which a program crashed.
unfinished() {
  awk '{ program = ($1 ~ /^[0-9]+:$/) ? $1 : "" }
    /\[ RUN      \]|: replaying / { started[program] = $0 }
    /\[       OK \]|\[  FAILED  \]|: ok / { delete started[program] }
    END { for (program in started) print "did not finish: " started[program] }' "$1"
}
# Seconds that the processors have worked for what this script started, in the variable `worked`.
read_worked() {
  times >build-logs/times
  worked=$(awk 'NR == 2 { gsub(/[ms]/, " "); print int(60 * ($1 + $3) + $2 + $4) }' build-logs/times)
}
run_stage() {
  log=build-logs/$1.log
  started=$(date +%s)
  read_worked
  worked_before=$worked
  echo "$1 ..."
  "$1" >"$log" 2>&1 </dev/null
  status=$?
  crashed=$(unfinished "$log")
  [ -z "$crashed" ] || echo "$crashed" >>"$log"
  stage_passed=$(grep -c -E "$passed_line" "$log")
  stage_failed=$(grep -c -E "$failed_line" "$log")
  if [ "$stage_failed" != 0 ]; then
    grep -E -B 20 "$failed_line" "$log" | tail -n 200
  elif [ $status != 0 ] || [ "$stage_passed" = 0 ]; then
    stage_failed=1
    echo "$1 ended with exit code $status; the end of $log:"
    tail -n 40 "$log"
  fi
  read_worked
  echo "$1: $stage_passed of $((stage_passed + stage_failed)) tests passed in $(($(date +%s) - started)) s" \
    "($((worked - worked_before)) s of processor time)"
  grep -E '^ok .* \(second try\)$' "$log"
  passed=$((passed + stage_passed))
  failed=$((failed + stage_failed))
}

for stage in "$@"; do
  case " $all_stages " in
    *" $stage "*) ;;
    *) echo "no stage '$stage'; there are: $all_stages" >&2; exit 1 ;;
  esac
done
[ $# -gt 0 ] || set -- $all_stages
mkdir -p build-logs
# What the first stage needs; browsers and compilers of the others are put in beside it.
# shellcheck disable=SC2086
need_packages $native_packages || exit 1
# shellcheck disable=SC2086
need_packages $tests_packages >build-logs/packages.log 2>&1 &
others=$!
passed=0
failed=0
for stage in "$@"; do
  if [ "$stage" != native ] && [ -n "$others" ]; then
    wait "$others" || { cat build-logs/packages.log >&2; exit 1; }
    others=
  fi
  run_stage "$stage"
done
[ -z "$others" ] || wait "$others"
echo "$passed passed, $failed failed"
[ $failed = 0 ]
