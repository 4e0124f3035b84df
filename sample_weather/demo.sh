#!/bin/sh
# This morning's check on the sample site: installs what is missing, builds, runs. Safe to repeat.
#
#   sh sample_weather/demo.sh [OPTION OF graftcast morning...]
set -eu

here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
source=$(dirname -- "$here")
build=$source/.build/demo
program=$build/src/cli/graftcast
morning=2025-06-09T06:30 # the sample's morning, so that the answer is the same on any day

sh "$here/packages.sh"

# What CMake and the compiler say is shown only when they fail; on a terminal ninja's count of steps runs along.
build_program() {
  if [ ! -f "$build/build.ninja" ]; then
    echo "graftcast: compiling into .build/demo, this takes a minute or two" >&2
    cmake -S "$source" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DGRAFTCAST_TESTS=OFF \
      -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=12 "-DCMAKE_CXX_FLAGS_RELEASE=-O2 -DNDEBUG" \
      -DGRAFTCAST_WARNINGS_AS_ERRORS=OFF >"$log" 2>&1 || return 1
  fi
  if [ -t 2 ] && [ ! -f "$program" ]; then
    ninja -C "$build" graftcast >&2
  else
    ninja -C "$build" graftcast >"$log" 2>&1
  fi
}

mkdir -p "$build"
log=$build/build.log
if ! build_program; then
  [ ! -f "$log" ] || tail -n 40 "$log" >&2
  echo "graftcast: the build failed, see above; after 'rm -r .build/demo' it starts afresh" >&2
  exit 1
fi

exec "$program" --site "$here/site" --at "$morning" morning "$@"
