#!/bin/sh
# Installs the Debian packages that graftcast is built from, those that are missing only.
#
#   sh sample_weather/packages.sh [FURTHER PACKAGE...]
#
# Says nothing when nothing is missing. Needs root or sudo only when something is.
set -eu

set -- cmake g++ ninja-build libcurl4-openssl-dev nlohmann-json3-dev libhowardhinnant-date-dev libeigen3-dev \
  libboost-dev libcli11-dev libfmt-dev libfccp-dev zlib1g-dev libical-dev tzdata gettext "$@"

fail() {
  printf 'graftcast: %s\n' "$1" >&2
  exit 1
}

# Prints those of the packages named that are not installed, each with a blank before it.
missing_of() {
  states=$(dpkg-query -W -f=' ${Package}=${db:Status-Status} ' "$@" 2>/dev/null) || true
  for package in "$@"; do
    case $states in
      *" $package=installed "*) ;;
      *) printf ' %s' "$package" ;;
    esac
  done
}

as_root() {
  if [ "$(id -u)" -eq 0 ]; then "$@"; else sudo "$@"; fi
}

install_packages() {
  as_root apt-get -q update && as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y --no-install-recommends install "$@"
}

if ! command -v apt-get >/dev/null || ! command -v dpkg-query >/dev/null; then
  echo "graftcast: this is no Debian, so these packages are taken to be there: $*" >&2
  exit 0
fi

missing=$(missing_of "$@")
[ -n "$missing" ] || exit 0

if [ "$(id -u)" -ne 0 ]; then
  command -v sudo >/dev/null ||
    fail "packages are missing and there is no sudo; install them as root:  apt-get install$missing"
  # The password is asked for here, where the question can be seen.
  sudo -v || fail "packages are missing and sudo was refused; install them as root:  apt-get install$missing"
fi

log=$(mktemp)
trap 'rm -f "$log"' EXIT
echo "graftcast: installing$missing" >&2
# shellcheck disable=SC2086 # a list of names
if ! install_packages $missing >"$log" 2>&1 </dev/null; then
  { grep '^[WE]:' "$log" || cat "$log"; } | tail -n 8 >&2
  fail "apt-get could not install the packages, see above; is there a network, and do the package sources answer?"
fi

missing=$(missing_of "$@")
[ -z "$missing" ] || fail "still missing after apt-get:$missing"
