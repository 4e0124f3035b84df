"""Reads calendars by a parser of their own (Debian's python3-icalendar) and prints what they hold as JSON.

read_calendar.py FILE...    Ends with 77 where the parser is not installed.
"""

import json
import sys
import warnings

warnings.simplefilter("error")
try:
    from icalendar import Calendar
except ImportError:
    sys.exit(77)


def moment(value):
    """A time in UTC, or a day, as ISO 8601."""
    return value.dt.isoformat().replace("+00:00", "Z")


def event_of(component):
    event = {key: str(component[key]) for key in ("UID", "SUMMARY", "DESCRIPTION", "STATUS")}
    event |= {key: moment(component[key]) for key in ("DTSTAMP", "DTSTART", "DTEND")}
    event["LOCATION"] = str(component.get("LOCATION", ""))
    event["SEQUENCE"] = int(component["SEQUENCE"])
    event["alarms"] = [moment(alarm["TRIGGER"]) for alarm in component.walk("VALARM")]
    return event


def read(file):
    with open(file, "rb") as stream:
        calendar = Calendar.from_ical(stream.read())
    return {
        "name": str(calendar["NAME"]),
        "cautions": str(calendar["DESCRIPTION"]),
        "complaints": [str(fault) for part in calendar.walk() for fault in part.errors],
        "events": [event_of(component) for component in calendar.walk("VEVENT")],
    }


json.dump([read(file) for file in sys.argv[1:]], sys.stdout)
