"""What a remedy is once it is put into the job: what holds of an answer, and jobs at random to ask about.

Nothing of the service but its answers is looked at here.
"""

from __future__ import annotations

import random
from typing import Any

Job = dict[str, Any]
WEEK = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
SYSTEMS = ["level-clear", "level-clear", "double-quartz", "level-clear", "trowelled-mortar"]


def lost(quote: Job) -> set[str]:
    """What does not hold of a job by its quote."""
    found = set()
    if quote["pour_plan"]["feasible"] is False:
        found.add("wet edge")
    due = quote["return_times"]["deadline"]
    if due is not None and due["met"] is False:
        found.add("deadline")
    if quote["readiness"]["condensation"]:
        found.add("spread ahead")
    found |= lost_edges(quote)
    found |= {check["check"] for check in quote["readiness"]["checks"] if fails(check)}
    return found | {said["text"].split(":")[0] for said in quote["cautions"] if beyond(said)}


def lost_edges(quote: Job) -> set[str]:
    """The rooms whose wet edge is lost, by layer; all rooms of a layer that is never poured."""
    pours, rooms = quote["pour_plan"]["pours"], [room["name"] for room in quote["quantities"]["rooms"]]
    found = {(one["layer"], one["room"]) for one in pours if one["holds"] is False}
    bodies = {one["id"] for one in quote["quantities"]["layers"] if one["layer"] == "body"}
    never = bodies - {one["layer"] for one in pours}
    return {f"edge of {layer} in {room}" for layer, room in found | {(body, room) for body in never for room in rooms}}


def fails(check: Job) -> bool:
    """Whether a check that depends on the floor's temperature fails."""
    return check["check"] in ("dew-point-spread", "slab-temperature") and check["verdict"] in ("fix", "stop")


def beyond(said: Job) -> bool:
    """Whether a caution is of a product that is placed outside its own temperatures."""
    return said["code"].startswith("product-temperature-")


def some_job(random: random.Random) -> Job:
    """A job at random: most of them lose an edge or miss their deadline."""
    room = {"rectangle": {"length": f"{random.randint(20, 90)} ft", "width": f"{random.randint(10, 50)} ft"}}
    job: Job = {
        "system": random.choice(SYSTEMS),
        "rooms": [{"shape": room, "joints": []}],
        "work": {
            "start": f"2027-0{random.randint(3, 7)}-{random.randint(10, 28)}T{random.randint(5, 22):02}:00",
            "zone": "America/Chicago",
            "temperatures": some_floor(random),
            "material_temperature": f"{random.randint(55, 88)} degF",
            "crew": {
                "mixing_stations": random.randint(1, 3),
                "minutes_per_mix": random.choice([3, 4, 5, 6, 8, 10]),
                "placing_rate": f"{random.choice([400, 600, 900, 1200, 2000])} ft2/h",
            },
            "traffic": "foot",
        },
    }
    some_hours(random, job["work"])
    if random.random() < 0.6:
        job["air"] = {"temperature": f"{random.randint(55, 90)} degF", "humidity_percent": random.randint(20, 85)}
    return job


def some_crowd(random: random.Random, job: Job) -> Job:
    """A job with a room or two more, and now and then with people said: some edges hold and some do not."""
    sides = [(random.randint(8, 60), random.randint(8, 50)) for _ in range(random.choice([1, 1, 2]))]
    more = [{"shape": {"rectangle": {"length": f"{a} ft", "width": f"{b} ft"}}, "joints": []} for a, b in sides]
    people = {"people": random.randint(2, 9)} if random.random() < 0.4 else {}
    crew = job["work"]["crew"] | people
    return {**job, "rooms": [*job["rooms"], *more], "work": job["work"] | {"crew": crew}}


def some_floor(random: random.Random) -> Job:
    low = random.randint(50, 86)
    if random.random() < 0.6:
        return {"steady": f"{low} degF"}
    return {"daily": {"low": f"{low - 8} degF", "high": f"{low + random.randint(1, 12)} degF"}}


def some_hours(random: random.Random, work: Job) -> None:
    """Nights, days, some days of the week, around the clock, or unsaid."""
    kind = random.randrange(5)
    if kind == 0:
        work["round_the_clock"] = True
    elif kind > 1:
        begins, lasts = random.choice([6, 7, 21, 22]), random.randint(5, 11)
        days = random.choice([WEEK, WEEK[:5], WEEK[3:], ["mon", "wed", "fri"]])
        ends = (begins + lasts) % 24
        work["shifts"] = [{"days": days, "from": f"{begins:02}:00", "to": f"{ends:02}:00"}]
