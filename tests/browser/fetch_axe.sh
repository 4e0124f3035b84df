#!/bin/sh
# Puts the accessibility checker axe-core (npm) into a folder, once: FOLDER/axe.min.js, for the browser tests to run
# on the page. It is no part of the project. Where it cannot be had, FOLDER/absent.txt says why, and its test is skipped.
#
#   sh tests/browser/fetch_axe.sh FOLDER
set -eu

version=4.14.1
sha256=e6b0ce02b84d892e2e33e403485e7f3d6c29e2be6df65daf44d89ba564139745
folder=$1

[ ! -f "$folder/axe.min.js" ] || exit 0
mkdir -p "$folder"
cd "$folder"

absent() {
  echo "$1" >absent.txt
  exit 0
}

command -v npm >/dev/null || absent "there is no npm here to take axe-core $version from"
timeout 60 npm pack --silent "axe-core@$version" >npm.log 2>&1 || absent "npm could not give axe-core $version: $(tail -n 1 npm.log)"
echo "$sha256  axe-core-$version.tgz" | sha256sum --check --status || absent "axe-core $version is not the file it was"
tar -xzf "axe-core-$version.tgz" --strip-components=1 package/axe.min.js
rm -f "axe-core-$version.tgz" npm.log absent.txt
