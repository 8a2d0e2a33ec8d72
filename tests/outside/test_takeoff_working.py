"""Every measured figure of an answer, worked again from nothing but its own working.

The answer is read as JSON from another process, and nothing of ours is imported here: the rules below were written from
their words, the units from their definitions. What an answer shows has six digits, and so has what goes into it.
"""

import json
import math
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from typing import Any

import pytest

FOOT, INCH = 0.3048, 0.0254
UNITS = {
    "ft": FOOT,
    "in": INCH,
    "mil": INCH / 1000,
    "m": 1.0,
    "mm": 1e-3,
    "um": 1e-6,
    "ft2": FOOT**2,
    "m2": 1.0,
    "ft3": FOOT**3,
    "gal": 231 * INCH**3,
    "L": 1e-3,
    "lb": 0.45359237,
    "kg": 1.0,
    "lb/ft2": 0.45359237 / FOOT**2,
    "kg/m2": 1.0,
    "ft2/gal": FOOT**2 / (231 * INCH**3),
    "m2/L": 1e3,
    "mix": 1.0,
    "piece": 1.0,
    "CSP": 1.0,
    "%": 0.01,
}
SCRIPT = """
import json, sys
from dataclasses import replace
from tests.asked import Asked
from tests.asked import quantities
from gaugerake.answers.show.render import render
from gaugerake.catalogue.store.demo import demo_catalogue
from gaugerake.floor.job import *
from gaugerake.floor.layers.volumes import CrackChase
from gaugerake.floor.product import PriceBook
from gaugerake.answers.show.reader import SI_READER, US_READER

# as the demonstration has it, but that cracks are opened to 12 mm wide and 8 mm deep: one of the two enlarges
demo = demo_catalogue()
chased = replace(demo.systems["level-clear"], crack_chase=CrackChase(width_m=0.012, depth_m=0.008))
catalogue = replace(demo, systems={**demo.systems, "chased": chased})

def answer(system, rooms, reader, **said):
    job = Job(system=system, rooms=rooms, **said)
    book = PriceBook(code="list", currency="USD", prices={})
    context = Asked(job=job, catalogue=catalogue, revision="r", book=book, with_working=True)
    found = render(quantities(context), reader)
    return {"rooms": found["rooms"], "layers": found["layers"], "working": render(context.record.working, reader)}

groove = {"width_m": 0.01, "depth_m": 0.012}
kitchen = Room(
    shape=Polygon(points_m=((1, 1), (10, 1), (10, 5), (6, 5), (6, 9), (1, 9))),
    cutouts=(Cutout(shape=Rectangle(length_m=0.5, width_m=0.4), count=3), Cutout(shape=Circle(diameter_m=0.6))),
    drains=(Drain(shape=RoundDrain(diameter_m=0.2), count=2), Drain(shape=TrenchDrain(length_m=3, width_m=0.2))),
    joints=(
        Joint(line_m=((0, 1), (3, 5)), **groove),
        Joint(length_m=4, kind=JointKind.MOVING),
        Joint(length_m=2, kind=JointKind.CONTRACTION, **groove),
    ),
    terminations=(Termination(length_m=1.2),),
    cracks=(Crack(length_m=5, **groove), Crack(length_m=3, **groove)),
    spalls=(Spall(area_m2=0.4, depth_m=0.01),),
    cove=Cove(length_m=20, height_m=0.1),
)
hall = Room(
    shape=Rectangle(length_m=12.5, width_m=7.25),
    thickness_m=0.0075,
    profile_csp=5,
    cove=Cove(length_m=9, height_m=0.15),
)
silo = Room(shape=Circle(diameter_m=6.6))
shed = Room(shape=Measured(area_m2=44.0))
yard = Room(shape=Measured(area_m2=60.0, perimeter_m=35.0))
rooms = (kitchen, hall, silo, shed, yard)
order = Order(optional_layers=("primer",))
plain = tuple(Room(shape=room.shape) for room in rooms)
json.dump(
    {
        "level us": answer("level-clear", rooms, US_READER, order=order),
        "level si": answer("level-clear", rooms, SI_READER, thickness_m=0.006, slab=Slab(profile_csp=4), order=order),
        "double us": answer("double-quartz", plain, US_READER, order=Order(waste_percent=8.0)),
        "chased us": answer("chased", rooms, US_READER, order=order),
        "rough si": answer(
            "level-clear",
            plain,
            SI_READER,
            slab=Slab(profile_csp=(ProfileReading(csp=4), ProfileReading(csp=6))),
            order=order,
        ),
        "mortar si": answer("trowelled-mortar", (kitchen, silo), SI_READER),
    },
    sys.stdout,
)
"""

