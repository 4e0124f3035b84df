#!/bin/sh
# Takes the sentences out of the source, and out of the models.
#
#   sh src/text/po/extract.sh FILE      the catalogue to write, without any translation
set -eu

written=$(realpath -m -- "$1")
cd "$(dirname -- "$0")/../../.."

# Of the C++ files listed on standard input. The header tells xgettext's own output to be UTF-8; ours replaces it.
sentences_of() {
  xgettext --files-from=- --directory="$work" --directory=. --language=C++ --from-code=UTF-8 \
    --keyword --keyword=tr:1 --keyword=trn:1,2 --keyword=trc:1c,2 --keyword=tr_later:1 \
    --sort-output --add-location=file --output=- 2>"$work/warnings" || { cat "$work/warnings" >&2; exit 1; }
}

# What models/*.json tell a person: titles, stages, warnings. Sources and units are names.
words_of_models() {
  grep -ho '"[a-z_]*": "\([^"\\]\|\\.\)*"' models/*.json | grep -v '^"\(source\|unit\)"' |
    sed -n -e 's/^"\(title\|stage\)": \(.*\)$/tr_later(\2);/p' -e t -e 's/^"[a-z_]*": \(".* .*"\)$/tr_later(\1);/p'
}

# xgettext knows no named arguments in C++, so the flag by which msgfmt compares their names is put in here.
with_flags() {
  awk 'BEGIN { RS = ""; ORS = "\n\n" }
    /(^|\n)(msgctxt|msgid) / && /[{]/ { sub(/(msgctxt|msgid) /, "#, python-brace-format\n&") }
    { print }' | sed '$d'
}

printf '%b\n' '# Sentences of graftcast as they stand in the source. Written by src/text/po/update.sh, not by hand.
msgid ""
msgstr ""
"MIME-Version: 1.0\\n"
"Content-Type: text/plain; charset=UTF-8\\n"
"Content-Transfer-Encoding: 8bit\\n"
"Plural-Forms: nplurals=2; plural=(n != 1);\\n"
' >"$written"
work=$(mktemp -d)
trap 'rm -r "$work"' EXIT
words_of_models >"$work/models.cpp"
{ find src include -name '*.[ch]pp' | LC_ALL=C sort && echo models.cpp; } | sentences_of >"$work/all.po"
# The first paragraph is xgettext's header.
sed '1,/^$/d' "$work/all.po" | with_flags >>"$written"
