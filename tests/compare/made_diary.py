"""Diaries with every word: things done and seen, on grafts, batches, stocks and spots, taken back and split."""

from datetime import timedelta

from made_grafts import csv_text

COLUMNS = ["when", "graft", "event", "value", "comment"]
DONE = ["bag-on", "bag-off", "bag-vented", "paper-on", "paper-off", "wrap-slit", "wrap-off", "tip-sealed",
        "headed-back", "suckers-rubbed", "staked", "thinned"]
SEEN_WELL = ["green", "callus", "slips", "flushing", "buds-moving", "leafed-out"]
SEEN_ILL = ["bleeding", "wilted", "shrivelled", "blackened", "mould"]


class Diary:
    """Lines in order of time, each of a minute of its own so that a void means one line."""

    def __init__(self, site):
        self.site, self.rng = site, site.rng
        self.lines = []
        self.taken_minutes = set()

    def moment(self, graft, latest=None):
        """By day, after the grafting and, nearly always, before the moment asked about."""
        end = latest or self.site.at + timedelta(days=6 if self.rng.random() < 0.05 else 0)
        hours = max(1.0, (end - graft["on"]).total_seconds() / 3600)
        moment = graft["on"] + timedelta(hours=self.rng.uniform(0.05, 1) * hours)
        moment = moment.replace(hour=min(20, max(6, moment.hour)), second=0, microsecond=0)
        moment = max(moment, graft["on"])
        while moment in self.taken_minutes:
            moment += timedelta(minutes=1)
        self.taken_minutes.add(moment)
        return moment

    def add(self, moment, graft, event, value="", comment=""):
        self.lines.append({"moment": moment, "when": f"{moment:%Y-%m-%dT%H:%M}", "graft": graft, "event": event,
                           "value": value, "comment": comment})


def add_done(diary, graft):
    rng = diary.rng
    for _ in range(rng.choice([0, 1, 1, 2, 4])):
        word = rng.choice([*DONE, "shade", "watered", "watered", "watered", "moved"])
        value = {"shade": rng.choice([0, 0.3, 0.5, 0.8]), "watered": rng.choice(["", "", 0.5, 2]),
                 "moved": rng.choice(sorted(diary.site.spots))}.get(word, "")
        diary.add(diary.moment(graft), graft["id"], word, value, rng.choice(["", "", "made, \"so\""]))


def add_seen(diary, graft):
    rng = diary.rng
    for _ in range(rng.choice([0, 0, 1, 2])):
        word = rng.choice(SEEN_WELL if rng.random() < 0.65 else SEEN_ILL)
        value = rng.choice(["", rng.randint(0, graft["count"])])
        diary.add(diary.moment(graft), graft["id"], word, value)


def add_outcome(diary, graft, share):
    """Taken, dead or some of each; a sign before the end now and then."""
    rng = diary.rng
    if rng.random() > share or graft["on"] > diary.site.at - timedelta(days=2):
        return
    end = diary.moment(graft)
    taken = rng.choice([0, 0, graft["count"], rng.randint(0, graft["count"])])
    dead = rng.choice([graft["count"] - taken, rng.randint(0, graft["count"] - taken)])
    if dead and rng.random() < 0.5:
        diary.add(diary.moment(graft, end), graft["id"], rng.choice(SEEN_ILL), rng.choice(["", dead]))
    if taken:
        diary.add(end, graft["id"], "taken", taken)
    if dead:
        is_all = dead == graft["count"] and rng.random() < 0.5
        diary.add(diary.moment(graft), graft["id"], "dead", "" if is_all else dead, "brown under the bark")


def add_of_many(diary):
    """Lines on all, on a spot, on a stock and on a range of ids."""
    rng, site = diary.rng, diary.site
    oldest = min(site.grafts, key=lambda graft: graft["on"])
    if rng.random() < 0.3:
        diary.add(diary.moment(oldest), "*", "watered")
    if rng.random() < 0.3:
        diary.add(diary.moment(oldest), f"spot:{rng.choice(sorted(site.spots))}", rng.choice(["watered", "shade"]), 0.6)
    for graft in [graft for graft in site.grafts if graft["stock"]][:2]:
        if rng.random() < 0.4:
            word = rng.choice(["slips", "bleeding", "flushing", "headed-back", "suckers-rubbed"])
            diary.add(diary.moment(graft), f"stock:{graft['stock']}", word)
    in_row = [graft for graft in site.grafts if graft["id"].startswith("R1-") and "." not in graft["id"]]
    if len(in_row) > 1 and rng.random() < 0.6:
        youngest = max(site.grafts, key=lambda graft: graft["on"])
        diary.add(diary.moment(youngest), f"R1-1..{len(in_row)}", rng.choice(["bag-on", "watered"]))


def add_split(diary, graft):
    """Part of a batch becomes a row of its own."""
    part = diary.rng.randint(1, graft["count"] - 1)
    child = dict(graft) | {"id": f"{graft['id']}.1", "count": part}
    graft["count"] -= part
    diary.site.grafts.append(child)
    diary.add(diary.moment(graft), graft["id"], "split", child["id"])


def add_voids(diary):
    rng = diary.rng
    for line in list(diary.lines):
        if line["event"] == "split" or rng.random() > 0.06:
            continue
        value = line["when"] if rng.random() < 0.5 else f"{line['when']} {line['event']}"
        later = max(other["moment"] for other in diary.lines) + timedelta(minutes=1)
        diary.taken_minutes.add(later)
        diary.add(later, line["graft"], "void", value, "a slip")


def draw(site):
    diary = Diary(site)
    share = 0.8 if len(site.grafts) > 10 else site.rng.choice([0.1, 0.5])
    for graft in [graft for graft in site.grafts if graft["on"] < site.at]:
        if graft["count"] > 2 and site.rng.random() < 0.12:
            add_split(diary, graft)
        add_done(diary, graft)
        add_seen(diary, graft)
        add_outcome(diary, graft, share)
    if site.grafts:
        add_of_many(diary)
        diary.lines.sort(key=lambda line: line["moment"])
        add_voids(diary)
    site.diary = diary.lines


def diary_text(site):
    return csv_text(COLUMNS, site.diary)
