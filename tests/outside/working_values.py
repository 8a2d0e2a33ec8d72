"""What a working shows, read as numbers: in SI, instants as seconds since 1970; and every figure of an answer."""

import re
from collections.abc import Iterator
from datetime import date, datetime
from typing import Any

FOOT, INCH, POUND, PSI = 0.3048, 0.0254, 0.45359237, 6894.757293168361
HOUR, DAY = 3600.0, 86_400.0
UNITS = {
    "ft": FOOT, "in": INCH, "mil": INCH / 1000, "m": 1.0, "mm": 1e-3, "um": 1e-6,
    "ft2": FOOT**2, "in2": INCH**2, "m2": 1.0, "cm2": 1e-4, "mm2": 1e-6,
    "ft3": FOOT**3, "gal": 231 * INCH**3, "L": 1e-3,
    "lb": POUND, "kg": 1.0, "g": 1e-3, "oz": POUND / 16,
    "psi": PSI, "MPa": 1e6,
    "h": HOUR, "min": 60.0, "d": DAY,
    "delta_degF": 5 / 9, "delta_degC": 1.0,
    "lb/ft2": POUND / FOOT**2, "kg/m2": 1.0,
    "ft2/gal": FOOT**2 / (231 * INCH**3), "m2/L": 1e3,
    "ft2/h": FOOT**2 / HOUR, "m2/h": 1 / HOUR,
    "ft/h": FOOT / HOUR, "m/h": 1 / HOUR, "lb/h": POUND / HOUR, "kg/h": 1 / HOUR,
    "lb/1000ft2/24h": POUND / (1000 * FOOT**2 * DAY), "g/m2/24h": 1e-3 / DAY,
    "mix": 1.0, "piece": 1.0, "1": 1.0, "CSP": 1.0, "pH": 1.0, "%": 0.01,
}  # fmt: skip
INSTANT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d")
DATE = re.compile(r"\d{4}-\d\d-\d\d")
OTHER_FIGURES = re.compile(r"-?\d+(\.\d+)?|\d\d:\d\d(:\d\d)?")

Given = dict[str, Any]


def read(shown: Any) -> Any:
    """A shown value: a measure in SI, an instant in seconds, a date as such, and anything else as it is."""
    if isinstance(shown, dict):
        if shown["unit"] in ("degF", "degC"):
            return (shown["value"] + 459.67) * 5 / 9 if shown["unit"] == "degF" else shown["value"] + 273.15
        return float(shown["value"]) * UNITS[shown["unit"]]
    if isinstance(shown, str) and INSTANT.fullmatch(shown):
        return datetime.fromisoformat(shown).timestamp()
    if isinstance(shown, str) and DATE.fullmatch(shown):
        return date.fromisoformat(shown)
    return shown


def given_of(entry: dict[str, Any]) -> Given:
    """What went into an entry, read."""
    return {one["name"]: read(one["value"]) for one in entry["inputs"]}


def numbered(given: Given, pattern: str) -> list[Any]:
    """The values whose names are ``pattern`` with a number for its ``#``, in their order."""
    named = re.compile(re.escape(pattern).replace(r"\#", r"(\d+)"))
    found = [(int(match[1]), value) for name, value in given.items() if (match := named.fullmatch(name))]
    return [value for _, value in sorted(found, key=lambda pair: pair[0])]


def is_figure(shown: Any) -> bool:
    """Whether a value is a number, an instant, a date or an hour of the day."""
    if isinstance(shown, str):
        return any(form.fullmatch(shown) for form in (INSTANT, DATE, OTHER_FIGURES))
    return isinstance(shown, int | float) and not isinstance(shown, bool)


def figures(part: Any, at: str = "") -> Iterator[tuple[str, Any]]:
    """Every figure of an answer and its pointer."""
    if isinstance(part, dict) and set(part) == {"value", "unit"}:
        yield at, part
    elif isinstance(part, dict):
        for name, inner in part.items():
            yield from figures(inner, f"{at}/{name}")
    elif isinstance(part, list):
        for index, inner in enumerate(part):
            yield from figures(inner, f"{at}/{index}")
    elif is_figure(part):
        yield at, part


def at(answer: Any, pointer: str) -> Any:
    """What stands at a pointer; None where nothing does."""
    for key in pointer.split("/")[1:]:
        if isinstance(answer, list):
            answer = answer[int(key)] if int(key) < len(answer) else None
        elif isinstance(answer, dict):
            answer = answer.get(key)
        else:
            return None
    return answer
