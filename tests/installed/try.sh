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
"$work/example/one_union" "$work/prefix/share/graftcast/models"
env -u GRAFTCAST_MODELS "$work/prefix/bin/graftcast" models show apple | head -n 3
