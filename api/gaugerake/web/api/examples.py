"""Jobs that the description shows, of the demonstration catalogue, and what one of them is told when it is spoiled."""

from __future__ import annotations

LEAST: dict[str, object] = {
    "system": "level-clear",
    "rooms": [{"name": "Floor", "shape": {"measured": {"area": "1200 sq ft"}}}],
}
COUNTER: dict[str, object] = {
    "system": "level-clear",
    "thickness": "3/16 in",
    "rooms": [
        {
            "name": "Packing hall",
            "shape": {"rectangle": {"length": "42 ft", "width": "28' 6\""}},
            "drains": [{"round": {"diameter": "8 in"}, "count": 2}],
            "joints": [{"length": "28 ft", "width": "3/8 in", "depth": "1/2 in"}],
        }
    ],
    "work": {"start": "2027-03-05T06:00", "zone": "America/Chicago", "temperatures": {"steady": "64 degF"}},
}
TESTED: dict[str, object] = {
    "system": "level-clear",
    "rooms": [
        {"name": "Wash bay", "shape": {"measured": {"area": "600 sq ft"}}},
        {"name": "Packing", "shape": {"measured": {"area": "900 sq ft"}}},
    ],
    "slab": {
        "thickness": "5 in",
        "profile_csp": [{"csp": 5, "room": "Wash bay"}, {"csp": 4}],
        "moisture_emission": ["9 lb/1000ft2/24h", {"emission": "11 lb/1000ft2/24h", "room": "Wash bay"}],
        "relative_humidity": [{"percent": 95, "depth": "2 in", "room": "Wash bay"}, {"percent": 84, "depth": "2 in"}],
        "pull_off": [{"strength": "310 psi", "failure": "concrete", "room": "Packing"}],
        "ph": [{"ph": 9.5, "room": "Wash bay"}, {"ph": 9}],
    },
    "air": {
        "readings": [
            {"at": "2027-03-05T00:00", "temperature": "62 degF", "humidity_percent": 60},
            {"at": "2027-03-06T00:00", "temperature": "66 degF", "humidity_percent": 72},
        ]
    },
    "work": {"start": "2027-03-05T06:00", "zone": "America/Chicago", "temperatures": {"steady": "64 degF"}},
    "order": {"optional_layers": ["primer"]},
}
SYSTEMS_COMPARED: dict[str, object] = {
    "job": {key: value for key, value in COUNTER.items() if key != "system"},
    "choices": [
        {"name": "Levelled, clear", "change": {"system": "level-clear"}},
        {"name": "Levelled, clear, thicker", "change": {"system": "level-clear", "thickness": "1/4 in"}},
        {"name": "Double quartz", "change": {"system": "double-quartz", "thickness": None}},
        {"name": "Trowelled", "change": {"system": "trowelled-mortar", "thickness": "1/4 in"}},
    ],
}
COMPARISONS: dict[str, object] = {
    "systems": {"summary": "Systems and thicknesses for one floor", "value": SYSTEMS_COMPARED},
}
REFUSED: dict[str, object] = {
    "type": "/problems/invalid-job",
    "title": "Something in the request must be corrected",
    "status": 422,
    "detail": "The unit is missing: a bare number could mean anything.",
    "code": "invalid-job",
    "request_id": "3f2b8c1d5e6a47f09b1c2d3e4f5a6b7c",
    "errors": [
        {
            "pointer": "/rooms/0/shape/measured/area",
            "code": "no-unit",
            "detail": "The unit is missing: a bare number could mean anything.",
            "seen": "1200",
            "hint": "Write a number and a unit of area, such as 1,200 sq ft or 110 m2.",
        }
    ],
}
"""What ``LEAST`` is told when its area has no unit."""

EXAMPLES: dict[str, object] = {
    "least": {"summary": "The least that gets an answer: a system and an area", "value": LEAST},
    "tested": {"summary": "A slab tested room by room, under air that changes", "value": TESTED},
    "counter": {"summary": "What a counter hand knows after a minute", "value": COUNTER},
}
DATED: dict[str, object] = {name: EXAMPLES[name] for name in ("counter", "tested")}
"""Those whose work has a start."""

HALL: dict[str, object] = {
    "name": "Packing hall",
    "shape": {"rectangle": {"length": "42 ft", "width": "28' 6\""}},
    "joints": [{"line": [["28 ft", "0 ft"], ["28 ft", "28' 6\""]], "kind": "contraction"}],
    "pour": {"from": "left"},
}
PACKING_HALL: dict[str, object] = {
    "job": {
        "system": "level-clear",
        "thickness": "3/16 in",
        "rooms": [HALL],
        "work": {"start": "2027-03-05T06:00", "zone": "America/Chicago", "temperatures": {"steady": "64 degF"}},
    },
    "progress": {
        "mixes": 12,
        "placed": {"room": "Packing hall", "to": "12 ft 3 in"},
        "mixes_left": 28,
        "began": "2027-03-08T08:00",
        "at": "2027-03-08T09:05",
    },
}
MARKED: dict[str, object] = {
    "system": "level-clear",
    "thickness": "3/16 in",
    "rooms": [
        HALL,
        {"name": "Corridor", "shape": {"measured": {"area": "240 sq ft"}}, "pour": {"run": "30 ft"}},
    ],
}
POURED: dict[str, object] = EXAMPLES | {
    "marks": {"summary": "Rooms that say the way of their pour, for marks to chalk", "value": MARKED},
}
BY_AREA: dict[str, object] = {"job": LEAST, "progress": {"mixes": 10, "placed": {"area": "330 sq ft"}}}

UNDER_WAY: dict[str, object] = {
    "by-edge": {"summary": "Where the floor stands, what is left, and when", "value": PACKING_HALL},
    "by-area": {"summary": "The least that gets an answer: mixes and the floor that they cover", "value": BY_AREA},
}

SPRING_MORNINGS: dict[str, object] = {
    "job": COUNTER
    | {
        "air": {"temperature": "66 degF", "humidity_percent": 45},
        "work": {
            "zone": "America/Chicago",
            "temperatures": {"daily": {"low": "54 degF", "high": "70 degF", "coldest_at": "05:00"}},
            "crew": {"mixing_stations": 2},
            "reopen_by": "2027-03-18T06:00",
        },
    },
    "search": {"from": "2027-03-08T06:00", "until": "2027-03-12T18:00", "step": "1 h"},
}
BY_FORECAST: dict[str, object] = {
    "job": COUNTER
    | {
        "air": {
            "readings": [
                {"at": "2027-03-08T06:00", "temperature": "58 degF", "humidity_percent": 62},
                {"at": "2027-03-08T15:00", "temperature": "68 degF", "humidity_percent": 50},
                {"at": "2027-03-12T06:00", "temperature": "60 degF", "humidity_percent": 70},
            ]
        },
        "work": {
            "zone": "America/Chicago",
            "crew": {"mixing_stations": 2},
            "temperatures": {
                "readings": [
                    {"at": "2027-03-08T06:00", "temperature": "60 degF"},
                    {"at": "2027-03-08T16:00", "temperature": "66 degF"},
                    {"at": "2027-03-12T06:00", "temperature": "62 degF"},
                ]
            },
        },
    },
    "search": {"from": "2027-03-08T07:00", "until": "2027-03-09T15:00", "step": "30 min", "keep": 5},
}
STARTS: dict[str, object] = {
    "mornings": {"summary": "A week of hours, between a day's low and high, with a deadline", "value": SPRING_MORNINGS},
    "forecast": {"summary": "By a forecast of the floor and the air", "value": BY_FORECAST},
}
