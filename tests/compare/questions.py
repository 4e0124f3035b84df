"""What is asked about a made site. A row of `ASKED` says of how many sites one has the question, and how it is put."""

import json
from datetime import timedelta
from random import Random

import bad_input
from case import Question
from made_grafts import COVERS, METHODS, TEMPERATE, WARM, WRAPS
from made_site import CUTOFFS, DEGREE_DAY_METHODS

JSON = ["--json"]


class Asking:
    """One site's questions: what they are drawn with."""

    def __init__(self, site, seed, number):
        self.site = site
        self.rng = Random(f"{seed}/{number}/questions")

    def question(self, command, *words, at=None, **more):
        """`words` beyond those of the command itself; None among them is left out."""
        arguments = [*command.split(), *(str(word) for word in words if word is not None)]
        return Question(command, arguments, at or self.site.at_text, **more)

    def graft(self):
        return self.rng.choice(self.site.grafts)["id"] if self.site.grafts else "A1"

    def spot(self):
        return self.rng.choice(sorted(self.site.spots))

    def moment(self, days):
        return (self.site.at + timedelta(days=days)).strftime("%Y-%m-%dT%H:%M")

    def maybe(self, share, *words):
        return words if self.rng.random() < share else ()


def morning_of_choice(ask):
    words = [*ask.maybe(0.6, "--horizon", ask.rng.randint(1, 14)),
             *ask.maybe(0.5, "--minutes", ask.rng.choice([5, 30, 90])),
             *ask.maybe(0.4, "--seed", ask.rng.randint(2, 99))]
    return ask.question("morning", *JSON, *words)


def morning_of_another_day(ask):
    moment = ask.moment(ask.rng.choice([-9, -4, -2, 2, 5]))
    return ask.question("morning", *JSON, *ask.maybe(0.5, "--hindsight"), at=moment)


def morning_for_cron(ask):
    return ask.question("morning", "--alert", ask.rng.choice([0.02, 0.25, 0.6]), *ask.maybe(0.6, "--brief"),
                        *ask.maybe(0.3, *JSON))


def morning_as_text(ask):
    return ask.question("morning", *ask.maybe(0.6, "--units", "us"), *ask.maybe(0.3, "--ascii"),
                        *ask.maybe(0.3, "--color", "always"),
                        *ask.maybe(0.5, "--width", ask.rng.choice([60, 100, 130])))


def since_with_rules(ask):
    rng = ask.rng
    return ask.question("since", *JSON, *ask.maybe(0.8, "--method", rng.choice(DEGREE_DAY_METHODS)),
                        *ask.maybe(0.4, "--method", rng.choice(DEGREE_DAY_METHODS)),
                        *ask.maybe(0.5, "--base", rng.randint(0, 10)),
                        *ask.maybe(0.5, "--upper", rng.randint(20, 35)),
                        *ask.maybe(0.5, "--cutoff", rng.choice(CUTOFFS)))


def since_of_stock(ask):
    stocks = sorted({graft["stock"] for graft in ask.site.grafts if graft["stock"]})
    return ask.question("since", "--stock", ask.rng.choice(stocks), *ask.maybe(0.7, *JSON)) if stocks else None


def when_of_choice(ask):
    rng = ask.rng
    return ask.question("when", *JSON, "--species", rng.choice(TEMPERATE + WARM), "--method", rng.choice(METHODS),
                        "--days", rng.randint(2, 14), *ask.maybe(0.4, "--wrap", rng.choice(WRAPS)),
                        *ask.maybe(0.5, "--cover", rng.choice(COVERS)), *ask.maybe(0.5, "--spot", ask.spot()),
                        *ask.maybe(0.4, "--shade", rng.choice([0.3, 0.7])),
                        *ask.maybe(0.4, "--pot", rng.choice([1, 5, 20])))