Inputs = dict[str, float]


def si(shown: Any) -> float:
    """A shown figure in SI, by its own unit."""
    return float(shown) if isinstance(shown, int | float) else shown["value"] * UNITS[shown["unit"]]


def pick(inputs: Inputs, pattern: str) -> list[float]:
    return [value for name, value in inputs.items() if re.fullmatch(pattern, name)]


def groups(inputs: Inputs, *names: str) -> Iterator[list[float]]:
    """The figures of one room, crack or joint after another: those that share what stands before the last words."""
    found: dict[str, dict[str, float]] = {}
    for name, value in inputs.items():
        for last in names:
            if name.endswith(f" {last}"):
                found.setdefault(name.removesuffix(f" {last}"), {})[last] = value
    for figures in found.values():
        if set(figures) == set(names):
            yield [figures[name] for name in names]


def corners(inputs: Inputs) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    xs, ys = pick(inputs, r"x \d+"), pick(inputs, r"y \d+")
    points = list(zip(xs, ys, strict=True))
    return list(zip(points, points[1:] + points[:1], strict=True))


def counted(inputs: Inputs, before: str, after: str) -> float:
    """Each of the cutouts and drains times its count."""
    return math.fsum(
        value * inputs[f"{match['part']} count"]
        for name, value in inputs.items()
        if (match := re.fullmatch(rf"{before}(?P<part>(?:cutout|drain) \d+){after}", name))
    )


def up(value: float) -> float:
    return math.ceil(value * (1 - 1e-9))


def body(inputs: Inputs) -> float:
    total = 0.0
    for area, thickness, depth in groups(inputs, "area", "thickness", "profile depth"):
        total += area * thickness * inputs["share"] + area * depth
    for keyway, thickness in groups(inputs, "keyway", "thickness"):
        total += keyway * (inputs["ratio"] * thickness) ** 2
    return total


def chased(inputs: Inputs) -> float:
    """Cracks opened to the chase at least; joints as they are sawn; spalls."""
    cracks = {name: value for name, value in inputs.items() if " crack " in name}
    joints = {name: value for name, value in inputs.items() if " joint " in name}
    parts = [
        length * max(width, inputs["chase width"]) * max(depth, inputs["chase depth"])
        for length, width, depth in groups(cracks, "length", "width", "depth")
    ]
    parts += [length * width * depth for length, width, depth in groups(joints, "length", "width", "depth")]
    parts += [area * depth for area, depth in groups(inputs, "area", "depth")]
    return math.fsum(parts)


