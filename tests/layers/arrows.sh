#!/bin/sh
# For each ordered pair of layers: a source of the one includes every header that the other shows. From a layer below
# it must be found, from a layer above it must not.
#
#   sh tests/layers/arrows.sh SOURCE ROOTS CXX        ROOTS: a line a layer, its name and its include roots, lowest first
set -eu

source=$1
roots=$2
compiler=$3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
wrong=0
tried=0

headers_of() { # what layer $1 shows to others
  (cd "$source/src/$1" && find "$1" -name '*.hpp' 2>/dev/null)
  [ ! -d "$source/include/$1" ] || (cd "$source/include/$1" && find graftcast -name '*.hpp')
}

compiles() { # the preprocessor finds header $1 along the roots in "$work/flags"
  printf '#include "%s"\n' "$1" >"$work/try.cpp"
  # shellcheck disable=SC2046 # a list of options
  "$compiler" -std=c++20 $(cat "$work/flags") -E -o "$work/out" "$work/try.cpp" 2>"$work/why"
}

below=yes
while read -r layer layer_roots; do
  : >"$work/flags"
  for root in $layer_roots; do
    case $root in
      /usr/include) ;; # the compiler looks there anyway, in an order of its own
      "$source"/*) printf -- '-I%s ' "$root" >>"$work/flags" ;;
      *) printf -- '-isystem %s ' "$root" >>"$work/flags" ;;
    esac
  done
  below=yes
  while read -r other other_roots; do
    : "$other_roots"
    if [ "$other" = "$layer" ]; then
      below=no
      continue
    fi
    # One header of a layer below shows that its root is there; every header of a layer above must be out of reach.
    list=$(headers_of "$other" | sort)
    [ -n "$list" ] || { echo "$other shows no header: this test would try nothing"; exit 1; }
    [ "$below" = no ] || list=$(echo "$list" | head -n 1)
    for header in $list; do
      tried=$((tried + 1))
      if [ "$below" = yes ]; then
        compiles "$header" || { echo "$layer does not see $header of $other below it: $(head -n 2 "$work/why")"; wrong=1; }
      elif compiles "$header"; then
        echo "$layer can include $header of $other above it"
        wrong=1
      elif ! grep -q "fatal error: .*$header" "$work/why"; then
        echo "$layer: $header of $other fails for another reason: $(head -n 2 "$work/why")"
        wrong=1
      fi
    done
  done <"$roots"
done <"$roots"
echo "$tried includes tried"
[ "$tried" -ge 90 ] || { echo "too few"; exit 1; }
exit "$wrong"