def season_of_choice(ask):
    rng = ask.rng
    return ask.question("when", "--season", "--species", rng.choice(TEMPERATE + WARM), "--method", rng.choice(METHODS),
                        *ask.maybe(0.4, "--spot", ask.spot()), *ask.maybe(0.7, *JSON))


def why_lost(ask):
    lost = [line["graft"] for line in ask.site.diary if line["event"] == "dead"]
    return ask.question("why", *JSON, ask.rng.choice(lost)) if lost else None


def learn_by(ask):
    groups = ask.rng.sample(["species", "method", "spot", "grafter"], 2)
    return ask.question("learn", *ask.maybe(0.7, *JSON), "--try", *ask.maybe(0.3, "--bases"),
                        *ask.maybe(0.5, "--season"), "--by", groups[0], "--by", groups[1])


def spots_fitted(ask):
    in_the_open = [name for name, spot in ask.site.spots.items() if "climate" not in spot]
    spot = ask.rng.choice(in_the_open) if in_the_open else ask.spot()
    return ask.question("spots", *ask.maybe(0.7, *JSON), "--fit", "site/loggers/thermometer.csv", "--spot", spot,
                        *ask.maybe(0.6, "--sensor", "black"), *ask.maybe(0.3, "--diameter", 10),
                        *ask.maybe(0.5, "--write"), writes=True)


def page_in_us_units(ask):
    return ask.question("page", "--units", "us", "--no-weeks", *ask.maybe(0.5, "--minutes", 30))


def labels_of_choice(ask):
    return ask.question("labels", ask.graft(), *ask.maybe(0.5, "--each"), *ask.maybe(0.5, "--size", "50x25"),
                        *ask.maybe(0.5, "--from", 4), *ask.maybe(0.5, "--page", "letter"),
                        *ask.maybe(0.4, "--copies", 2))


def models_shown(ask):
    return ask.question("models", *JSON, "show", ask.rng.choice(TEMPERATE + METHODS + COVERS))


def weather_by_hour(ask):
    return ask.question("weather show", *JSON, "--hourly", "--from", ask.moment(-4)[:10])


def weather_added(ask):
    map_of_columns = ["--stamp", "end", "--column", "time=When::%d/%m/%Y %H:%M", "--column",
                      "air_temperature=Temp F::degF"]
    return ask.question("weather add", *JSON, "site/loggers/export.csv", *map_of_columns, writes=True)


def note_as_words(ask):
    words = [[ask.graft(), "watered", 1.5], [ask.graft(), "bag-on"], [ask.graft(), "dead"], ["*", "watered"],
             [ask.graft(), "shade", 0.5, "with a remark"], [ask.graft(), "moved", ask.spot()],
             [f"spot:{ask.spot()}", "paper-on"], [ask.moment(-1), ask.graft(), "green", 1],
             [ask.graft(), "gren"]]
    words += [[line["graft"], "void", line["when"]] for line in ask.site.diary[:2]]
    return ask.question("note", *JSON, *ask.rng.choice(words), writes=True)


def notes_typed(ask):
    text = f"{ask.graft()} green 1\n# a remark\n\n* watered\n{ask.moment(-1)} {ask.graft()} wilted # at noon\n"
    return ask.question("note", *ask.maybe(0.7, *JSON), stdin=text, writes=True)


def grafts_added(ask):
    rng = ask.rng
    return ask.question("graft", *JSON, "--species", rng.choice(TEMPERATE + WARM), "--method", rng.choice(METHODS),
                        *ask.maybe(0.4, "--count", 5), *ask.maybe(0.5, "--spot", ask.spot()),
                        *ask.maybe(0.4, "--wrap", rng.choice(WRAPS)),
                        *ask.maybe(0.4, "--on", ask.moment(-2)),
                        *ask.maybe(0.3, "--id", rng.choice(["N1", "N1", ask.graft()])),
                        *ask.maybe(0.4, "--stock", "row 1"), *ask.maybe(0.2, "--replaces", ask.graft()), writes=True)


