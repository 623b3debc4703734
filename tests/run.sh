#!/bin/sh
# sh tests/run.sh            installs what is missing, builds, and runs every test; the last line is the count
# sh tests/run.sh STAGE...   only these stages: native sanitizers node python pages browser
#
# A stage is two functions below. It fails if one of its commands fails or no test ran; the others go on. Tests are counted
# from what they print: GoogleTest's lines, libFuzzer's last line, and 'ok NAME' or 'FAIL NAME' from our own runners.
# Beside its seconds stand those that the processors worked: on a machine that does other things too, only they compare.
set -u
cd "$(dirname "$0")/.." || exit 1
. web/packages.sh
all_stages="native sanitizers node python pages browser"

compile() {  # folder target... -- configure arguments
  folder=$1; shift
  targets=
  while [ "$1" != -- ]; do targets="$targets $1"; shift; done
  shift
  "$@" -S . -B "$folder" -G Ninja || return 1
  # shellcheck disable=SC2086
  cmake --build "$folder" --target $targets
}
run_ctest() { ctest --test-dir "$1" --verbose --parallel "$(nproc)" --timeout 1800; }

# native: g++, optimised, everything that is built natively
build_native() { compile build-native all -- cmake -DCOATWRIGHT_TOGETHER=ON -DCOATWRIGHT_REQUIRE_REFERENCE=ON; }
test_native() { run_ctest build-native; }
# sanitizers: clang, the same tests stopped at the first bad access or undefined operation; a short fuzz of each target
build_sanitizers() {
  compile build-sanitizers all_tests -- cmake -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_BUILD_TYPE=Release \
    -DCMAKE_CXX_FLAGS_RELEASE="-O2 -DNDEBUG" -DCOATWRIGHT_SANITIZE=ON -DCOATWRIGHT_FUZZ=ON -DCOATWRIGHT_TOGETHER=ON \
    -DCOATWRIGHT_REQUIRE_REFERENCE=ON
}
test_sanitizers() { run_ctest build-sanitizers; }
# node: the tests of core and shell as WebAssembly under Node.js; the pages are built beside them
build_node() { compile build-web all_tests coatwright_pages -- emcmake cmake; }
test_node() { run_ctest build-web; }
# python: rules of the house, file formats, geometry against independent libraries
build_python() { compile build-native coatwright -- cmake; }
test_python() { /usr/bin/python3 tests/python/run.py build-native/coatwright; }
# pages: the static site builds with the command that README.md names
build_pages() { sh web/serve.sh --build-only; }
test_pages() { echo "ok the pages are built"; }
# browser: the built site in headless Chromium
build_browser() { sh web/serve.sh --build-only; }
test_browser() { command node tests/web/run.mjs build-web/site; }

failed_line='^([0-9]+: )?(\[  FAILED  \] .* \([0-9]+ ms\)$|FAIL |did not finish: )'
passed_line='^([0-9]+: )?(\[       OK \] |ok |Done [0-9]+ runs)'
# The tests that started and neither passed nor failed: those in which a program crashed.
unfinished() {
  awk '{ program = ($1 ~ /^[0-9]+:$/) ? $1 : "" }
    /\[ RUN      \]|: replaying / { started[program] = $0 }
    /\[       OK \]|\[  FAILED  \]|: ok / { delete started[program] }
    END { for (program in started) print "did not finish: " started[program] }' "$1"
}
# Runs a command in a shell of its own, and writes into the file how many seconds the processors worked for it.
counted() {  # file command...
  into=$1; shift
  (
    "$@"
    status=$?
    times >"$into.times"
    awk 'NR == 2 { gsub(/[ms]/, " "); print int(60 * ($1 + $3) + $2 + $4) }' "$into.times" >"$into"
    exit $status
  )
}

# What a stage needs is built beside the tests of the stage before: these end with one slow test on one processor. A
# stage's file in build-logs/built says how its build ended and what it cost.
build_stages() {
  # Browsers and compilers of the others are put in beside the first stage.
  # shellcheck disable=SC2086
  need_packages $tests_packages >build-logs/packages.log 2>&1 &
  others=$! have=unknown
  for stage in "$@"; do
    if [ "$stage" != native ] && [ "$have" = unknown ]; then
      wait "$others"
      have=$?
    fi
    if [ "$stage" = native ] || [ "$have" = 0 ]; then
      counted build-logs/built/cost "build_$stage" >"build-logs/$stage.log" 2>&1 </dev/null
    else
      cp build-logs/packages.log "build-logs/$stage.log"
      echo 0 >build-logs/built/cost
      false
    fi
    echo "$? $(cat build-logs/built/cost)" >"build-logs/built/$stage.part"
    mv "build-logs/built/$stage.part" "build-logs/built/$stage"
  done
  wait
}
test_stage() {
  log=build-logs/$1.log
  while [ ! -e "build-logs/built/$1" ]; do sleep 0.2; done
  read -r status cost <"build-logs/built/$1"
  started=$(date +%s)
  echo 0 >build-logs/built/worked
  if [ "$status" = 0 ]; then
    counted build-logs/built/worked "test_$1" >>"$log" 2>&1 </dev/null
    status=$?
  fi
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
  echo "$1: $stage_passed of $((stage_passed + stage_failed)) tests passed in $(($(date +%s) - started)) s" \
    "($(cat build-logs/built/worked) s of processor time, and $cost s to build it)"
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
rm -rf build-logs/built
mkdir -p build-logs/built
trap 'trap "" TERM; kill 0; exit 1' INT  # what runs in the background hears of no key
# shellcheck disable=SC2086
need_packages $native_packages || exit 1
build_stages "$@" &
builds=$!
begun=$(date +%s)
passed=0
failed=0
for stage in "$@"; do
  test_stage "$stage"
done
wait "$builds"
echo "$passed passed, $failed failed in $(($(date +%s) - begun)) s"
[ $failed = 0 ]
