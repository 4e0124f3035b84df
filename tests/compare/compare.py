"""Compares every answer of two builds of the program: the sample site's, and those of random sites.

    compare.py --before PROGRAM --after PROGRAM          both are asked
    compare.py --before PROGRAM --record FOLDER          the answers are kept
    compare.py --after PROGRAM --against FOLDER          ... and compared with later

Exit code 0 when no answer differs, 1 when one does, 2 for wrong usage. The Python standard library is enough."""

import argparse
import re
import sys
import time
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path

import records
import variety
from answers import Program, answers_of, lay_out
from case import Case, Question
from differences import differences
from made_site import made_site
from questions import questions_about
from sample_site import sample_case

SHOWN_OF_AN_ANSWER = 5
SHOWN_OF_A_SITE = 12
CLOCK = r"^\$\.as_of$"  # of an answer as of now, which `weather fetch` alone gives


@dataclass
class Task:
    """One case, as a worker gets it."""
    name: str
    options: argparse.Namespace


@dataclass
class Result:
    name: str
    compared: int = 0
    differing: int = 0
    report: list = field(default_factory=list)
    counts: Counter = field(default_factory=Counter)


def case_named(name, options):
    if name == "sample":
        return sample_case()
    number = int(name.removeprefix("site-"))
    site = made_site(options.seed, number)
    return Case(name, site.files, questions_about(site, options.seed, number), options.members)


def is_asked(question, options):
    return not options.only or any(question.command.startswith(command) for command in options.only)


def program(options, which):
    return Program(vars(options)[which], vars(options)[f"{which}_models"], vars(options)[f"{which}_threads"])


def case_and_answers_before(name, options):
    """Kept ones, or those of the program; only of questions that are asked."""
    if options.against:
        case, answers = records.kept(Path(options.against), name)
        chosen = [k for k, question in enumerate(case.questions) if is_asked(question, options)]
        case.questions = [case.questions[k] for k in chosen]
        return case, [answers[k] for k in chosen] + answers[-1:]
    case = case_named(name, options)
    case.questions = [question for question in case.questions if is_asked(question, options)]
    return case, answers_of(program(options, "before"), case)


def differing_of(question, before, after, options):
    ignored = [*options.ignore_path, *([] if question.at else [CLOCK])]
    found = [difference for difference in differences(before, after, options.tolerance)
             if not any(re.search(pattern, difference.path) for pattern in ignored)]
    if not found:
        return []
    more = [f"    and {len(found) - SHOWN_OF_AN_ANSWER} more"] if len(found) > SHOWN_OF_AN_ANSWER else []
    return [f"  {question.shown()}", *(f"    {difference}" for difference in found[:SHOWN_OF_AN_ANSWER]), *more]


def compare(result, questions, before, after, options):
    for question, one, other in zip(questions, before, after, strict=True):
        result.compared += 1
        lines = differing_of(question, one, other, options)
        result.differing += bool(lines)
        if lines and result.differing <= SHOWN_OF_A_SITE:
            result.report += lines


def work(task):
    options = task.options
    case, before = case_and_answers_before(task.name, options)
    if options.lay_out:
        lay_out(Path(options.lay_out) / case.name, case.files)
    files_afterwards = Question("files", ["(the site's files, after questions that only read)"])
    result = Result(task.name, counts=variety.tally(case.questions, before))
    if options.record:
        records.keep(Path(options.record), case, before)
    if options.after:
        after = answers_of(program(options, "after"), case)
        compare(result, [*case.questions, files_afterwards], before, after, options)
    return result


def arguments():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)

    def add(name, metavar, meaning, **more):
        parser.add_argument(name, metavar=metavar, help=meaning, **more)

    for which in ("before", "after"):
        add(f"--{which}", "PROGRAM", f"the build {which} the change")
        add(f"--{which}-models", "FOLDER", "its models (default: those it finds by itself)", default="")
        add(f"--{which}-threads", "N", "its --threads (default: 1)", type=int, default=1)
    add("--record", "FOLDER", "keep the answers of --before")
    add("--against", "FOLDER", "compare with kept answers in place of those of --before")
    add("--sites", "N", "random sites (default: 200)", type=int, default=200)
    add("--seed", "N", "of the random sites (default: 1)", type=int, default=1)
    add("--members", "N", "of the ensemble, for random sites (default: 16)", type=int, default=16)
    add("--jobs", "N", "sites at a time (default: 2)", type=int, default=2)
    add("--tolerance", "X", "relative, of numbers in JSON (default: 1e-9)", type=float, default=1e-9)
    add("--ignore-path", "REGEX", "paths that may differ, such as '^\\$\\.warnings'; may be repeated", **several())
    add("--only", "COMMAND", "ask this command alone, such as 'weather show'; may be repeated", **several())
    add("--just", "NAME", "this case alone: sample, site-017; may be repeated", **several())
    add("--lay-out", "FOLDER", "also write the sites there, to ask them by hand")
    return parser


def several():
    return {"action": "append", "default": []}


def checked(parser, words):
    options = parser.parse_args(words)
    if bool(options.before) == bool(options.against):
        parser.error("give one of --before and --against")
    if bool(options.after) == bool(options.record):
        parser.error("give one of --after, to compare, and --record, to keep answers")
    for path in (options.before, options.after):
        if path and not Path(path).is_file():
            parser.error(f"there is no program {path}")
    options.before, options.after = (path and str(Path(path).resolve()) for path in (options.before, options.after))
    return options


def names(options):
    every = ["sample", *(f"site-{number:03d}" for number in range(options.sites))]
    if options.against:
        every = [name for name in records.kept_names(Path(options.against)) if name == "sample" or name in every]
    return [name for name in every if not options.just or name in options.just]


def results(options):
    tasks = [Task(name, options) for name in names(options)]
    with ProcessPoolExecutor(options.jobs) as pool:
        for result in pool.map(work, tasks):
            if result.report:
                title = f"{result.name}: {result.differing} of {result.compared} answers differ"
                print(title, *result.report, sep="\n", flush=True)
            yield result


def run(options):
    if options.record:
        Path(options.record).mkdir(parents=True, exist_ok=True)
    begun = time.monotonic()
    done = list(results(options))
    counts = sum((result.counts for result in done), Counter())
    print(*variety.summary(counts), sep="\n")
    compared, differing = sum(result.compared for result in done), sum(result.differing for result in done)
    asked = f"{len(done)} sites in {time.monotonic() - begun:.0f} s"
    print(f"{compared} answers compared, {differing} differ; {asked}" if options.after else f"answers kept of {asked}")
    return 2 if not done else 1 if differing else 0


if __name__ == "__main__":
    sys.exit(run(checked(arguments(), sys.argv[1:])))
