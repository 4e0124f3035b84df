"""Rows of grafts.csv and wood.csv: every species, method, state, wrap and cover, alone and in batches."""

import csv
import io
from datetime import timedelta

TEMPERATE = ["apple", "pear", "quince", "peach", "apricot", "plum", "cherry", "walnut", "pecan", "hazel", "chestnut",
             "grape", "kiwifruit", "persimmon", "fig", "olive", "temperate-deciduous"]
WARM = ["citrus", "avocado", "mango", "macadamia", "lychee", "subtropical-evergreen", "fig", "olive", "persimmon"]
METHODS = ["cleft", "whip-and-tongue", "splice", "saddle", "side-veneer", "side-stub", "bark", "chip", "t-bud", "patch",
           "approach"]
STATES = ["dormant", "leafless-evergreen", "leafy"]
WRAPS = ["none", "film", "film-bud-out", "wax", "film-waxed-tip", "paint"]
COVERS = ["none", "clear-bag", "vented-bag", "paper-over-bag", "foil-over-bag", "paper-bag"]
STORES = ["fridge", "shed", "water", "none"]
NAMES = ["Millrace", "Old Bridge", "Red Pith", "Reine d'été, tardive", "Grey \"Goat\"", "S-2", "Blaue Höhe",
         "Two Crop"]

COLUMNS = ["id", "grafted_on", "scion", "species", "method", "stock", "stock_species", "position", "replaces",
           "scion_state", "diameter_mm", "length_mm", "buds", "tip", "cambium_match", "spot", "wrap", "cover", "shade",
           "pot_litres", "count", "priority", "grafter", "comment", "own column"]
WOOD_COLUMNS = ["id", "scion", "species", "cut_on", "stored", "wrap", "count", "comment"]


def maybe(rng, share, value):
    return value if rng.random() < share else ""


def species_of(site):
    rng = site.rng
    if site.has_own_models and rng.random() < 0.3:
        return rng.choice(["medlar", "apple", "citrus"])
    is_warm = site.place.is_tropical or abs(site.place.latitude) < 38
    return rng.choice(WARM if rng.random() < (0.7 if is_warm else 0.15) else TEMPERATE)


def grafted_at(site):
    """Mostly within the last weeks; now and then months ago, or in the days to come."""
    rng = site.rng
    age_days = rng.choice([rng.uniform(0.05, 12), rng.uniform(0.05, 12), rng.uniform(5, 35), rng.uniform(20, 75)])
    if rng.random() < 0.03:
        age_days = -rng.uniform(1, 5)
    return (site.at - timedelta(days=age_days)).replace(minute=rng.choice([0, 30]), second=0, microsecond=0)


def sizes(rng):
    return {"diameter_mm": maybe(rng, 0.4, round(rng.uniform(4, 14), 1)),
            "length_mm": maybe(rng, 0.4, rng.randint(30, 150)), "buds": maybe(rng, 0.4, rng.randint(1, 5)),
            "tip": maybe(rng, 0.5, rng.choice(["sealed", "sealed", "open"])),
            "cambium_match": maybe(rng, 0.4, rng.choice(["both", "one-side", round(rng.uniform(0.2, 1), 2)]))}


def setting(site):
    rng = site.rng
    covers = [*COVERS, "sock"] if site.has_own_models else COVERS
    return {"spot": maybe(rng, 0.85, rng.choice(sorted(site.spots))), "wrap": maybe(rng, 0.7, rng.choice(WRAPS)),
            "cover": maybe(rng, 0.6, rng.choice(covers)),
            "shade": maybe(rng, 0.25, round(rng.uniform(0, 0.95), 2)),
            "pot_litres": maybe(rng, 0.45, rng.choice([0.5, 1.5, 3, 5, 10, 40]))}


def drawn_graft(site, graft_id):
    rng = site.rng
    species = species_of(site)
    methods = [*METHODS, "tongue-bud"] if site.has_own_models else METHODS
    on = grafted_at(site)
    return {"id": graft_id, "on": on, "grafted_on": f"{on:%Y-%m-%dT%H:%M}" if rng.random() < 0.5 else f"{on:%Y-%m-%d}",
            "scion": maybe(rng, 0.8, rng.choice(NAMES)), "species": species, "method": rng.choice(methods),
            "stock": maybe(rng, 0.7, f"{rng.choice(['row', 'pot', 'old tree'])} {rng.randint(1, 4)}"),
            "stock_species": maybe(rng, 0.3, species), "position": maybe(rng, 0.2, "north limb"),
            "scion_state": maybe(rng, 0.5, rng.choice(STATES)),
            "count": rng.choice([1, 1, 2, 4, 6, 12, 40]), "priority": maybe(rng, 0.3, rng.choice([0.5, 2, 5])),
            "grafter": maybe(rng, 0.5, rng.choice("NT")), "comment": maybe(rng, 0.3, "made, \"so\""),
            "own column": maybe(rng, 0.2, "kept")} | sizes(rng) | setting(site)


def replace_some(site):
    """Later attempts on the stock of an earlier one."""
    for graft in site.grafts:
        earlier = [other for other in site.grafts if other["on"].date() < graft["on"].date() and other["stock"]]
        if earlier and site.rng.random() < 0.2:
            old = site.rng.choice(earlier)
            graft |= {"replaces": old["id"], "stock": old["stock"], "stock_species": old["stock_species"]}


def draw_wood(site):
    """Wood in store, some of which grafts were made of."""
    rng = site.rng
    for number in range(1, rng.randint(2, 5)):
        made_of = rng.choice(site.grafts) if rng.random() < 0.7 else None
        last = made_of["on"] if made_of else site.at
        cut_on = last - timedelta(days=rng.choice([1, 5, 30, 90]))
        site.wood.append({"id": f"S{number}", "scion": rng.choice(NAMES), "cut_on": f"{cut_on:%Y-%m-%d}",
                          "species": made_of["species"] if made_of else maybe(rng, 0.7, rng.choice(TEMPERATE)),
                          "stored": rng.choice(STORES), "wrap": maybe(rng, 0.7, rng.choice(WRAPS)),
                          "count": maybe(rng, 0.7, rng.randint(0, 9)), "comment": maybe(rng, 0.3, "use first")})
        if made_of and made_of["scion"] not in {row["id"] for row in site.wood}:
            made_of["scion"] = f"S{number}"


def draw(site):
    """A bench of a few, or a nursery whose results are enough to learn from."""
    rng = site.rng
    rows = rng.choice([1, 2, 3, 4, 5, 7]) if rng.random() < 0.85 else rng.randint(12, 22)
    if rng.random() < 0.02:
        rows = 0
    form = rng.choice(["R1-{}", "A{}", "ü{}"])
    ids = [form.format(number) for number in range(1, rows + 1)]
    site.grafts = [drawn_graft(site, graft_id) for graft_id in ids]
    replace_some(site)
    if site.grafts and rng.random() < 0.4:
        draw_wood(site)


def csv_text(columns, rows):
    text = io.StringIO()
    writer = csv.DictWriter(text, columns, restval="", extrasaction="ignore", lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def ledger_text(site):
    return csv_text(COLUMNS if site.rng.random() < 0.7 else COLUMNS[:-1], site.grafts)


def wood_text(site):
    return csv_text(WOOD_COLUMNS, site.wood)
