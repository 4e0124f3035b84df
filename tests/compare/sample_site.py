"""The sample site and the models, asked with every command as the manual has it."""

import shlex
from pathlib import Path

from case import Case, Question

SAMPLE = Path(__file__).resolve().parents[2] / "sample_weather" / "site"
MORNING = "2025-06-09T06:30"

READING = """
morning --json
morning --json --hindsight
morning --json --horizon 3 --minutes 30
morning --json --seed 7
morning
morning --units us --width 100
morning --alert 0.25 --brief
morning --alert 0.25 --json
since --json
since AV1 --days
since --stock 'citrus 13-20' --json
since --json --method sine --method double-triangle --cutoff vertical --base 5 --upper 30
when --json
when --json --species citrus --method chip --spot south-bench
when --season --json
when --season --species citrus --method chip --spot south-bench
why --all-lost --json
why --all-lost
why A1 --json
why H1 --json
why H1 --teach
why C3 --days --units us
learn --try --json
learn --season --by method --json
learn --try --bases --by grafter --by spot
spots --json
spots
spots --fit site/loggers/bench_thermometer.csv --spot south-bench --sensor black --json
calendar --json
calendar
labels --json
labels AV1 C2 --each --size 50x25 --from 4
page
page --json --losses
page --units us --no-weeks
models --json
models
models show apple --json
models show chip --json
models show clear-bag --json
models show avocado
models check --json
weather show --json
weather show --hourly --json
weather show --quality --json
weather show --quality
weather show --skill --json
weather show --all --units us
weather add site/loggers/gate_export.csv --propose --json
"""
WRITING = """
note C2 bag-on --json
note * watered --json
split C1 4 --json
graft --species apple --method cleft --scion Millrace --spot field --count 12 --json
graft --species citrus --method chip --wrap film-bud-out --on 2025-06-08
learn --json
spots --fit site/loggers/bench_thermometer.csv --spot south-bench --sensor black --write --json
calendar --to site/grafts.ics --json
labels --to site/labels.html --json
page --to site/page.html --json
weather add site/loggers/gate_export.csv --stamp end --column time=When --column 'air_temperature=Temp (F)::degF' --json
demo trial --json
"""
OTHER_MORNINGS = ["2025-05-05T06:30", "2025-05-28T12:00", "2025-06-13T06:30", "2025-07-20T06:30"]


def question(line, at=MORNING, writes=False):
    words = shlex.split(line)
    length = 2 if words[0] == "weather" else 1
    return Question(" ".join(words[:length]), words, at, writes=writes)


def sample_case():
    paths = [path for path in sorted(SAMPLE.rglob("*")) if path.is_file()]
    files = {str(path.relative_to(SAMPLE)): path.read_text("utf-8") for path in paths}
    typed = Question("note", ["note", "--json"], MORNING, stdin="A1 green 36\nC1 watered 1\n", writes=True)
    questions = [question(line) for line in READING.split("\n") if line]
    questions += [question(line, at) for at in OTHER_MORNINGS
                  for line in ("morning --json", "since --json", "why --all-lost --json")]
    questions += [question(line, writes=True) for line in WRITING.split("\n") if line] + [typed]
    return Case("sample", files, questions)
