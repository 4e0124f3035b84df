"""Hours of weather as the files that a site's weather comes in."""

import json
from datetime import timedelta, timezone
from zoneinfo import ZoneInfo

from made_weather import dew_point_c

CF_COLUMNS = {
    "relative_humidity [%]": lambda hour: f"{hour.humidity_pct:.0f}",
    "wind_speed [m s-1]": lambda hour: f"{hour.wind_m_s:.1f}",
    "surface_downwelling_shortwave_flux_in_air [W m-2]": lambda hour: f"{hour.sun_w_m2:.0f}",
    "precipitation_amount [kg m-2]": lambda hour: f"{hour.rain_mm:.1f}",
    "wind_speed_of_gust [m s-1]": lambda hour: f"{hour.gust_m_s:.1f}",
    "air_pressure [hPa]": lambda hour: f"{10 * hour.pressure_kpa:.1f}",
}


def some_columns(rng):
    """Every column now and then lacks; what lacks most is pressure and gusts."""
    kept = [0.85, 0.88, 0.8, 0.85, 0.6, 0.2]
    return [name for name, share in zip(CF_COLUMNS, kept) if rng.random() < share]


def with_gaps(rng, hours):
    """Holes as logs have them: an hour or two often, half a day now and then, days rarely."""
    lost = set()
    for length, chance in ((1, 0.5), (3, 0.4), (8, 0.25), (30, 0.12), (70, 0.05)):
        if rng.random() < chance and len(hours) > 4 * length:
            begin = rng.randrange(len(hours) - length)
            lost.update(range(begin, begin + length))
    return [hour for number, hour in enumerate(hours) if number not in lost]


def utc_text(moment):
    return moment.astimezone(timezone.utc).strftime("%Y-%m-%dT%H:%MZ")


def cf_table(rng, hours, columns, step_hours=1):
    """A table that names itself. Single cells are empty here and there."""
    lines = [",".join(["time", "air_temperature [degC]", *columns])]
    for hour in hours[::step_hours]:
        cells = [CF_COLUMNS[name](hour) for name in columns]
        if cells and rng.random() < 0.004:
            cells[rng.randrange(len(cells))] = ""
        lines.append(",".join([utc_text(hour.begin), f"{hour.air_c:.1f}", *cells]))
    return "\n".join(lines) + "\n"


def foreign_table(hours, zone):
    """An export with headers, units and times of its own; a row tells of the hour that ends then."""
    lines = ["When;Temp F;Hum;Wind mph;Rain in;Sun"]
    for hour in hours:
        local = (hour.begin + timedelta(hours=1)).astimezone(ZoneInfo(zone))
        lines.append(f"{local:%d/%m/%Y %H:%M};{hour.air_c * 1.8 + 32:.1f};{hour.humidity_pct:.0f};"
                     f"{hour.wind_m_s / 0.44704:.1f};{hour.rain_mm / 25.4:.2f};{hour.sun_w_m2:.0f}")
    return "\n".join(lines) + "\n"


FOREIGN_SOURCE = {
    "reader": "table", "stamp": "end",
    "columns": {"time": {"column": "When", "format": "%d/%m/%Y %H:%M"},
                "air_temperature": {"column": "Temp F", "unit": "degF", "missing": ["-99.9"]},
                "relative_humidity": {"column": "Hum", "unit": "%"},
                "wind_speed": {"column": "Wind mph", "unit": "mph"},
                "precipitation_amount": {"column": "Rain in", "unit": "inch"},
                "surface_downwelling_shortwave_flux_in_air": {"column": "Sun", "unit": "W m-2"}}}


def days_of(hours, zone):
    """Whole days on the clock of the place."""
    days = {}
    for hour in hours:
        days.setdefault(hour.begin.astimezone(ZoneInfo(zone)).date(), []).append(hour)
    return {day: of_day for day, of_day in days.items() if len(of_day) >= 22}


DAILY_COLUMNS = {
    "relative_humidity_mean [%]": lambda day: f"{sum(h.humidity_pct for h in day) / len(day):.0f}",
    "wind_speed_mean [m s-1]": lambda day: f"{sum(h.wind_m_s for h in day) / len(day):.1f}",
    "surface_downwelling_shortwave_flux_in_air_sum [MJ m-2]": lambda day: f"{sum(h.sun_w_m2 for h in day) * 36e-4:.1f}",
    "precipitation_sum [mm]": lambda day: f"{sum(h.rain_mm for h in day):.1f}",
}


def daily_table(rng, hours, zone):
    columns = [name for name in DAILY_COLUMNS if rng.random() < 0.7]
    lines = [",".join(["date", "air_temperature_min [degC]", "air_temperature_max [degC]", *columns])]
    for day, of_day in days_of(hours, zone).items():
        if rng.random() < 0.01:
            continue
        extremes = [min(hour.air_c for hour in of_day), max(hour.air_c for hour in of_day)]
        lines.append(",".join([f"{day}", *(f"{value:.1f}" for value in extremes),
                               *(DAILY_COLUMNS[name](of_day) for name in columns)]))
    return "\n".join(lines) + "\n"


def isd_lite(hours):
    """The public archive's columns of fixed width, tenths of units, -9999 for no value."""
    lines = []
    for hour in hours:
        rain = -9999 if hour.rain_mm == 0 else round(10 * hour.rain_mm)
        lines.append(f"{hour.begin:%Y %m %d %H}{10 * hour.air_c:6.0f}"
                     f"{10 * dew_point_c(hour.air_c, hour.humidity_pct):6.0f} 10132   240{10 * hour.wind_m_s:6.0f}"
                     f"     4{rain:6d} -9999")
    return "\n".join(lines) + "\n"


def open_meteo(hours, place, members=()):
    """A service's saved answer: one course, or with `members` (each a list of hours) an ensemble's."""
    units = {"temperature_2m": "°C", "relative_humidity_2m": "%", "wind_speed_10m": "km/h",
             "shortwave_radiation": "W/m²", "precipitation": "mm"}
    values = {"temperature_2m": lambda h: round(h.air_c, 1), "relative_humidity_2m": lambda h: round(h.humidity_pct),
              "wind_speed_10m": lambda h: round(4.8 * h.wind_m_s, 1),
              "shortwave_radiation": lambda h: round(h.sun_w_m2, 1), "precipitation": lambda h: round(h.rain_mm, 2)}
    hourly = {"time": [int(hour.begin.timestamp()) for hour in hours]}
    hourly_units = {"time": "unixtime"}
    for name, value in values.items():
        for number, course in enumerate([hours, *members]):
            column = name if number == 0 else f"{name}_member{number:02d}"
            hourly[column] = [value(hour) for hour in course]
            hourly_units[column] = units[name]
    return json.dumps({"latitude": place.latitude, "longitude": place.longitude, "generationtime_ms": 1.1,
                       "utc_offset_seconds": 0, "timezone": "GMT", "timezone_abbreviation": "GMT",
                       "elevation": place.elevation_m, "hourly_units": hourly_units, "hourly": hourly})
