"""Sources of a made site's weather: logs as they come, forecasts as they were saved."""

from datetime import timedelta

import weather_files
from made_weather import Course, as_forecast

LOG_KINDS = ["hourly"] * 8 + ["foreign"] * 3 + ["daily"] * 3 + ["hourly and years"] * 3 + [
    "coarse", "isd-lite", "short"]
FORECAST_KINDS = ["none"] * 3 + ["table"] * 9 + ["service"] * 3 + ["ensemble"] * 4 + ["two"] * 3 + ["many", "as source"]


def first_day_needed(site):
    grafted = [graft["on"].date() for graft in site.grafts] or [site.asked]
    return min([*grafted, site.asked]) - timedelta(days=site.rng.choice([2, 6, 12, 20]))


def measured(site, course):
    """Half of the logs go on after the moment asked about, for --hindsight."""
    end = site.at_utc + timedelta(hours=site.rng.choice([-30, -3, 0, 24 * 4, 24 * 8, 24 * 13]))
    return course.between(course.hours[0].begin, end)


def hourly_source(site, hours, step_hours=1):
    columns = weather_files.some_columns(site.rng)
    hours = weather_files.with_gaps(site.rng, hours)
    site.files["weather/station.csv"] = weather_files.cf_table(site.rng, hours, columns, step_hours)
    return [{"file": "weather/station.csv"} | ({"stamp": "instant"} if step_hours > 1 else {})]


def foreign_source(site, hours):
    site.files["weather/gate.csv"] = weather_files.foreign_table(hours, site.place.zone)
    return [{"file": "weather/gate.csv", "wind_height_m": 3} | weather_files.FOREIGN_SOURCE]


def daily_source(site, hours, name="weather/days.csv"):
    site.files[name] = weather_files.daily_table(site.rng, hours, site.place.zone)
    return [{"file": name}]


def isd_source(site, hours):
    site.files["weather/archive-2020"] = weather_files.isd_lite(weather_files.with_gaps(site.rng, hours))
    return [{"file": "weather/archive-2020"}]


def log_sources(site, kind, course, first):
    hours = measured(site, course)
    recent = [hour for hour in hours if hour.begin.date() >= first]
    if kind == "hourly and years":
        return hourly_source(site, recent) + daily_source(site, hours, "weather/years.csv")
    if kind == "short":
        return hourly_source(site, [hour for hour in hours if hour.begin.date() > site.asked - timedelta(days=9)])
    if kind == "coarse":
        return hourly_source(site, recent, site.rng.choice([2, 3]))
    of_kind = {"hourly": hourly_source, "foreign": foreign_source, "daily": daily_source, "isd-lite": isd_source}
    return of_kind[kind](site, recent)


def forecast_hours(site, course, made_at, days):
    begin = made_at.replace(minute=0, second=0, microsecond=0)
    return as_forecast(site.rng, course.between(begin, begin + timedelta(days=days)))


def table_forecast(site, course, made_at, days, name):
    site.files[name] = weather_files.cf_table(site.rng, forecast_hours(site, course, made_at, days),
                                              list(weather_files.CF_COLUMNS)[:5])
    return {"file": name, "as": "forecast", "made_at": weather_files.utc_text(made_at), "wind_height_m": 10}


def service_forecast(site, course, made_at, days, members):
    base = forecast_hours(site, course, made_at, days)
    courses = [as_forecast(site.rng, base) for _ in range(members)]
    site.files["weather/answer.json"] = weather_files.open_meteo(base, site.place, courses)
    return {"file": "weather/answer.json", "reader": "open-meteo", "as": "forecast",
            "made_at": weather_files.utc_text(made_at)}


def many_forecasts(site, course, made_at):
    """A short one each morning, so that the site's own errors can be told."""
    return [table_forecast(site, course, made_at - timedelta(days=days), 4, f"weather/told_{days:02d}.csv")
            for days in range(33)]


def forecast_sources(site, kind, course):
    rng = site.rng
    made_at = site.at_utc - timedelta(hours=rng.choice([1, 3, 8, 26]))
    days = rng.choice([3, 5, 7, 9, 10, 10])
    if kind == "none":
        return []
    if kind == "as source":  # never fetched: told so
        return [{"service": "met-norway", "contact": "grower@example.org"}]
    if kind == "service":
        return [service_forecast(site, course, made_at, days, 0)]
    if kind == "ensemble":
        return [service_forecast(site, course, made_at, days, rng.choice([5, 12, 20]))]
    if kind == "many":
        return many_forecasts(site, course, made_at)
    newest = table_forecast(site, course, made_at, days, "weather/forecast.csv")
    if kind == "two":
        return [table_forecast(site, course, made_at - timedelta(days=2), 10, "weather/earlier.csv"), newest]
    return [newest]


def thermometer(site, course):
    """A log kept in a spot, for `spots --fit`: the air, warmer by day."""
    begin = site.at_utc - timedelta(days=12)
    lines = ["time,air_temperature [degC]"]
    for hour in course.between(begin.replace(minute=0), site.at_utc):
        warmer_c = hour.sun_w_m2 / (90 + 40 * hour.wind_m_s)
        lines.append(f"{weather_files.utc_text(hour.begin)},{hour.air_c + warmer_c:.1f}")
    site.files["loggers/thermometer.csv"] = "\n".join(lines) + "\n"


def draw(site):
    """Adds the files; gives the entries of `weather.sources`."""
    kind, forecast_kind = site.rng.choice(LOG_KINDS), site.rng.choice(FORECAST_KINDS)
    first = first_day_needed(site)
    back = {"hourly and years": 800, "daily": site.rng.choice([0, 60, 500])}.get(kind, 0)
    if forecast_kind == "many":
        first = min(first, site.asked - timedelta(days=40))
    course = Course(site.rng, site.place, first - timedelta(days=back), site.asked + timedelta(days=16), site.asked)
    thermometer(site, course)
    sources = log_sources(site, kind, course, first if kind != "daily" else course.hours[0].begin.date())
    extra = weather_files.foreign_table(course.between(site.at_utc - timedelta(days=6), site.at_utc), site.place.zone)
    site.files["loggers/export.csv"] = extra
    return sources + forecast_sources(site, forecast_kind, course)

