"""A made site: where it is, when it is asked about, its spots, supplies and sources of weather, and its files."""

import json
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta, timezone
from random import Random
from zoneinfo import ZoneInfo

import made_diary
import made_grafts
import made_sources
from places import PLACES, Place

SUPPLIES = ["clear-bag", "vented-bag", "paper", "foil", "paper-bag", "shade-cloth"]
WORK = [*SUPPLIES, "open-bag", "water", "move", "protect"]
DEGREE_DAY_METHODS = ["average", "average-floored", "triangle", "double-triangle", "sine", "double-sine", "hourly"]
CUTOFFS = ["none", "horizontal", "intermediate", "vertical"]


@dataclass
class MadeSite:
    """What the parts of a site are drawn with, and what they became."""
    rng: Random
    place: Place
    asked: date           # the morning asked about
    at: datetime          # its moment, on the site's clock, without offset
    spots: dict = field(default_factory=dict)
    grafts: list = field(default_factory=list)
    wood: list = field(default_factory=list)
    diary: list = field(default_factory=list)
    files: dict = field(default_factory=dict)
    has_own_models: bool = False

    @property
    def at_utc(self):
        return self.at.replace(tzinfo=ZoneInfo(self.place.zone)).astimezone(timezone.utc)

    @property
    def at_text(self):
        return self.at.strftime("%Y-%m-%dT%H:%M")


def asked_day(rng, place):
    """In the months in which grafts are at stake; in the tropics any."""
    year = rng.randint(2018, 2026)
    if place.is_tropical:
        return date(year, 1, 1) + timedelta(days=rng.randrange(365))
    of_year = int(rng.triangular(45, 285, 145))
    return date(year, 1, 1) + timedelta(days=of_year + (182 if place.is_southern else 0))