RULES: dict[str, Callable[[Inputs], float]] = {
    "rule-as-stated": lambda given: given["stated"],
    "rule-extent": lambda given: given["greatest"] - given["least"],
    "rule-as-usual": lambda given: given["stated"],
    "rule-roughest": lambda given: max(given.values()),
    "rule-profile-middle": lambda given: math.ceil(sum(given.values()) / len(given)),
    "rule-area-rectangle": lambda given: given["length"] * given["width"],
    "rule-area-circle": lambda given: math.pi / 4 * given["diameter"] ** 2,
    "rule-area-polygon": lambda given: abs(math.fsum(x * v - u * y for (x, y), (u, v) in corners(given))) / 2,
    "rule-area-stated": lambda given: given["stated"],
    "rule-perimeter-rectangle": lambda given: 2 * (given["length"] + given["width"]),
    "rule-perimeter-circle": lambda given: math.pi * given["diameter"],
    "rule-perimeter-polygon": lambda given: math.fsum(math.dist(*ends) for ends in corners(given)),
    "rule-perimeter-stated": lambda given: given["stated"],
    "rule-perimeter-two-to-one": lambda given: 6 * math.sqrt(given["area"] / 2),
    "rule-net-area": lambda given: given["gross area"] - counted(given, "", " area"),
    "rule-moving-joints": lambda given: math.fsum(given.values()),
    "rule-keyway-length": lambda given: (
        given["along walls"] + counted(given, "round ", "") + given["terminations"] + 2 * given["moving joints"]
    ),
    "rule-quantity-area": lambda given: math.fsum(given.values()),
    "rule-quantity-coated": lambda given: (
        math.fsum(pick(given, r"room \d+ area"))
        + math.fsum(length * height for length, height in groups(given, "cove length", "cove height"))
    ),
    "rule-quantity-cove-volume": lambda given: math.fsum(
        length * height * given["thickness"] + (1 - math.pi / 4) * given["radius"] ** 2 * length
        for length, height in groups(given, "cove length", "cove height")
    ),
    "rule-quantity-body": body,
    "rule-quantity-body-further": lambda given: math.fsum(
        area * thickness * given["share"] for area, thickness in groups(given, "area", "thickness")
    ),
    "rule-quantity-repair": lambda given: (
        math.fsum(length * width * depth for length, width, depth in groups(given, "length", "width", "depth"))
        + math.fsum(area * depth for area, depth in groups(given, "area", "depth"))
    ),
    "rule-quantity-repair-chased": chased,
    "rule-quantity-joint": lambda given: math.fsum(
        length * width * depth for length, width, depth in groups(given, "length", "width", "depth")
    ),
    "rule-quantity-cove": lambda given: math.fsum(given.values()),
    "rule-quantity-walls": lambda given: math.fsum(given.values()),
    "rule-quantity-joints": lambda given: math.fsum(given.values()),
    "rule-quantity-product": lambda given: math.fsum(given.values()),
    "rule-need-mixes": lambda given: given["quantity"] * (1 + given["waste"]) / given["yield"],
    "rule-need-spreading": lambda given: given["quantity"] * (1 + given["waste"]) / given["spreading rate"],
    "rule-need-broadcast": lambda given: given["quantity"] * (1 + given["waste"]) * given["rate"],
    "rule-need-volume": lambda given: given["quantity"] * (1 + given["waste"]),
    "rule-need-covers": lambda given: up(given["quantity"] / given["covers"]),
    "rule-need-per-mix": lambda given: given["count"] * math.fsum(pick(given, r"mixes \d+")),
    "rule-used-mixes": lambda given: up(given["need"] / given["smallest"]) * given["smallest"],
    "rule-used-batches": lambda given: up(given["need"] / given["smallest"]) * given["smallest"],
    "rule-used-measured-out": lambda given: given["need"],
    "rule-wet-film": lambda given: 1 / given["spreading rate"],
    "rule-dry-film": lambda given: given["wet film"] * given["volume solids"],
    "rule-retained": lambda given: given["quantity"] * min(given["rate"], given["retained"]),
    "rule-cleared-away": lambda given: given["quantity"] * max(0.0, given["rate"] - given["retained"]),
}
DRAWN = {"outline", "inset", "holes", "drains", "joint_lines"}


@pytest.fixture(scope="module")
def answers() -> dict[str, Any]:
    ran = subprocess.run([sys.executable, "-c", SCRIPT], capture_output=True, check=False, text=True)
    assert ran.returncode == 0, ran.stderr
    found: dict[str, Any] = json.loads(ran.stdout)
    return found


CASES = ["level us", "level si", "double us", "mortar si", "chased us", "rough si"]


def figures(part: Any, at: str) -> Iterator[tuple[str, Any]]:
    """Every shown figure and its pointer; what is only drawn left out."""
    if isinstance(part, dict) and set(part) == {"value", "unit"}:
        yield at, part
    elif isinstance(part, dict):
        for name, inner in part.items():
            if name not in DRAWN:
                yield from figures(inner, f"{at}/{name}")
    elif isinstance(part, list):
        for index, inner in enumerate(part):
            yield from figures(inner, f"{at}/{index}")


def shown(answer: dict[str, Any]) -> dict[str, Any]:
    return {at: figure for part in ("rooms", "layers") for at, figure in figures(answer[part], f"/{part}")}


@pytest.mark.parametrize("case", CASES)
def test_every_figure_has_one_working(answers: dict[str, Any], case: str) -> None:
    worked = [entry["figure"] for entry in answers[case]["working"] if re.match("/(rooms|layers)/", entry["figure"])]
    assert sorted(worked) == sorted(shown(answers[case]))


@pytest.mark.parametrize("case", CASES)
def test_every_figure_follows_from_its_working(answers: dict[str, Any], case: str) -> None:
    found = shown(answers[case])
    for entry in answers[case]["working"]:
        if entry["figure"] in found:
            assert entry["result"] == found[entry["figure"]]
            inputs = {one["name"]: si(one["value"]) for one in entry["inputs"]}
            again = RULES[entry["rule"]](inputs)
            assert again == pytest.approx(si(entry["result"]), rel=2e-5, abs=1e-12), entry


@pytest.mark.parametrize("case", CASES)
def test_every_working_is_told_in_words_with_its_source(answers: dict[str, Any], case: str) -> None:
    for entry in answers[case]["working"]:
        assert entry["words"].endswith((".", "!"))
        assert entry["source"]


def test_every_rule_is_used_by_one_of_the_cases(answers: dict[str, Any]) -> None:
    used = {entry["rule"] for case in CASES for entry in answers[case]["working"]}
    # no demonstration system counts by its joints; working_joints.yaml does
    assert set(RULES) - used == {"rule-quantity-joints"}
