"""A search for the catalogue file that takes longest to check, for its length.

A file is loaded by whoever runs the service, so it may take seconds; what must not be is a file of which twice as much
takes four times as long.
"""

from __future__ import annotations

import contextlib
import time
from collections.abc import Callable
from dataclasses import dataclass
from random import Random

from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.catalogue.file.format import load_text
from gaugerake.catalogue.store.demo import demo_text

KEPT = 6
LONGEST = 1_000_000
MOST_S_PER_MB = 20.0
"""Of processor time, on a machine where a least quote takes 4 ms; 2.5 was the most seen."""
SAMPLE = 200_000


@dataclass(frozen=True)
class CheckedFile:
    """A text and the processor time that checking it took [s]."""

    text: str
    took_s: float

    @property
    def s_per_mb(self) -> float:
        """For its length, of which a fifth of a megabyte is the least that counts."""
        return self.took_s / max(len(self.text), SAMPLE) * 1e6


def check(text: str) -> CheckedFile:
    """Check a file; whether it is sound does not matter."""
    load_text.cache_clear()
    begun = time.process_time()
    with contextlib.suppress(FileRefused):
        load_text(text)
    return CheckedFile(text, time.process_time() - begun)


def repeated(lines: list[str], chance: Random) -> None:
    """A block many times."""
    first = chance.randrange(len(lines))
    block = lines[first : first + chance.choice([1, 2, 5, 20])]
    lines[first:first] = block * chance.choice([2, 30, 400, 3000])


def renamed(lines: list[str], chance: Random) -> None:
    """Many keys that there are not, alike or like one that there is."""
    at = chance.randrange(len(lines))
    indent = lines[at][: len(lines[at]) - len(lines[at].lstrip())]
    stem = chance.choice(["colour", "x", "thickness_high", "é" * 30])
    lines[at:at] = [f"{indent}{stem}{number}: 1" for number in range(chance.choice([30, 3000, 20_000]))]


def numbered(lines: list[str], _chance: Random) -> None:
    """Codes and skus made different, so that a repeated block is more products or packs."""
    for at, line in enumerate(lines):
        for key in ("code: ", "sku: "):
            if key in line:
                lines[at] = line.replace(key, f"{key}N{at}-", 1)


def nested(lines: list[str], chance: Random) -> None:
    """A value that is deep, long, or an alias of others."""
    at, many = chance.randrange(len(lines)), chance.choice([10, 1000, 50_000])
    odd = ["[" * many + "]" * many, "a" * many, "[" + "1, " * many + "]", "&a [x]", "*a", "9" * many, "{? " * many]
    lines[at] = f"{lines[at].partition(':')[0]}: {chance.choice(odd)}"


CHANGES: list[Callable[[list[str], Random], None]] = [repeated, repeated, renamed, numbered, nested]


def dearest(seed: int, count: int) -> list[CheckedFile]:
    """The files that took longest for their length, of so many tried."""
    chance, best = Random(seed), [check(demo_text())]
    for _ in range(count):
        lines = chance.choice(best).text.split("\n")
        for _ in range(chance.choice([1, 1, 2, 3])):
            chance.choice(CHANGES)(lines, chance)
        text = "\n".join(lines)
        if len(text) <= LONGEST:
            best.append(check(text))
            best.sort(key=lambda one: one.s_per_mb, reverse=True)
            del best[KEPT:]
    return best
