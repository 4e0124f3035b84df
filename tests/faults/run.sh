#!/bin/sh
# Every fault at every place, some ten minutes on two idle cores, and the table of what was tried.
#
#   sh tests/faults/run.sh [BUILD]
set -eu
cd "$(dirname -- "$0")/../.."
build=${1:-.build/release}
ninja -C "$build" faults_tests >/dev/null
[ -d /dev/shm ] && export TMPDIR=/dev/shm
GRAFTCAST_ALL_FAULTS=1 "$build/tests/faults/faults_tests" --gtest_brief=1
