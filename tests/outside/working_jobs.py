"""The jobs whose answers are worked again: the filled examples, and one of each kind of floor, crew and weather."""

import json
from pathlib import Path
from typing import Any

EXAMPLES = Path(__file__).parents[2] / "openapi" / "examples"
SLAB = {
    "substrate": "concrete", "poured": "2027-02-26", "compressive_strength": "2900 psi", "profile_csp": 5,
    "thickness": "5 in", "dries_from": "both-sides", "damp": False, "ph": 9.5, "absorbs_water": True,
    "moisture_emission": [{"gain": "3.0 g", "hours": 71, "area": "64.06 in2"}, "3.9 lb/1000ft2/24h",
                          {"gain": "2.1 g", "hours": 50, "area": "64.06 in2"}],
    "relative_humidity": [{"percent": 79.5, "depth": "1 in"}, {"percent": 81, "depth": "0.5 in"}, {"percent": 80}],
    "pull_off": ["310 psi", {"strength": "295 psi", "failure": "concrete"}, {"strength": "90 psi", "failure": "glue"}],
    "contaminants": ["oil", "curing compound"],
}  # fmt: skip
ROOMS = [
    {
        "shape": {"rectangle": {"length": "42 ft", "width": "28' 6\""}},
        "cutouts": [{"rectangle": {"length": "6 ft", "width": "4 ft"}, "at": ["10 ft", "8 ft"]}],
        "drains": [{"round": {"diameter": "8 in"}, "count": 2}],
        "joints": [{"length": "28 ft", "kind": "moving", "width": "3/8 in", "depth": "1/2 in"}],
        "cracks": [{"length": "17 ft", "width": "3/8 in", "depth": "1/2 in"}],
        "cove": {"length": "120 ft", "height": "4 in"},
        "slope_percent": 1.0,
    },
    {"shape": {"measured": {"area": "900 sq ft"}}, "profile_csp": 5, "slope_percent": 0.5},
]
WAVE = {"daily": {"low": "51 degF", "high": "73 degF", "coldest_at": "05:30"}}
WORK = {"start": "2027-03-12T06:00", "zone": "America/Chicago", "temperatures": WAVE, "reopen_by": "2027-03-22T05:00"}
AIR = {"temperature": "64 degF", "humidity_percent": 62}


def of_system(system: str, **work: Any) -> dict[str, Any]:
    """A job of one of the demonstration's systems, with a change of the clocks on the second day."""
    return {"system": system, "rooms": ROOMS, "slab": SLAB, "air": AIR, "work": {**WORK, **work}}


def tight(area: str, days: list[str], to: str, floor: str, by: str) -> dict[str, Any]:
    """A job with few and short shifts, and a deadline that it misses."""
    shifts = [{"days": days, "from": "07:00", "to": to}]
    job = of_system(
        "level-clear",
        temperatures={"steady": floor},
        shifts=shifts,
        crew={"minutes_per_mix": 10, "mixing_stations": 1, "saw_rate": "9000 ft/h"},
        preparation="0 h",
        traffic="foot",
        reopen_by=by,
    )
    return {**job, "rooms": [{"shape": {"measured": {"area": area}}}]}


def young(**slab: str) -> dict[str, Any]:
    """A slab that lacks nothing but its age and its tests."""
    return {**of_system("level-clear", temperatures={"steady": "60 degF"}), "slab": slab}


