#!/bin/sh
# Builds the fuzzers and runs each for some seconds from its own corpus, without changing that; two at a time on two
# cores. Needs clang.
#
#   sh tests/fuzz/run.sh [SECONDS [NAME...]]      default: 30 seconds each, all of them
#
# `.ci/run` gives each 30 seconds where its 25 minutes allow; 300 each is the thorough run.
set -eu

source=$(CDPATH='' cd -- "$(dirname -- "$0")/../.." && pwd)
seconds=${1:-30}
[ $# -eq 0 ] || shift
build=$source/.build/asan-ubsan
logs=$build/fuzz

sh "$source/sample_weather/packages.sh" clang libgtest-dev libgmock-dev
cd "$source"
mkdir -p "$logs"
if ! { cmake --preset asan-ubsan && cmake --build --preset fuzzers; } >"$logs/build.log" 2>&1; then
  tail -n 40 "$logs/build.log" >&2
  exit 1
fi

[ $# -gt 0 ] || set -- $(cd tests/fuzz/corpus && ls)
# shellcheck disable=SC2016 # expanded by the inner shell
printf '%s\n' "$@" | xargs -P "$(nproc)" -I '{}' sh -c '
  name=$1 seconds=$2 program=$3/tests/fuzz/$1_fuzz log=$4/$1.log found=$4/found/$1
  mkdir -p "$found"
  if "$program" -max_total_time="$seconds" -timeout=25 -rss_limit_mb=2560 -print_final_stats=1 \
    -artifact_prefix="$found/" "$found" "tests/fuzz/corpus/$name" >"$log" 2>&1; then
    echo "$name: clean, $(sed -n "s/^stat::number_of_executed_units: *//p" "$log") inputs in $seconds s"
  else
    echo "$name: FAILED, see $log" >&2
    exit 1
  fi' sh '{}' "$seconds" "$build" "$logs"