def site_begun(ask):
    place = ask.site.place
    return ask.question("new", *JSON, "another", "--latitude", place.latitude, "--longitude", place.longitude,
                        "--elevation", place.elevation_m, "--time-zone", place.zone,
                        *ask.maybe(0.5, "--spot", "bench,sun=0.7,movable"),
                        *ask.maybe(0.5, "--supply", "paper=20"), writes=True)


def since_as_text(ask):
    return ask.question("since", ask.graft(), "--days", *ask.maybe(0.5, "--units", "us"))


def why_of_any(ask):
    return ask.question("why", *JSON, ask.graft(), *ask.maybe(0.3, "--hindsight"))


def why_taught(ask):
    return ask.question("why", ask.graft(), ask.rng.choice(["--teach", "--days"]), *ask.maybe(0.4, "--units", "us"))


def batch_split(ask):
    return ask.question("split", *JSON, ask.graft(), ask.rng.choice([1, 1, 1, 2, 5]), writes=True)


def services_asked(ask):
    """What would be asked of services, as of now; of ones that keep nothing yet."""
    site = json.loads(ask.site.files["site.json"])
    contact = {"contact": "grower@example.org"}
    site["weather"]["sources"] = [{"service": name} | contact for name in ("met-norway", "nws", "open-meteo-ensemble")]
    question = ask.question("weather fetch", *JSON, "--dry-run", changes={"site.json": json.dumps(site)})
    question.at = ""
    return question


def plain(command, *words, **more):
    return lambda ask: ask.question(command, *words, **more)


# One site in how many, and the question. `when` and the page cost most.
ASKED = [
    (1, plain("morning", *JSON)), (3, plain("morning", *JSON, "--hindsight")), (2, morning_of_choice),
    (2, morning_of_another_day), (4, morning_for_cron), (3, morning_as_text),
    (1, plain("since", *JSON)), (3, since_with_rules), (4, since_of_stock), (5, since_as_text),
    (2, plain("when", *JSON)), (2, when_of_choice), (6, plain("when", "--units", "us", "--days", 5)),
    (4, plain("when", "--season", *JSON)), (4, season_of_choice),
    (1, why_lost), (1, why_of_any), (2, plain("why", *JSON, "--all-lost")), (6, plain("why", "--all-lost")),
    (4, why_taught),
    (3, plain("learn", *JSON, writes=True)), (4, learn_by), (6, plain("learn", *JSON, "--forget", writes=True)),
    (4, plain("spots", *JSON)), (6, plain("spots", "--units", "us")), (3, spots_fitted),
    (3, plain("calendar", *JSON)), (5, plain("calendar")),
    (6, plain("calendar", *JSON, "--to", "site/grafts.ics", writes=True)),
    (4, plain("labels", *JSON)), (5, labels_of_choice),
    (2, plain("page")), (5, plain("page", *JSON, "--losses")), (6, page_in_us_units),
    (6, plain("page", *JSON, "--no-weeks", "--to", "site/page.html", writes=True)),
    (5, plain("models", *JSON)), (4, models_shown), (6, plain("models", *JSON, "check")),
    (6, plain("models", "show", "apple")),
    (2, plain("weather show", *JSON)), (4, weather_by_hour), (3, plain("weather show", *JSON, "--quality")),
    (4, plain("weather show", *JSON, "--skill")), (5, plain("weather show", "--units", "us")),
    (6, plain("weather show", *JSON, "--all")), (4, weather_added),
    (5, plain("weather add", "site/loggers/export.csv", "--propose", *JSON)), (6, services_asked),
    (2, note_as_words), (3, notes_typed), (2, grafts_added), (3, batch_split), (6, site_begun),
    (2, bad_input.misuse), (1, bad_input.spoiled_file), (2, bad_input.spoiled_file),
]


def questions_about(site, seed, number):
    ask = Asking(site, seed, number)
    drawn = [put(ask) for place, (one_in, put) in enumerate(ASKED) if (number + place) % one_in == 0]
    return [question for question in drawn if question is not None]
