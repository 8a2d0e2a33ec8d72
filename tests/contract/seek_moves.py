"""Changes of a job that may make it dearer: more of everything, and whatever makes a search go on for long."""

from __future__ import annotations

import copy
import math
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from random import Random
from typing import Any

from tests.contract.mangling import VALUES

from gaugerake.catalogue.store.demo import demo_catalogue

Job = dict[str, Any]
DAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
SYSTEMS = list(demo_catalogue().systems.values())
SKUS = [pack.sku for product in demo_catalogue().products.values() for pack in product.packs]
ZONES = ["UTC", "America/Chicago", "Pacific/Apia", "Antarctica/Troll"]
LONGEST_TEXT = "é漢😀Ⅷ" * 16


def _count(chance: Random, most: int) -> int:
    """From one to the most, the ends as likely as all between."""
    return chance.choice([1, 2, most, most - 1, max(1, most // 20), chance.randint(1, most)])


def rooms(job: Job, chance: Random) -> None:
    """Many rooms of one kind, no two alike."""
    model = chance.choice(job.get("rooms") or [{"shape": {"measured": {"area": "30 m2"}}}])
    count = _count(chance, chance.choice([20, 100, 500, 2000]))
    job["rooms"] = [copy.deepcopy(model) for _ in range(count)]
    if chance.random() < 0.6:
        least, most = sorted((chance.uniform(1, 40), chance.uniform(1, 40)))
        for room in job["rooms"]:
            room["shape"] = {
                "rectangle": {"length": f"{chance.uniform(least, most):.2f} ft", "width": f"{least:.2f} ft"}
            }


def thicknesses(job: Job, chance: Random) -> None:
    """A thickness of its own in each room, within what the system takes or not."""
    span = next((one.thickness for one in SYSTEMS if one.code == job.get("system")), None)
    low_m, high_m = (span.low, span.high) if span else (0.001, 0.1)
    for room in job.get("rooms", []):
        room["thickness"] = f"{chance.uniform(low_m, high_m) * 1000:.4f} mm"


def things(job: Job, chance: Random) -> None:
    """All that may stand in a room, as much as may be."""
    room, count = chance.choice(job.get("rooms") or [{}]), _count(chance, 200)
    room["shape"] = {"rectangle": {"length": "100 m", "width": "100 m"}}
    grid = [[f"{2 * (at % 48) + 0.5:.2f} m", f"{2 * (at // 48) + chance.random():.2f} m"] for at in range(2 * count)]
    room["cutouts"] = [{"rectangle": {"length": "90 cm", "width": "80 cm"}, "at": at} for at in grid[:count]]
    room["drains"] = [{"round": {"diameter": "50 cm"}, "at": at} for at in grid[count:]]
    if chance.random() < 0.5:
        room["cutouts"] = [{"circle": {"diameter": "90 cm"}, "at": one["at"]} for one in room["cutouts"]]


def lines(job: Job, chance: Random) -> None:
    """Joints that cross, terminations, cracks and spalls."""
    room, count = chance.choice(job.get("rooms") or [{}]), _count(chance, 500)
    room["shape"] = {"rectangle": {"length": "100 m", "width": "100 m"}}
    filled = {"width": "6 mm", "depth": "12 mm"}
    kinds = ["contraction", "construction", "moving"]
    for name in chance.sample(["joints", "terminations", "cracks"], chance.randint(1, 3)):
        ends = [
            [["0 m", f"{at / 5 + 0.1:.2f} m"], ["100 m", f"{at / 5 + 0.15:.2f} m"]]
            if at % 2
            else [[f"{at / 5 + 0.1:.2f} m", "0 m"], [f"{at / 5 + 0.1:.2f} m", "100 m"]]
            for at in range(count)
        ]
        room[name] = [{"line": line} if chance.random() < 0.9 else {"length": "3 m"} for line in ends]
        for one in room[name] if name == "joints" else ():
            one |= {"kind": chance.choice(kinds), **filled}
    if chance.random() < 0.5:
        room["spalls"] = [{"area": "1 m2", "depth": "5 mm"}] * count


def outlines(job: Job, chance: Random) -> None:
    """Outlines of the most corners: stars, combs, or crossing everywhere."""
    kind, corners = chance.randrange(4), chance.choice([8, 50, 99, 100])
    for index, room in enumerate(job.get("rooms", [])):
        turns = 2 * math.pi / corners * (chance.randint(2, corners // 2) if kind == 1 else 1)
        points = []
        for at in range(corners):
            reach = 20 + index * 0.01 + (4 * (at % 2) if kind == 2 else 0)
            points.append([round(reach * math.cos(turns * at), 2), round(reach * math.sin(turns * at), 2)])
        if kind == 3:
            points = [[chance.randint(0, 99), chance.randint(0, 99)] for _ in range(corners)]
        room["shape"] = {"polygon": {"points": points, "unit": chance.choice(["m", "ft"])}}


def shifts(job: Job, chance: Random) -> None:
    """Many short shifts, few, or none; days closed."""
    work = job.setdefault("work", {})
    work.pop("shifts", None)
    work.pop("round_the_clock", None)
    count = chance.randint(0, 8)
    if not count:
        work["round_the_clock"] = True
        return
    step, days = 1440 // count, chance.choice([DAYS, DAYS[:5], ["mon"], chance.sample(DAYS, 3)])
    lasts = min(chance.choice([1, 5, 20, 45, 90, 480, 720]), step - 1)
    begins = [index * step for index in range(count)]
    work["shifts"] = [{"days": days, "from": _clock(at), "to": _clock(at + lasts)} for at in begins]
    if chance.random() < 0.2:
        first = datetime(2027, 1, 1, tzinfo=UTC)
        work["closed"] = [f"{first + timedelta(days=2 * index):%Y-%m-%d}" for index in range(_count(chance, 1000))]


def _clock(minute: int) -> str:
    return f"{minute // 60 % 24:02d}:{minute % 60:02d}"


def temperatures(job: Job, chance: Random) -> None:
    """A steady floor, a wave, or a long log; cold, hot, or about a limit."""
    low, span = chance.choice([20, 30, 33, 47, 50, 55, 62, 70, 85, 100]), chance.choice([0.1, 2, 10, 25, 45, 90])
    kind, work = chance.randrange(4), job.setdefault("work", {})
    if kind == 0:
        work["temperatures"] = {"steady": f"{low} degF"}
    elif kind < 3:
        work["temperatures"] = {"daily": {"low": f"{low} degF", "high": f"{low + span} degF"}}
    else:
        begun, step = datetime(2027, 1, 1, tzinfo=UTC), chance.choice([1, 10, 60, 240])
        count = _count(chance, 3000)
        work["temperatures"] = {
            "readings": [
                {
                    "at": f"{begun + timedelta(minutes=step * at):%Y-%m-%dT%H:%M}",
                    "temperature": f"{chance.uniform(low, low + span):.1f} degF",
                }
                for at in range(count)
            ]
        }
    if chance.random() < 0.5:
        work["material_temperature"] = f"{chance.choice([45, 60, 70, 85, 95])} degF"


def times(job: Job, chance: Random) -> None:
    """When the work begins, and by when traffic must be back: in a few days or a year."""
    work = job.setdefault("work", {})
    work["zone"] = chance.choice(ZONES)
    start = datetime(2027, 1, 1, tzinfo=UTC) + timedelta(hours=chance.randint(0, 9000))
    work["start"] = f"{start:%Y-%m-%dT%H:%M}"
    later = start + timedelta(hours=chance.choice([1, 30, 100, 250, 600, 1500, 4000, 8000]))
    work["reopen_by"] = f"{later:%Y-%m-%dT%H:%M}"
    for name in chance.sample(["start", "reopen_by", "zone"], chance.choice([0, 0, 0, 1])):
        del work[name]
    if chance.random() < 0.2:
        work["preparation"] = f"{chance.choice([1, 50, 2000])} h"


def crew(job: Job, chance: Random) -> None:
    """Hands that are slow, quick or many."""
    rates = {"placing_rate": "m2/h", "coating_rate": "m2/h", "clearing_rate": "m2/h"}
    who: dict[str, Any] = {
        name: f"{chance.choice([0.1, 2, 10, 40, 60, 150, 10000])} {unit}" for name, unit in rates.items()
    }
    who |= {"mixing_stations": _count(chance, 50), "minutes_per_mix": chance.choice([0.5, 3, 8, 20, 120])}
    who |= {"lane_depth": f"{chance.choice([0.1, 1, 5, 30])} m", "lane_width": f"{chance.choice([0.1, 2, 10, 100])} m"}
    job.setdefault("work", {})["crew"] = {
        name: who[name] for name in chance.sample(sorted(who), chance.randint(1, len(who)))
    }


def slab(job: Job, chance: Random) -> None:
    """As many tests of the slab as there may be."""
    count = _count(chance, 500)
    job["slab"] = {
        "age": "45 d",
        "moisture_emission": [{"gain": "3.0 g", "hours": 72, "area": "64.06 in2"} for _ in range(count)],
        "relative_humidity": [{"percent": chance.randint(60, 99), "depth": "2 in"} for _ in range(count)],
        "pull_off": [{"strength": f"{chance.randint(100, 400)} psi", "failure": "concrete"} for _ in range(count)],
        "contaminants": [f"{LONGEST_TEXT[:60]} {at}" for at in range(20)],
    }


def order(job: Job, chance: Random) -> None:
    """Offers and stock of every sku, and of many that there are not."""
    some = [*SKUS, *(f"NONE-{at}" for at in range(chance.choice([0, 0, 400, 1900])))]
    job["order"] = {
        "waste_percent": chance.choice([0, 5, 100]),
        "confidence": chance.choice([0.5, 0.9, 0.999]),
        "offers": [
            {"sku": sku, "price": f"{chance.uniform(1, 900):.2f}", "available": chance.choice([0, 3, 50, 10**6])}
            for sku in some
        ],
        "on_hand": [{"sku": sku, "packs": chance.choice([0, 1, 40])} for sku in some[:500]],
        "issued": "2027-03-01",
    }


def texts(job: Job, chance: Random) -> None:
    """Names as long as they may be."""
    for room in job.get("rooms", []):
        room["name"] = LONGEST_TEXT
    job.setdefault("order", {})["reference"] = LONGEST_TEXT + "x" * 16


def system(job: Job, chance: Random) -> None:
    """Another system, and what it may have chosen."""
    other = chance.choice(SYSTEMS)
    job["system"] = other.code
    job.pop("thickness", None)
    optional = [layer.id for layer in other.layers if layer.optional]
    job.setdefault("order", {})["optional_layers"] = optional


def value(job: Job, chance: Random) -> None:
    """One value anywhere, of another kind or far out; or one entry of a list many times."""
    here: Any = job
    for _ in range(8):
        keys = list(here) if isinstance(here, dict) else list(range(len(here)))
        if not keys:
            return
        key = chance.choice(keys)
        if isinstance(here[key], dict | list) and here[key] and chance.random() < 0.8:
            here = here[key]
            continue
        if isinstance(here, list) and chance.random() < 0.5:
            here.extend(copy.deepcopy([here[key]] * chance.choice([1, 30, 400])))
        else:
            here[key] = copy.deepcopy(chance.choice(VALUES))
        return


MOVES: list[Callable[[Job, Random], None]] = [
    *(rooms, rooms, thicknesses, things, lines, outlines, shifts, shifts, temperatures, temperatures),
    *(times, times, crew, slab, order, texts, system, value),
]
