"""What differs between two answers, each place by its path.

`$.grafts[3].risk.p` is a number of the JSON on standard output, `$ line 12` a line of it where it is text; `stderr`,
`exit_code` and `files/site/diary.csv` begin the paths of the rest."""

import json
import math
import re
from dataclasses import dataclass

ABSENT = "(absent)"
EXCERPT = 60
# The id of a new line of the diary is drawn at random: in JSON, in words, and third from last in the line itself.
DRAWN_ID = re.compile(r'''(?<="id": ")[a-z2-7]{12}(?=")|(?<=, id )[a-z2-7]{12}\b|(?<=,)[a-z2-7]{12}(?=,[^,\n]*,[^,\n]*$)''', re.M)


@dataclass(frozen=True)
class Difference:
    path: str
    before: str
    after: str

    def __str__(self):
        return f"{self.path}: {self.before} -> {self.after}"


def excerpt(text, at):
    """A stretch of the text around place `at`, as one line."""
    begin = max(0, at - EXCERPT // 2)
    return ("..." if begin else "") + repr(text[begin:at + EXCERPT])


def texts(path, before, after):
    at = next((k for k, (a, b) in enumerate(zip(before, after)) if a != b), min(len(before), len(after)))
    return Difference(path, excerpt(before, at), excerpt(after, at))


def lines(path, before, after):
    """Each line that differs; where lines were added or taken out, the first one alone."""
    before_lines, after_lines = before.split("\n"), after.split("\n")
    is_shifted = len(before_lines) != len(after_lines)
    if is_shifted:
        yield Difference(f"{path} lines", str(len(before_lines)), str(len(after_lines)))
    for number, (a, b) in enumerate(zip(before_lines, after_lines), 1):
        if a == b:
            continue
        yield texts(f"{path} line {number}", a, b)
        if is_shifted:
            return


def is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def member_path(path, key):
    return f"{path}.{key}" if key.replace("_", "a").replace("-", "a").isalnum() else f"{path}[{json.dumps(key)}]"


def objects(path, before, after, tolerance):
    for key in [*before, *(key for key in after if key not in before)]:
        inner = member_path(path, key)
        if key not in before or key not in after:
            yield Difference(inner, shown(before[key]) if key in before else ABSENT,
                             shown(after[key]) if key in after else ABSENT)
        else:
            yield from values(inner, before[key], after[key], tolerance)


def arrays(path, before, after, tolerance):
    if len(before) != len(after):
        yield Difference(f"{path}.length", str(len(before)), str(len(after)))
    for number, (a, b) in enumerate(zip(before, after)):
        yield from values(f"{path}[{number}]", a, b, tolerance)


def shown(value):
    return excerpt(json.dumps(value, ensure_ascii=False), 0)[1:-1]


def values(path, before, after, tolerance):
    if isinstance(before, dict) and isinstance(after, dict):
        yield from objects(path, before, after, tolerance)
    elif isinstance(before, list) and isinstance(after, list):
        yield from arrays(path, before, after, tolerance)
    elif isinstance(before, str) and isinstance(after, str):
        if before != after:
            yield from lines(path, before, after) if "\n" in before + after else [texts(path, before, after)]
    elif is_number(before) and is_number(after):
        if not math.isclose(before, after, rel_tol=tolerance):
            yield Difference(path, shown(before), shown(after))
    elif type(before) is not type(after) or before != after:
        yield Difference(path, shown(before), shown(after))


def parsed(text):
    try:
        return json.loads(text)
    except ValueError:
        return None


def contents(path, before, after, tolerance):
    """Of two outputs or files: as JSON where both are, else line by line; ids that are drawn count as alike."""
    if before == after:
        return
    before, after = (text if text is None else DRAWN_ID.sub("drawn", text) for text in (before, after))
    if before is None or after is None:
        yield Difference(path, ABSENT if before is None else "(there)", ABSENT if after is None else "(there)")
        return
    a, b = parsed(before), parsed(after)
    if isinstance(a, (dict, list)) and isinstance(b, (dict, list)):
        yield from values(path, a, b, tolerance)
    else:
        yield from lines(path, before, after)


def differences(before, after, tolerance):
    """Between two answers of `answers.py`, in the order in which they matter."""
    if before["exit_code"] != after["exit_code"]:
        yield Difference("exit_code", str(before["exit_code"]), str(after["exit_code"]))
    yield from contents("$", before["stdout"], after["stdout"], tolerance)
    yield from contents("stderr", before["stderr"], after["stderr"], tolerance)
    files_before, files_after = before.get("files", {}), after.get("files", {})
    for name in sorted({*files_before, *files_after}):
        # A file that only one of them has changed stands there as None against its text, or not at all.
        if (name in files_before) != (name in files_after):
            yield Difference(f"files/{name}", "changed" if name in files_before else "as it was",
                             "changed" if name in files_after else "as it was")
        else:
            yield from contents(f"files/{name}", files_before[name], files_after[name], tolerance)
