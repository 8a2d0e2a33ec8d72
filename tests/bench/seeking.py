"""A long search for the dearest request, its summary, and the requests that are over the bound.

A run tries so many requests (``tests/contract/seeking.py``), from the jobs of the description and those known to be
dear, and prints what it found. What is over 250 least quotes, or longer than an answer may be, or else the dearest, is
written into a folder as a body beside its address; ``--write`` adds a row for the seed to tests/bench/results/seek.md.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from collections import Counter
from datetime import UTC, datetime
from pathlib import Path

from tests.contract.seek_catalogues import dearest
from tests.contract.seeking import Found, Search
from tests.web.test_heavy import DEADLINES, POURS

ROOT = Path(__file__).parents[2]
KEPT = Path(tempfile.gettempdir()) / "gaugerake-seek"
END = "<!-- seek:end -->"
TOLD = 5
WAYS = ("least quotes", "least quotes per byte sent", "bytes of answer", "bytes of answer per byte sent")
PROGRESS = 100


def search(seed: int, count: int, minutes: float) -> tuple[Search, Counter[int]]:
    """Try so many, or for so long."""
    known = [*DEADLINES.values(), *POURS.values()]
    until, looking = time.monotonic() + minutes * 60, Search(seed, known)
    statuses: Counter[int] = Counter()
    while looking.tried < count and time.monotonic() < until:
        statuses[looking.step().weighed.status] += 1
        if looking.tried % PROGRESS == 0:
            dearest_yet = looking.best[0][0].weighed.least_quotes
            print(f"{looking.tried} tried, {dearest_yet:.0f} least quotes, {len(looking.dear)} over", file=sys.stderr)
    return looking, statuses


def told(looking: Search) -> None:
    """What was found, the best in each way first."""
    for way, best in zip(WAYS, looking.best, strict=True):
        print(f"by {way} (least quotes, status, bytes sent and answered):")
        print("\n".join(f"  {one.told()}" for one in best[:TOLD]))
    print("over the bound:", *(f"\n  {one.told()}" for one in looking.dear))


def keep(found: list[Found], folder: Path, seed: int) -> None:
    """Write requests down so that they can be sent again."""
    folder.mkdir(parents=True, exist_ok=True)
    for number, one in enumerate(found):
        asked, name = one.candidate.asked(), folder / f"{seed}-{number}"
        name.with_suffix(".json").write_bytes(asked.body)
        name.with_suffix(".txt").write_text(f"{asked.method} {asked.path}\n{asked.headers}\n{one.told()}\n", "utf-8")


def row(seed: int, looking: Search, statuses: Counter[int], took_s: float) -> str:
    """A seed's row of the table."""
    best = [found[0].scores()[way] for way, found in enumerate(looking.best)]
    refused = sum(count for status, count in statuses.items() if status >= 400)
    cells = (
        *(f"{datetime.now(UTC):%Y-%m-%d}", seed, f"{looking.tried:,}", f"{refused:,}", f"{took_s / 60:.0f} min"),
        *(f"{best[0]:.0f}", f"{best[2] / 1e6:.1f} MB", f"{best[3]:.0f}", len(looking.dear)),
    )
    return f"| {' | '.join(map(str, cells))} |"


def write(line: str) -> None:
    """Put a row at the end of the table."""
    path = ROOT / "tests" / "bench" / "results" / "seek.md"
    text = path.read_text("utf-8")
    path.write_text(text.replace(END, f"{line}\n{END}"), "utf-8")


def main() -> int:
    """Search by one seed."""
    reader = argparse.ArgumentParser(prog="tests/bench/seek", description=__doc__.splitlines()[0])
    reader.add_argument("--seed", type=int, default=1)
    reader.add_argument("--count", type=int, default=2000, help="requests to try at most")
    reader.add_argument("--minutes", type=float, default=600.0, help="minutes to try at most")
    reader.add_argument("--files", type=int, default=50, help="catalogue files to try")
    reader.add_argument("--keep", type=Path, default=KEPT, help=f"the folder for what is over the bound ({KEPT})")
    reader.add_argument("--write", action="store_true", help="add a row to tests/bench/results/seek.md")
    asked = reader.parse_args()
    begun = time.monotonic()
    looking, statuses = search(asked.seed, asked.count, asked.minutes)
    told(looking)
    if asked.files:
        print(f"a catalogue file: {dearest(asked.seed, asked.files)[0].s_per_mb:.1f} s/MB")
    keep(looking.dear or looking.best[0][:1], asked.keep, asked.seed)
    line = row(asked.seed, looking, statuses, time.monotonic() - begun)
    print(line)
    if asked.write:
        write(line)
    return 1 if looking.dear else 0


if __name__ == "__main__":
    sys.exit(main())