def begun(seed, number):
    """Places take turns, so that every one is met; all else is drawn."""
    rng = Random(f"{seed}/{number}")
    place = PLACES[(number + number // len(PLACES)) % len(PLACES)]
    day = asked_day(rng, place)
    hour, minute = rng.choice([(6, 30), (6, 30), (5, 0), (8, 15), (12, 0), (19, 45)])
    return MadeSite(rng, place, day, datetime(day.year, day.month, day.day, hour, minute))


def horizon(rng):
    azimuths = sorted(rng.sample(range(0, 360, 15), rng.randint(2, 6)))
    return [[azimuth, rng.randint(0, 50)] for azimuth in azimuths]


def drawn_spot(rng):
    if rng.random() < 0.12:
        return {"climate": {"air_temperature_c": rng.randint(4, 30), "relative_humidity": rng.randint(50, 97)}}
    spot = {"sun": round(rng.choice([rng.uniform(0.5, 1), rng.uniform(0.03, 0.6)]), 2),
            "wind": round(rng.uniform(0.05, 1), 2), "rain": rng.random() < 0.7, "movable": rng.random() < 0.5}
    if rng.random() < 0.2:
        spot["sun_from"] = rng.randint(6, 11)
    if rng.random() < 0.2:
        spot["sun_to"] = rng.randint(12, 18)
    if rng.random() < 0.2:
        spot["horizon"] = horizon(rng)
    for key in ("sun", "wind", "rain", "movable"):
        if rng.random() < 0.08:
            del spot[key]
    return spot


def drawn_spots(rng):
    names = ["open", "south-bench", "lath house", "shed", "north wall", "tunnel"]
    return {name: drawn_spot(rng) for name in rng.sample(names, rng.randint(1, 5))}


def some(rng, names, value, share=0.6):
    return {name: value() for name in names if rng.random() < share}


def degree_days(rng):
    settings = {"method": rng.choice(DEGREE_DAY_METHODS), "base_c": rng.randint(2, 12),
                "upper_c": rng.randint(22, 35), "cutoff": rng.choice(CUTOFFS)}
    return {key: value for key, value in settings.items() if rng.random() < 0.75}


def site_json(site, number, sources):
    rng, place = site.rng, site.place
    entry = {"format": 1, "name": f"Made site {number}", "latitude": round(place.latitude + rng.uniform(-0.4, 0.4), 3),
             "longitude": round(place.longitude + rng.uniform(-0.4, 0.4), 3), "elevation_m": place.elevation_m,
             "time_zone": place.zone, "spots": site.spots}
    if rng.random() < 0.75:
        entry["supplies"] = some(rng, SUPPLIES, lambda: rng.choice([0, 2, 5, 12, 40]))
    if rng.random() < 0.6:
        entry["minutes"] = some(rng, WORK, lambda: rng.choice([0.5, 1, 2, 3, 6, 10]))
    if rng.random() < 0.3:
        entry["costs"] = some(rng, ["stock_week", "look", "graft"], lambda: round(rng.uniform(0, 0.3), 3))
    if rng.random() < 0.4:
        entry["degree_days"] = degree_days(rng)
    if rng.random() < 0.5:
        entry["shade_cloth_share"] = rng.choice([0.3, 0.5, 0.7, 0.9])
    entry["x-remark"] = "made"
    entry["weather"] = {"sources": sources}
    return json.dumps(entry, indent=1, ensure_ascii=False) + "\n"


def shifts(rng):
    shift = {name: {"mean": round(rng.gauss(0, sd), 4), "sd": round(rng.uniform(0.05, sd), 4)}
             for name, sd in (("pace", 0.15), ("drying", 0.25), ("failure", 0.5))}
    return shift | {"outcomes": rng.randint(1, 90)}


def learned_json(site):
    species = sorted({graft["species"] for graft in site.grafts})
    methods = sorted({graft["method"] for graft in site.grafts})
    return json.dumps({"format": 1, "x-about": "made", "fitted_at": "2017-11-30T12:00:00Z", "outcomes": 120,
                       "species": {name: shifts(site.rng) for name in species},
                       "methods": {name: shifts(site.rng) for name in methods}}, indent=1) + "\n"


def own_models_json(rng):
    """A number of one's own for a known species and a known method, and a species, method and cover that are new."""
    own = "own bench, made"
    return json.dumps({"format": 1, "species": [
        {"name": "apple", "numbers": {"bridge_days": {"value": rng.randint(8, 16), "source": own}}},
        {"name": "citrus", "numbers": {"bud_push_degree_days": {"value": rng.randint(340, 420), "source": own}}},
        {"name": "medlar", "title": "Medlar", "like": "quince",
         "numbers": {"bridge_days": {"value": rng.randint(10, 16)}}}],
        "methods": [
            {"name": "chip", "numbers": {"rate_factor": {"value": round(rng.uniform(0.9, 1.1), 2), "source": own}}},
            {"name": "tongue-bud", "title": "Tongued bud", "like": "chip"}],
        "covers": [{"name": "sock", "title": "Paper sock", "like": "paper-bag",
                    "numbers": {"light_passed": {"value": 0.3}}}]}, indent=1) + "\n"


def made_site(seed, number):
    """Site `number` of `seed`: always the same one."""
    site = begun(seed, number)
    site.spots = drawn_spots(site.rng)
    site.has_own_models = site.rng.random() < 0.15
    made_grafts.draw(site)
    made_diary.draw(site)
    site.files["grafts.csv"] = made_grafts.ledger_text(site)
    site.files["diary.csv"] = made_diary.diary_text(site)
    if site.wood:
        site.files["wood.csv"] = made_grafts.wood_text(site)
    sources = made_sources.draw(site)
    site.files["site.json"] = site_json(site, number, sources)
    if site.rng.random() < 0.2:
        site.files["learned.json"] = learned_json(site)
    if site.has_own_models:
        site.files["models/own.json"] = own_models_json(site.rng)
    return site
