#!/bin/sh
# Builds the fuzzers and runs each for some seconds from its own corpus, without changing that. Needs clang.
#
#   sh tests/fuzz/run.sh [SECONDS [NAME...]]      default: 30 seconds each, all of them
set -eu

source=$(CDPATH='' cd -- "$(dirname -- "$0")/../.." && pwd)
seconds=${1:-30}
[ $# -eq 0 ] || shift
build=$source/.build/fuzz

sh "$source/sample_weather/packages.sh" clang
cd "$source"
mkdir -p "$build"
if ! { cmake --preset fuzz && cmake --build --preset fuzz; } >"$build/build.log" 2>&1; then
  tail -n 40 "$build/build.log" >&2
  exit 1
fi

[ $# -gt 0 ] || set -- $(cd tests/fuzz/corpus && ls)
status=0
for name in "$@"; do
  found=$build/found/$name
  mkdir -p "$found"
  if "$build/tests/fuzz/${name}_fuzz" -max_total_time="$seconds" -print_final_stats=1 -artifact_prefix="$found/" \
    "$found" "tests/fuzz/corpus/$name" >"$build/$name.log" 2>&1; then
    echo "$name: clean, $(sed -n 's/^stat::number_of_executed_units: *//p' "$build/$name.log") inputs in $seconds s"
  else
    echo "$name: FAILED, see .build/fuzz/$name.log" >&2
    status=1
  fi
done
exit $status