CREW = {"mixing_stations": 1, "minutes_per_mix": 12}
SHORT = [{"days": ["mon", "tue", "wed", "thu", "fri"], "from": "07:00", "to": "11:00"}]
JOBS = {
    **{file.stem: json.loads(file.read_text("utf-8")) for file in sorted(EXAMPLES.glob("*.json"))},
    "level": of_system("level-clear"),
    "double": of_system("double-quartz", temperatures={"daily": {"low": "44 degF", "high": "95 degF"}}),
    "mortar": of_system("trowelled-mortar", temperatures={"steady": "60 degF"}),
    "split": of_system(
        "level-clear", shifts=SHORT, crew=CREW, temperatures={"daily": {"low": "47 degF", "high": "66 degF"}}
    ),
    "untimed": {
        **of_system("double-quartz"),
        "work": {name: WORK[name] for name in ("zone", "temperatures", "reopen_by")},
    },
    "room by room": {
        **of_system("level-clear", temperatures=WAVE, preparation="4 h", crew={"minutes_per_mix": 12}),
        "rooms": [{"name": f"Bay {number}", "shape": {"measured": {"area": "700 ft2"}}} for number in (1, 2, 3)],
    },
    "all hours": of_system("trowelled-mortar", round_the_clock=True, shifts=None),
    "all hours but one day": of_system("trowelled-mortar", round_the_clock=True, closed=["2027-03-16"]),
    "too cold": of_system("level-clear", shifts=SHORT, crew=CREW, temperatures={"steady": "44 degF"}),
    "cold evening": {
        **of_system(
            "level-clear",
            start="2027-03-12T16:00",
            temperatures={"daily": {"low": "40 degF", "high": "56 degF"}},
            shifts=[{"days": ["mon", "tue", "wed", "thu", "fri"], "from": "10:00", "to": "24:00"}],
            reopen_by="2027-04-12T05:00",
        ),
        "rooms": [{"shape": {"measured": {"area": "2200 ft2"}}}],
    },
    "priced": of_system("double-quartz", preparation="5 h", crew={"people": 3, "hourly_cost": "62.40"}),
    "short-handed": {
        **of_system("level-clear", temperatures={"steady": "66 degF"}, crew={"people": 4, "cast_rate": "2000 lb/h"}),
        "rooms": [{"shape": {"rectangle": {"length": "40 ft", "width": "26 ft"}}, "joints": []}],
    },
    "young": young(age="5 d", compressive_strength="3200 psi"),
    "young by date": young(poured="2027-03-08"),
    "longer shifts": tight("300 ft2", ["mon", "tue"], "13:00", "75 degF", "2027-03-20T05:00"),
    "flat wave": of_system(
        "double-quartz", temperatures={"daily": {"low": "61 degF", "high": "61 degF"}}, reopen_by="2027-03-18T05:00"
    ),
    "more days": tight("2500 ft2", ["mon"], "13:00", "60 degF", "2027-03-24T05:00"),
    "more stations": tight("2500 ft2", ["mon"], "13:00", "75 degF", "2027-03-30T05:00"),
    "tested by room": {
        **of_system("level-clear", temperatures={"steady": "60 degF"}),
        "rooms": [{"name": name, "shape": {"measured": {"area": "700 ft2"}}} for name in ("Wash bay", "Packing")],
        "slab": {
            "age": "40 d",
            "thickness": "5 in",
            "moisture_emission": [{"emission": "15 lb/1000ft2/24h", "room": "Packing"}],
            "relative_humidity": [{"percent": 95, "depth": "2 in", "room": "Wash bay"}, {"percent": 90}],
            "pull_off": [{"strength": "180 psi", "room": "Packing"}, "300 psi"],
            "ph": [{"ph": 9, "room": "Packing"}, {"ph": 12, "room": "Wash bay"}],
            "profile_csp": [{"csp": 4, "room": "Packing"}, {"csp": 6, "room": "Packing"}, {"csp": 3}],
        },
        "order": {"optional_layers": ["primer"]},
    },
    "changing air": {
        **of_system("level-clear"),
        "air": {
            "readings": [
                {"at": "2027-03-12T00:00", "temperature": "60 degF", "humidity_percent": 50},
                {"at": "2027-03-13T00:00", "temperature": "70 degF", "humidity_percent": 75},
                {"at": "2027-03-14T00:00", "temperature": "58 degF", "humidity_percent": 40},
            ]
        },
    },
    "late": of_system("double-quartz", reopen_by="2027-03-18T05:00"),
}
WHOLE = [name for name, job in JOBS.items() if "rooms" in job]

# Of the catalogue beside this file: sealed and bridged joints, in a week whose weekend closes the coat's window.
JOINTED = {
    "system": "jointed",
    "rooms": [
        {
            "shape": {"rectangle": {"length": "16 m", "width": "9 m"}},
            "joints": [
                {"length": "9 m", "width": "12 mm", "depth": "15 mm", "kind": "moving"},
                {"length": "16 m", "width": "10 mm", "depth": "15 mm"},
                {"length": "9 m", "kind": "contraction"},
            ],
        },
        {"shape": {"circle": {"diameter": "5 m"}}, "joints": [{"length": "5 m", "width": "10 mm", "depth": "12 mm"}]},
    ],
    "slab": {
        "age": "12 d",
        "thickness": "150 mm",
        "relative_humidity": [{"percent": 82}, {"percent": 84}, {"percent": 88}],
    },
    "air": {"temperature": "17 °C", "humidity_percent": 60},
    "work": {"start": "2027-10-27T07:00", "zone": "Europe/Berlin", "reopen_by": "2027-11-01T05:00"},
}
JOINTS = {
    "jointed": JOINTED,
    "jointed, cold": {
        **JOINTED,
        "work": {**JOINTED["work"], "temperatures": {"daily": {"low": "5 °C", "high": "31 °C"}}},
    },
    "jointed, in parts": {
        **JOINTED,
        "work": {
            **JOINTED["work"],
            "crew": {"minutes_per_mix": 25},
            "traffic": "foot",
            "reopen_by": "2027-11-20T05:00",
        },
    },
}
