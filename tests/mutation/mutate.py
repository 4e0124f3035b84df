#!/usr/bin/env python3
"""Changes the source in small ways, one at a time, and lists the changes that no test notices.

  python3 tests/mutation/mutate.py --layer advice --number 40 --seed 1
  python3 tests/mutation/mutate.py --at src/advice/why.cpp:71       all changes of one line

Works in a copy of the tree (.build/mutation), which it builds and keeps for the next time; the tree itself is only read. Each
change is drawn at random, the same ones for the same seed. Ends with 1 where a suite fails without any change.
"""

import argparse
import random
import shutil
import subprocess
import sys
import time
from collections import Counter
from pathlib import Path

from mutants import mutants_of

ROOT = Path(__file__).resolve().parents[2]
# The suites that hold a layer up, the nearest first: one that survives a suite meets the next.
SUITES = {
    "text": ["text", "weather"],
    "science": ["science", "weather"],
    "weather": ["weather"],
    "parameters": ["model"],
    "records": ["records"],
    "plant": ["model", "advice"],
    "ensemble": ["model", "advice"],
    "advice": ["advice", "report"],
    "report": ["report", "cli"],
}
CHOSEN = ["plant", "ensemble", "advice", "weather"]


class Copy:
    """A copy of the tree with a build of its own."""

    def __init__(self, folder, cmake_options):
        self.source = folder / "source"
        self.build = folder / "build"
        self._take_over()
        # Each file by itself and not fully optimised: a change compiles in seconds.
        options = ["-G", "Ninja", "-DCMAKE_BUILD_TYPE=Release", "-DCMAKE_CXX_FLAGS_RELEASE=-O1",
                   "-DGRAFTCAST_WARNINGS_AS_ERRORS=OFF", "-DCMAKE_UNITY_BUILD=OFF", *cmake_options]
        self._run(["cmake", "-S", self.source, "-B", self.build, *options], check=True)
        self.seconds = {}

    def _take_over(self):
        """What git knows of, as it stands; what has not changed keeps its time."""
        listed = self._git("ls-files", "-z", "--cached", "--others", "--exclude-standard").split("\0")
        names = {name for name in listed if name and (ROOT / name).is_file()}
        for name in names:
            here, there = ROOT / name, self.source / name
            if there.is_file() and there.read_bytes() == here.read_bytes():
                continue
            there.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(here, there)
        for there in self.source.rglob("*"):
            if there.is_file() and str(there.relative_to(self.source)) not in names:
                there.unlink()

    @staticmethod
    def _git(*words):
        return subprocess.run(["git", "-C", ROOT, *words], check=True, capture_output=True, text=True).stdout

    @staticmethod
    def _run(command, check=False, timeout=None):
        done = subprocess.run([str(word) for word in command], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT, text=True, errors="replace", timeout=timeout, check=False)
        if check and done.returncode != 0:
            sys.exit(done.stdout[-3000:])
        return done

    def compiles(self, suite):
        return self._run(["ninja", "-C", self.build, f"{suite}_tests"]).returncode == 0

    def passes(self, suite):
        """Within three times what it needs without a change."""
        program = self.build / "tests" / suite / f"{suite}_tests"
        begun = time.monotonic()
        try:
            done = self._run([program, "--gtest_brief=1", "--gtest_fail_fast"],
                             timeout=30 + 3 * self.seconds.get(suite, 600))
        except subprocess.TimeoutExpired:
            return False
        self.seconds.setdefault(suite, time.monotonic() - begun)
        return done.returncode == 0

    def fate(self, name, mutant, suites):
        """`invalid`, `caught` or `survived`; the file is as before then."""
        path = self.source / name
        text = path.read_text()
        try:
            path.write_text(mutant.applied(text))
            for suite in suites:
                if not self.compiles(suite):
                    return "invalid"
                if not self.passes(suite):
                    return "caught"
            return "survived"
        finally:
            path.write_text(text)


def layer_of(name):
    return Path(name).parts[1]


def sources(copy, layers):
    for layer in layers:
        for folder in (f"src/{layer}", f"include/{layer}"):
            for path in sorted((copy.source / folder).rglob("*.[ch]pp")):
                yield str(path.relative_to(copy.source))


def candidates(copy, asked):
    """(file, mutant) in the order in which they are tried."""
    if asked.at:
        name, line = asked.at.rsplit(":", 1)
        return [(name, mutant) for mutant in mutants_of((copy.source / name).read_text())
                if mutant.line == int(line)]
    found = [(name, mutant) for name in sources(copy, asked.layer or CHOSEN)
             for mutant in mutants_of((copy.source / name).read_text())]
    random.Random(asked.seed).shuffle(found)
    return found


def described(copy, name, mutant):
    text = (copy.source / name).read_text()
    line = text.splitlines()[mutant.line - 1].strip()
    return f"{name}:{mutant.line}: {mutant.old(text).strip()} -> {mutant.new.strip() or 'nothing'}   in  {line}"


def tried(copy, asked):
    """Counts by layer and fate, and the survivors."""
    counts, survivors, valid = Counter(), [], 0
    for name, mutant in candidates(copy, asked):
        if valid >= asked.number:
            break
        fate = copy.fate(name, mutant, SUITES[layer_of(name)])
        counts[layer_of(name), fate] += 1
        if fate == "invalid":
            continue
        valid += 1
        words = described(copy, name, mutant)
        print(f"{fate:8}  {words}", flush=True)
        if fate == "survived":
            survivors.append(words)
    return counts, survivors


def report(counts, survivors):
    print("\n| layer | tried | caught | survived |\n| --- | --- | --- | --- |")
    for layer in sorted({layer for layer, _ in counts}):
        caught, survived = counts[layer, "caught"], counts[layer, "survived"]
        print(f"| {layer} | {caught + survived} | {caught} | {survived} |")
    print("\nsurvivors:" if survivors else "\nno survivors")
    for words in survivors:
        print("  " + words)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--layer", action="append", choices=sorted(SUITES), help=f"default: {', '.join(CHOSEN)}")
    parser.add_argument("--number", type=int, default=40, help="changes that compile (default: 40)")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--at", metavar="FILE:LINE", help="all changes of one line")
    parser.add_argument("cmake", nargs="*", help="after --: options for cmake")
    asked = parser.parse_args()
    copy = Copy(ROOT / ".build" / "mutation", asked.cmake)
    layers = [layer_of(asked.at)] if asked.at else asked.layer or CHOSEN
    for suite in dict.fromkeys(suite for layer in layers for suite in SUITES[layer]):
        if not copy.compiles(suite) or not copy.passes(suite):
            sys.exit(f"the suite {suite} does not pass as it is")
    report(*tried(copy, asked))


if __name__ == "__main__":
    main()
