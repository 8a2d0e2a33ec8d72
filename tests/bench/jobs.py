"""The jobs that the benches send: no two alike, so that no memory of whole answers could help."""

import json
import random
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "openapi" / "examples" / "full.json"


def whole_job(number: int, *, late: bool = False) -> dict[str, Any]:
    """A job of four rooms with every section, daily temperatures and a deadline; ``late`` misses it."""
    draw = random.Random(number)
    job: dict[str, Any] = json.loads(EXAMPLE.read_text("utf-8"))
    hall, bay, silo, corridor = job["rooms"]
    hall["shape"]["rectangle"] = {
        "length": f"{draw.randint(2000, 4200) / 100} ft",
        "width": f"{draw.randint(12, 28)}' 6\"",
    }
    wide, deep = draw.randint(1600, 2600) / 100, draw.randint(1200, 1900) / 100
    ell = [[0, 0], [wide, 0], [wide, deep / 2], [wide / 2, deep / 2], [wide / 2, deep], [0, deep]]
    bay["shape"]["polygon"] = {"points": ell, "unit": "ft"}
    bay["joints"][0] = {
        "length": f"{draw.randint(50, 150) / 10} ft",
        "kind": "contraction",
        "width": "1/4 in",
        "depth": "3/4 in",
    }
    bay["drains"][0]["at"] = [f"{draw.randint(20, 50) / 10} ft", f"{draw.randint(20, 40) / 10} ft"]
    silo["shape"]["circle"] = {"diameter": f"{draw.randint(900, 1900) / 100} ft"}
    corridor["shape"]["measured"] = {"area": f"{draw.randint(40000, 52000) / 100} sq ft", "perimeter": "128 ft"}
    low = draw.randint(54, 62)  # people write whole degrees
    work = job["work"]
    work["temperatures"] = {"daily": {"low": f"{low} degF", "high": f"{low + draw.randint(6, 16)} degF"}}
    work["crew"] |= {"mixing_stations": 4, "placing_rate": "1400 ft2/h", "lane_width": "16 ft"}
    work["reopen_by"] = "2027-03-11T05:00" if late else "2027-03-23T05:00"
    job["order"]["reference"] = f"PO {number}"
    return job


def cart_job(number: int) -> dict[str, Any]:
    """One cart in which one room is changed again and again: what an ordering site sends as one types."""
    job = whole_job(0)
    job["rooms"][0]["shape"]["rectangle"]["length"] = f"{(2000 + number * 7 % 2200) / 100} ft"
    return job


def logged_job(number: int, *, days: int = 14) -> dict[str, Any]:
    """The same with hourly readings of its floor."""
    draw, begun = random.Random(-number), datetime(2027, 3, 5, tzinfo=UTC)
    job = whole_job(number)
    readings = [
        {
            "at": (begun + timedelta(hours=hour)).isoformat(timespec="minutes"),
            "temperature": f"{64 + abs(hour % 24 - 12) / 2 + draw.random():.2f} degF",
        }
        for hour in range(24 * days)
    ]
    job["work"]["temperatures"] = {"readings": readings}
    return job


def rooms_job(count: int, number: int = 0) -> dict[str, Any]:
    """A job of so many plain rooms."""
    draw = random.Random(number)
    rooms = [
        {
            "name": f"Room {index}",
            "shape": {"rectangle": {"length": f"{draw.randint(900, 1500) / 100} ft", "width": "9 ft"}},
        }
        for index in range(count)
    ]
    return {"system": "level-clear", "rooms": rooms, "order": {"reference": f"PO {number}"}}
