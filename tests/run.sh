#!/bin/sh
# Installs what is missing, builds a preset with its tests and runs them. Safe to repeat.
#
#   sh tests/run.sh [PRESET [OPTION OF ctest...]]      PRESET: release (default), debug, asan-ubsan, coverage
#
# Prints ctest's closing lines, and the output of the tests that failed.
set -eu

source=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
preset=${1:-release}
[ $# -eq 0 ] || shift
build=$source/.build/$preset

# The sanitizers try nothing in a browser, a shell or a package. Where npm is there already, Debian's is not put
# beside it.
further=clang
if [ "$preset" != asan-ubsan ]; then
  further='g++ chromium-driver dpkg-dev mandoc zsh fish'
  command -v npm >/dev/null || further="$further npm ca-certificates"
fi
# shellcheck disable=SC2086 # a list of names
sh "$source/sample_weather/packages.sh" libgtest-dev libgmock-dev libbenchmark-dev python3-icalendar openssl $further

cd "$source"
mkdir -p "$build"
[ "$preset" = asan-ubsan ] || sh tests/browser/fetch_axe.sh "$build/axe-core"
build_tests() {
  { [ -f "$build/build.ninja" ] || cmake --preset "$preset"; } >"$build/build.log" 2>&1 &&
    cmake --build --preset "$preset" >>"$build/build.log" 2>&1
}
if ! build_tests; then
  tail -n 60 "$build/build.log" >&2
  echo "graftcast: the build failed, see above; all of it is in .build/$preset/build.log" >&2
  exit 1
fi

status=0
ctest --preset "$preset" --parallel "$(nproc)" --no-tests=error "$@" >"$build/ctest.log" 2>&1 || status=$?
if [ "$status" -ne 0 ]; then
  grep -v -e ' Passed ' -e '^ *Start ' "$build/ctest.log" >&2 || true
fi
sed -n '/% tests passed/,$p' "$build/ctest.log"
exit "$status"
