"""Input that must be refused, or read all the same, in words that do not change."""

import json
import re
import shlex


def replaced(name, pattern, text):
    """The file with the first match of `pattern` replaced; None where there is no match."""
    def changes(files):
        found = re.search(pattern, files.get(name, ""))
        if not found:
            return None
        return {name: files[name][:found.start()] + text + files[name][found.end():]}
    return changes


def of_log(change):
    """The first log of the site, changed."""
    def changes(files):
        logs = sorted(name for name in files if name.startswith("weather/") and name.endswith(".csv"))
        return {logs[0]: change(files[logs[0]])} if logs else None
    return changes


def every_table(change):
    return lambda files: {name: change(text) for name, text in files.items() if name.endswith((".csv", "site.json"))}


def written(name, value):
    return lambda files: {name: json.dumps(value)}


def taken_out(key):
    def changes(files):
        site = json.loads(files["site.json"])
        del site[key]
        return {"site.json": json.dumps(site, indent=1)}
    return changes


SPOILS = [
    replaced("site.json", r'"latitude": [-\d.]+', '"latitude": 95'),
    replaced("site.json", r'"longitude": [-\d.]+', '"longitude": "east"'),
    replaced("site.json", r'"time_zone": "[^"]+"', '"time_zone": "Europe/Madird"'),
    replaced("site.json", r'"elevation_m"', '"elevaton_m"'),
    replaced("site.json", r'"name"', '"format": 1, "name"'),
    replaced("site.json", r'"format": 1', '"format": 2'),
    replaced("site.json", r'"sun": [\d.]+', '"sun": 1.9'),
    replaced("site.json", r'"wind": [\d.]+', '"wind": -1'),
    replaced("site.json", r'"file": "weather/', '"file": "../'),
    replaced("site.json", r'"made_at": "[^"]+"', '"made_at": "yesterday"'),
    replaced("site.json", r'"as": "forecast"', '"as": "forcast"'),
    replaced("site.json", r'\}', ''),
    taken_out("weather"), taken_out("spots"), taken_out("time_zone"),
    lambda files: {"site.json": files["site.json"][:120]},
    lambda files: {"site.json": None},
    lambda files: {"site.json": ""},
    replaced("grafts.csv", r",20\d\d-\d\d-\d\d", ",2025-02-30"),
    replaced("grafts.csv", r",(cleft|chip|bark|splice|saddle|patch|t-bud|approach),", ",cletf,"),
    replaced("grafts.csv", r",(film|wax|paint|film-bud-out|film-waxed-tip),", ",filn,"),
    replaced("grafts.csv", r"^id,", "id,id,"),
    replaced("grafts.csv", r",species,", ",sort,"),
    replaced("grafts.csv", r"\n[^\n]+\n", "\nE1,2025-06\n"),
    replaced("grafts.csv", r"\Z", "A1,2020-02-02,\"open quote\n"),
    lambda files: {"grafts.csv": ""},
    lambda files: {"grafts.csv": None},
    lambda files: {"grafts.csv": files["grafts.csv"] + files["grafts.csv"].split("\n", 1)[1]},
    replaced("diary.csv", r",(watered|moved|bag-on|green|callus),", ",gren,"),
    replaced("diary.csv", r",(watered|green|callus|taken|dead),\d*", ",dead,999"),
    replaced("diary.csv", r"\n20\d\d", "\n2001"),
    replaced("diary.csv", r"\Z", "2030-01-01,Z9,green,,\n"),
    replaced("diary.csv", r"\Z", "2024-01-01,*,void,1999-01-01T00:00,\n"),
    replaced("diary.csv", r"\Z", "2024-01-01,*,shade,1.5,\n"),
    lambda files: {"diary.csv": None},
    lambda files: {"wood.csv": "id,cut_on,stored\nS1,2025-01-01,cellar\n"},
    lambda files: {"wood.csv": "id,cut_on,stored\nS1,2025-01-01,fridge\nS1,2025-01-01,fridge\n"},
    written("learned.json", {"format": 1, "fitted_at": "x", "outcomes": -3, "species": {}, "methods": {}}),
    written("models/own.json",
            {"format": 1, "species": [{"name": "apple", "numbers": {"bridge_days": {"value": 99}}}]}),
    written("models/own.json", {"format": 1, "species": [{"name": "medlar", "like": "quinze"}]}),
    of_log(lambda text: ""), of_log(lambda text: text.split("\n", 1)[0] + "\n"),
    of_log(lambda text: text.replace("[degC]", "[degX]", 1)),
    of_log(lambda text: text.replace("[W m-2]", "[lux]", 1)),
    of_log(lambda text: re.sub(r"(\n[^\n,]+),", r"\1,warm,", text, count=1)),
    of_log(lambda text: re.sub(r"(\n[^\n]+\n[^,;\n]+[,;])[^,;\n]+", r"\g<1>99.0", text, count=1)),
    of_log(lambda text: text[:len(text) // 2]), of_log(lambda text: text[:-9]),
    of_log(lambda text: "\n".join(text.split("\n")[::-1])),
    every_table(lambda text: text.replace("\n", "\r\n")), every_table(lambda text: "\ufeff" + text),
    every_table(lambda text: text.rstrip("\n")),
]
ASKED_OF_THEM = [["morning", "--json"], ["morning", "--json"], ["morning"], ["since", "--json"],
                 ["weather", "show", "--json"]]


def spoiled_file(ask):
    """A command about the site with a file of it spoiled."""
    changes = None
    while not changes:
        changes = ask.rng.choice(SPOILS)(ask.site.files)
    words = ask.rng.choice(ASKED_OF_THEM)
    command = " ".join(word for word in words if word != "--json")
    return ask.question(command, *words[len(command.split()):], changes=changes)


MISUSES = [shlex.split(line) for line in """
mornign
morning --horizn 3
morning --horizon 15
morning --members 0
morning --at 2025-06-31
morning --units metrik
morning --color blue
morning --seed
morning --help
since --method sin
since Z9
since --stock nowhere
why Z9
why
when --species aple
when --days 99
when --spot nowhere
when --season --species fig
when --help
learn --by moon
spots --fit nowhere.csv
spots --fit site/loggers/thermometer.csv
labels Z9
labels --size 9
labels --from 999
models show aple
models burn
graft --method chip
graft --species fig --method chp
graft --species fig --method chip --spot nowhere
split Z9 1
split A1 none
note Z9 green
note * shade
note * void 1999-01-01T00:00
weather add nowhere.csv
weather show --from soon
weather fetch nws --dry-run
weather
page --minutes -1
calendar --to site/site.json
demo site
""".strip().split("\n")]


def misuse(ask):
    words = ask.rng.choice(MISUSES)
    length = 2 if words[0] == "weather" else 1
    return ask.question(" ".join(words[:length]), *words[length:], *ask.maybe(0.5, "--json"), writes=True)
