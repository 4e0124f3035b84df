#!/bin/sh
# After sentences have changed: writes graftcast.pot anew and brings every language up to it. What is new in a language
# stands there without a translation, what resembles an old sentence with the old one, marked "fuzzy".
set -eu

folder=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
sh "$folder/extract.sh" "$folder/graftcast.pot"
for language in "$folder"/*.po; do
  [ -e "$language" ] || continue
  msgmerge --quiet --update --backup=none --sort-output --add-location=file "$language" "$folder/graftcast.pot"
done
