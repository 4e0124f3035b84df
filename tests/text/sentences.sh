#!/bin/sh
# Whether src/text/po/graftcast.pot holds the sentences of the source, and every language translates nothing else.
#
#   sh tests/text/sentences.sh WORK_FOLDER
set -eu

po=$(CDPATH='' cd -- "$(dirname -- "$0")/../../src/text/po" && pwd)
work=$1/sentences
mkdir -p "$work"

# In one order, and without the places.
plain() {
  msgcat --no-location --sort-output --no-wrap -o - "$1" | grep -v '^#'
}

sh "$po/extract.sh" "$work/fresh.pot"
plain "$work/fresh.pot" >"$work/fresh"
plain "$po/graftcast.pot" >"$work/kept"
if ! diff "$work/kept" "$work/fresh" >&2; then
  echo "src/text/po/graftcast.pot is not of this source: sh src/text/po/update.sh brings it up to date" >&2
  exit 1
fi
for language in "$po"/*.po; do
  [ -e "$language" ] || continue
  msgfmt --check-format --check-header -o /dev/null "$language"
done
