#!/bin/sh
# Installs BUILD into a prefix of its own, builds the example against it and runs both the example and the program.
#
#   sh tests/installed/try.sh BUILD CXX
set -eu

build=$1
compiler=$2
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

cmake --install "$build" --prefix "$work/prefix" >"$work/log"
cmake -S "$here" -B "$work/example" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_COMPILER="$compiler" \
  -DCMAKE_PREFIX_PATH="$work/prefix" >>"$work/log"
cmake --build "$work/example" >>"$work/log" || { cat "$work/log"; exit 1; }

# The README shows the example as it is.
sed -n '/^```cpp$/,/^```$/p' "$here/../../README.md" | sed '1d;$d' | diff - "$here/first_act.cpp" ||
  { echo "the example in README.md is not tests/installed/first_act.cpp"; exit 1; }
act=$(env -u GRAFTCAST_MODELS "$work/example/first_act" "$work/prefix/share/graftcast/sample")
echo "$act"
echo "$act" | grep -qE '^[A-Z0-9]+: [a-z-]+.*, risk [0-9]+ %$' || { echo "the example prints no act"; exit 1; }
headers=$(find "$work/prefix/include" -name '*.hpp' | wc -l)
echo "$headers headers installed"
[ "$headers" -le 45 ] || { echo "too many to be a front door"; exit 1; }

env -u GRAFTCAST_MODELS "$work/prefix/bin/graftcast" models show apple | head -n 3
