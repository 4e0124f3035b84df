"""Hours of weather of a place, drawn from a seeded generator: days that hang together, and spells of heat, frost,
dry wind and rain around the day asked about, since that is where answers are decided."""

import math
from dataclasses import dataclass
from datetime import date, datetime, timedelta, timezone

HOUR = timedelta(hours=1)


@dataclass
class Hour:
    begin: datetime  # UTC
    air_c: float
    humidity_pct: float
    wind_m_s: float  # at 2 m
    gust_m_s: float
    sun_w_m2: float
    rain_mm: float
    pressure_kpa: float


@dataclass
class Spell:
    """Days on which the weather is another, by how much."""
    first: date
    days: int
    air_c: float = 0
    dew_c: float = 0
    wind_factor: float = 1
    cloud: float = 0
    rainy: bool = False

    def holds(self, day):
        return 0 <= (day - self.first).days < self.days


@dataclass
class Day:
    mean_c: float
    range_c: float
    dew_c: float
    clearness: float
    wind_m_s: float
    rain_mm: float
    rain_hour: int


def sun_height_sine(place, moment):
    """Sine of the sun's height, without the equation of time: near enough for made weather."""
    of_year = moment.timetuple().tm_yday
    declination = math.radians(-23.44 * math.cos(2 * math.pi * (of_year + 10) / 365.25))
    solar_hour = moment.hour + moment.minute / 60 + 0.5 + place.longitude / 15
    latitude = math.radians(place.latitude)
    return (math.sin(latitude) * math.sin(declination) +
            math.cos(latitude) * math.cos(declination) * math.cos(math.pi / 12 * (solar_hour - 12)))


def usual_mean_c(place, day):
    warmest = 18 if place.is_southern else 201
    return place.mean_c + place.swing_c * math.cos(2 * math.pi * (day.timetuple().tm_yday - warmest) / 365.25)


def spell_of(rng, first):
    kinds = ["heat", "heat", "heat", "cold", "dry wind", "rain"]
    kind = rng.choice(kinds)
    days = rng.randint(2, 5)
    if kind == "heat":
        return Spell(first, days, air_c=rng.uniform(4, 13), dew_c=rng.uniform(-6, 2))
    if kind == "cold":
        return Spell(first, days, air_c=-rng.uniform(4, 12), dew_c=-rng.uniform(3, 8))
    if kind == "dry wind":
        return Spell(first, days, air_c=rng.uniform(0, 4), dew_c=-rng.uniform(5, 12), wind_factor=rng.uniform(1.5, 3))
    return Spell(first, days, air_c=-rng.uniform(0, 3), cloud=0.7, rainy=True)


def spells_around(rng, day):
    """One near the day asked about, and further ones before it."""
    spells = [spell_of(rng, day + timedelta(days=rng.randint(-3, 5)))] if rng.random() < 0.85 else []
    return spells + [spell_of(rng, day - timedelta(days=rng.randint(5, 50))) for _ in range(rng.randint(0, 2))]


class Course:
    """The weather of a place from one day to another, both in it."""

    def __init__(self, rng, place, first, last, asked):
        self._place, self._rng = place, rng
        self._spells = spells_around(rng, asked)
        self._anomaly_c = 0.0
        warmth = rng.uniform(-2, 3)
        self.days = {}
        for number in range((last - first).days + 1):
            day = first + timedelta(days=number)
            self.days[day] = self._day(day, warmth)
        self.hours = [hour for day in self.days for hour in self._hours_of(day)]

    def _day(self, day, warmth_c):
        rng, place = self._rng, self._place
        spells = [spell for spell in self._spells if spell.holds(day)]
        self._anomaly_c = 0.75 * self._anomaly_c + rng.gauss(0, 0.6 if place.is_tropical else 1.7)
        is_rainy = any(spell.rainy for spell in spells) or rng.random() < place.rainy_days
        clearness = rng.uniform(0.15, 0.6) if is_rainy else rng.uniform(0.65, 1.0)
        clearness *= 1 - sum(spell.cloud for spell in spells) / 2
        mean = usual_mean_c(place, day) + warmth_c + self._anomaly_c + sum(spell.air_c for spell in spells)
        spread = place.range_c * (0.4 + 0.7 * clearness)
        dew = mean - spread / 2 - rng.uniform(-1.5, 3) + sum(spell.dew_c for spell in spells)
        wind = rng.uniform(0.5, 2.5) * math.prod(spell.wind_factor for spell in spells)
        rain = rng.expovariate(1 / 6) if is_rainy else 0
        return Day(mean, spread, dew, clearness, wind, rain, rng.randint(0, 23))

    def _hours_of(self, day):
        begin = datetime(day.year, day.month, day.day, tzinfo=timezone.utc)
        return [self._hour(self.days[day], begin + number * HOUR) for number in range(24)]

    def _hour(self, day, begin):
        solar = (begin.hour + 0.5 + self._place.longitude / 15) % 24
        height = max(0.0, sun_height_sine(self._place, begin))
        air = day.mean_c + day.range_c / 2 * math.cos(math.pi / 12 * (solar - 15)) + self._rng.gauss(0, 0.2)
        wind = max(0.1, day.wind_m_s * (0.6 + 0.8 * height) + self._rng.gauss(0, 0.15))
        rain = day.rain_mm / 3 if (begin.hour - day.rain_hour) % 24 < 3 else 0
        return Hour(begin, air, humidity_pct(air, day.dew_c), wind, wind * self._rng.uniform(1.5, 2.6),
                    1361 * 0.75 * height * day.clearness, rain,
                    101.3 * math.exp(-self._place.elevation_m / 8400) + self._rng.gauss(0, 0.05))

    def between(self, begin, end):
        return [hour for hour in self.hours if begin <= hour.begin < end]


def humidity_pct(air_c, dew_c):
    """Magnus; dew points above the air count as saturated."""
    ratio = math.exp(17.62 * dew_c / (243.12 + dew_c) - 17.62 * air_c / (243.12 + air_c))
    return min(100.0, max(4.0, 100 * ratio))


def dew_point_c(air_c, humidity):
    gamma = math.log(humidity / 100) + 17.62 * air_c / (243.12 + air_c)
    return 243.12 * gamma / (17.62 - gamma)


def as_forecast(rng, hours):
    """The same hours as a forecast has them: wrong by more the further ahead."""
    bias_c, bias_wind = rng.gauss(0, 1), rng.uniform(0.7, 1.3)
    told = []
    for number, hour in enumerate(hours):
        lead = min(1.0, number / 120)
        air = hour.air_c + bias_c * (0.3 + lead)
        told.append(Hour(hour.begin, air, min(100.0, max(5.0, hour.humidity_pct - 2 * bias_c * lead)),
                         hour.wind_m_s * bias_wind, hour.gust_m_s * bias_wind, hour.sun_w_m2 * (1 - 0.1 * lead),
                         hour.rain_mm, hour.pressure_kpa))
    return told
