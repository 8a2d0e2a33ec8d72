"""Jobs that the description shows; they are of the demonstration catalogue."""

from __future__ import annotations

from typing import Any

LEAST: dict[str, Any] = {
    "system": "level-clear",
    "rooms": [{"name": "Floor", "shape": {"measured": {"area": "1200 sq ft"}}}],
}
COUNTER: dict[str, Any] = {
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
EXAMPLES: dict[str, Any] = {
    "least": {"summary": "The least that gets an answer: a system and an area", "value": LEAST},
    "counter": {"summary": "What a counter hand knows after a minute", "value": COUNTER},
}
