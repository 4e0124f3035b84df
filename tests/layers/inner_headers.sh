#!/bin/sh
# A header that stands beside a layer's sources (src/LAYER/X.hpp) is for that layer alone. The compiler would find it from
# above, since it lies beside the layer's include root; so this reads the includes.
#
#   sh tests/layers/inner_headers.sh SOURCE
set -eu
cd "$1/src"
list=$(mktemp)
trap 'rm -f "$list"' EXIT

wrong=0
read_includes=0
for layer in */; do
  layer=${layer%/}
  [ -d "$layer" ] && [ "$layer" != cmake ] || continue
  grep -rhoE '^#include "[^"]+"' --include='*.cpp' --include='*.hpp' "$layer" | sed 's/.*"\(.*\)"/\1/' | sort -u >"$list"
  while read -r header; do
    read_includes=$((read_includes + 1))
    case $header in
      graftcast/*) continue ;;
    esac
    # LAYER/X.hpp of any layer; or the layer's own, beside its sources or made by the build.
    if [ -f "${header%%/*}/$header" ] || [ -n "$(find "$layer" -path "*/$header" -print -quit)" ]; then continue; fi
    if [ -n "$(find . -path "*/$header" -print -quit)" ]; then
      echo "$layer includes $header, which is another layer's own"
      wrong=1
    fi
  done <"$list"
done
[ "$read_includes" -ge 300 ] || { echo "only $read_includes includes read: this test would see nothing"; exit 1; }
exit "$wrong"
