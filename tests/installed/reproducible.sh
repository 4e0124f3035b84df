#!/bin/sh
# Builds the Debian package twice, in folders of different names and one after the other, and compares the bytes.
#
#   sh tests/installed/reproducible.sh
#
# The same compiler and the same place of the source are taken for granted: the program holds the path of its models.
set -eu
cd "$(dirname -- "$0")/../.."
folder=.build/reproducible
SOURCE_DATE_EPOCH=$(git log -1 --format=%ct)
export SOURCE_DATE_EPOCH CCACHE_DISABLE=1

package() {
  rm -rf "${folder:?}/$1"
  mkdir -p "$folder/$1"
  if ! {
    cmake -S . -B "$folder/$1" -G Ninja -DCMAKE_BUILD_TYPE=Release -DGRAFTCAST_TESTS=OFF -DCMAKE_UNITY_BUILD=ON \
      -DCMAKE_UNITY_BUILD_BATCH_SIZE=12 && ninja -C "$folder/$1" && (cd "$folder/$1" && cpack -G DEB)
  } >"$folder/$1/log" 2>&1; then
    tail -n 40 "$folder/$1/log" >&2
    exit 1
  fi
}

package one
package another
first=$(find "$folder/one" -maxdepth 1 -name '*.deb')
second=$(find "$folder/another" -maxdepth 1 -name '*.deb')
sha256sum "$first" "$second"
cmp "$first" "$second"
