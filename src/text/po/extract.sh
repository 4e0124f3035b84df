#!/bin/sh
# Takes the sentences out of the source.
#
#   sh src/text/po/extract.sh FILE      the catalogue to write, without any translation
set -eu

written=$(realpath -m -- "$1")
cd "$(dirname -- "$0")/../../.."

header='# Sentences of graftcast as they stand in the source. Written by src/text/po/update.sh, not by hand.
msgid ""
msgstr ""
"MIME-Version: 1.0\\n"
"Content-Type: text/plain; charset=UTF-8\\n"
"Content-Transfer-Encoding: 8bit\\n"
"Plural-Forms: nplurals=2; plural=(n != 1);\\n"
'

# xgettext knows no named arguments in C++, so the flag by which msgfmt compares their names is put in here.
# shellcheck disable=SC2016 # of awk
with_flags='
  BEGIN { RS = ""; ORS = "\n\n" }
  /\n(msgctxt|msgid) / && /[{]/ { sub(/\n(msgctxt|msgid) /, "\n#, python-brace-format&"); }
  { print }'

{
  printf '%b\n' "$header"
  find src include -name '*.[ch]pp' | LC_ALL=C sort |
    xgettext --files-from=- --language=C++ --from-code=UTF-8 \
      --keyword --keyword=tr:1 --keyword=trn:1,2 --keyword=trc:1c,2 --keyword=tr_later:1 \
      --omit-header --sort-output --add-location=file --output=- |
    awk "$with_flags" | sed '$d'
} >"$written"
