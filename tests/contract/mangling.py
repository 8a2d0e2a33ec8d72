"""Sound jobs, spoiled: in their bytes, and in the values that stand in them. A seed gives the same again."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random
from typing import Any

JOBS = [
    json.loads(path.read_text("utf-8"))
    for path in sorted((Path(__file__).parents[2] / "openapi" / "examples").glob("*.json"))
]
PATHS = [
    f"/v1/{name}{query}"
    for name in ("readiness", "quantities", "pour-plan", "return-times", "quotes")
    for query in ("", "?units=si", "?echo=true&working=true")
]
TOKENS: list[bytes] = [
    *(b"null", b"true", b"-0", b"1e400", b"-1e-400", b"NaN", b"Infinity", b"9" * 60, b"0.1e+2", b"[]", b"{}", b'""'),
    *(b"[[[[", b"}}", b",", b":", b'"', b"\\", b"\\u0000", b"\\ud800", b"\xff", b"\xef\xbb\xbf", b"\x00", b"\xc0\x80"),
    *(b" ft", "½".encode(), "′".encode(), b"degC", b"%", b"/", b"1/0", b"..", b"\r\n", b"\xe2\x80\xae"),
]
VALUES: list[Any] = [
    *(None, True, False, 0, -1, 1, 0.5, 1e-300, 1e300, 10**38, -(10**38), "", " ", "0", "x" * 70, [], {}, [[]], [None]),
    *("0.01 m", "10 km", "1 ft", "1 mm", "-40 degC", "80 degC", "200 yr", "0 d", "1/3 in", "5' 11 15/16\"", "1,000 ft"),
    *("1e9 ft", "9" * 30 + " m", "NaN m", "inf m", "2 kg", "1/0 in", "½ in", "3 ft 3 ft", "0x1 m", "1 m; rm", "٣ m"),
    *("2000-01-01", "2199-12-31", "2027-02-29", "2027-03-14T02:30", "2027-11-07T01:30", "2199-12-31T23:59:59.999999Z"),
    *("00:00", "24:00", "23:59:59", "America/Chicago", "Europe/Berlin", "Pacific/Apia", "Antarctica/Troll"),
    *("level-clear", "double-quartz", "trowelled-mortar", "moving", "vehicle", "slate", "primer", "0.00", "é漢😀"),
    *("99999999.99", [["0 m", "0 m"]] * 2),
    *({"value": 1, "unit": "m"}, {"value": 1e17, "unit": "m"}, {"value": "1", "unit": "m"}, {"unit": "m"}),
    *({"steady": "70 degF"}, {"circle": {"diameter": "3 m"}}, {"measured": {"area": "200000 m2"}}),
    *({"polygon": {"points": [[0, 0], [1, 1], [1, 0], [0, 1]], "unit": "m"}}, [[0, 0], [1e9, 0], [1e9, 1e9]]),
]  # fmt: skip


def mangled(seed: int) -> tuple[str, bytes]:
    """The address and the body of one spoiled request."""
    chance = Random(seed)
    job = copy.deepcopy(chance.choice(JOBS))
    for _ in range(chance.choice([0, 1, 1, 1, 2, 3, 5])):
        _spoil_value(job, chance)
    body = json.dumps(job, ensure_ascii=chance.random() < 0.5).encode("utf-8", "surrogatepass")
    for _ in range(chance.choice([0, 0, 0, 0, 1, 2, 8])):
        body = chance.choice(BYTES)(body, chance)
    return chance.choice(PATHS), body


def _spoil_value(job: Any, chance: Random) -> None:
    """Change, drop, double or rename one value somewhere in the job."""
    places = list(_places(job))
    if not places:
        return
    holder, key = chance.choice(places)
    what = chance.randrange(6)
    if what == 0:
        del holder[key]
    elif what == 1 and isinstance(holder, list):
        holder.extend(copy.deepcopy(holder[key]) for _ in range(chance.choice([1, 2, 30])))
    elif what == 1:
        holder[key] = [holder[key]]
    elif what == 2 and isinstance(holder, dict):
        holder[chance.choice(NAMES)] = holder.pop(key)
    elif what == 3 and isinstance(holder[key], str):
        text = holder[key]
        cut = chance.randrange(len(text) + 1)
        holder[key] = (
            text[:cut] + chance.choice(["", "0", " ", ".", "/", "-", ",", "'", "e", "½", "\u00a0"]) + text[cut:]
        )
    elif what == 4 and isinstance(holder[key], int | float) and not isinstance(holder[key], bool):
        holder[key] = chance.choice([-1, 0, 0.1, 10, 1e6]) * holder[key]
    else:
        holder[key] = copy.deepcopy(chance.choice(VALUES))


def _places(value: Any) -> Iterator[tuple[Any, Any]]:
    """Every place in a document: what holds it, and its key there."""
    inner = (
        list(value.items()) if isinstance(value, dict) else list(enumerate(value)) if isinstance(value, list) else []
    )
    for key, part in inner:
        yield value, key
        yield from _places(part)


NAMES = sorted({key for job in JOBS for holder, key in _places(job) if isinstance(holder, dict)})


def _flip(body: bytes, chance: Random) -> bytes:
    at = chance.randrange(len(body) + 1)
    return body[:at] + bytes([chance.randrange(256)]) + body[at + 1 :]


def _cut(body: bytes, chance: Random) -> bytes:
    return body[: chance.randrange(len(body) + 1)]


def _drop(body: bytes, chance: Random) -> bytes:
    at = chance.randrange(len(body) + 1)
    return body[:at] + body[at + chance.choice([1, 1, 2, 10, 100]) :]


def _double(body: bytes, chance: Random) -> bytes:
    begins, ends = sorted((chance.randrange(len(body) + 1), chance.randrange(len(body) + 1)))
    return body[:ends] + body[begins:]


def _insert(body: bytes, chance: Random) -> bytes:
    at = chance.randrange(len(body) + 1)
    return body[:at] + chance.choice(TOKENS) + body[at:]


def _swap(body: bytes, chance: Random) -> bytes:
    cuts = sorted(chance.randrange(len(body) + 1) for _ in range(3))
    return body[: cuts[0]] + body[cuts[1] : cuts[2]] + body[cuts[0] : cuts[1]] + body[cuts[2] :]


BYTES: list[Callable[[bytes, Random], bytes]] = [_flip, _flip, _cut, _drop, _double, _insert, _insert, _swap]
