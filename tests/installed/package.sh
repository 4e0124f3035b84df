#!/bin/sh
# Makes the Debian package of BUILD, looks into it, unpacks it into a folder of its own and runs the demo from there.
#
#   sh tests/installed/package.sh BUILD
set -eu

build=$(CDPATH='' cd -- "$1" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

fail() {
  printf '%s\n' "$1" >&2
  exit 1
}

cpack -G DEB --config "$build/CPackConfig.cmake" -B "$work" >log 2>&1 || { cat log >&2; exit 1; }
package=$(echo "$work"/graftcast_*.deb)
[ -f "$package" ] || fail "no package: $(ls)"

dpkg-deb -c "$package" >contents
for path in bin/graftcast share/graftcast/models/species.json share/graftcast/models/union.json \
  share/man/man1/graftcast.1 share/man/man1/graftcast-weather-show.1 \
  share/bash-completion/completions/graftcast share/zsh/vendor-completions/_graftcast \
  share/fish/vendor_completions.d/graftcast.fish share/graftcast/sample/site.json \
  share/graftcast/sample/weather/invented_station_hourly.csv share/doc/graftcast/copyright; do
  grep -q " ./usr/$path\$" contents || fail "the package lacks $path"
done
# Headers and static libraries are for who builds on it, not for who runs it.
! grep -E '\.(a|hpp|cmake)$' contents || fail "the package holds parts of the development files"
awk '$2 != "root/root" || substr($1, 8, 3) ~ /w/ { bad = 1; print } END { exit bad }' contents ||
  fail "the package has files that others than root may change"

for field in Package Version Architecture Maintainer Depends Description; do
  [ -n "$(dpkg-deb -f "$package" "$field")" ] || fail "the package has no $field"
done
dpkg-deb -f "$package" Depends | grep -q libical || fail "the package does not ask for its libraries"

dpkg-deb -x "$package" root
env -u GRAFTCAST_MODELS ./root/usr/bin/graftcast demo trial --members 8 >morning 2>notes || { cat notes >&2; exit 1; }
grep -q 'Dry Ford nursery (invented)' morning || fail "the demo has no list: $(cat morning)"
[ -w trial/grafts.csv ] || fail "the copy of the sample site cannot be written to"
! env -u GRAFTCAST_MODELS ./root/usr/bin/graftcast demo trial >morning 2>notes || fail "the demo put itself over a folder"
env -u GRAFTCAST_MODELS ./root/usr/bin/graftcast --version | grep -q "in $work/root/usr/share/graftcast/models" ||
  fail "the program takes its models from elsewhere"
