"""Records what this version answers, for the releases to come: ``python -m tests.contract.golden.record``.

The jobs are the filled examples and the jobs beside this file. A release's answers are recorded once, when it is made.
Whoever records them again changes what was promised, and says so under "Changed results" in DEVELOPERS.md.
"""

import gzip
import json
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from flask.testing import FlaskClient
from tests.builders import client_of as held

from gaugerake import __version__
from gaugerake.catalogue.store.snapshot import snapshot_of

FOLDER = Path(__file__).parent
EXAMPLES = FOLDER.parents[2] / "openapi" / "examples"
CATALOGUE = "catalogue.yaml"
SECRET = "the secret of recorded answers that signs nothing else"
CALCULATIONS = ("readiness", "quantities", "pour-plan", "return-times", "quotes")
IN_ENGLISH, IN_SPANISH = ("units=us", "units=si"), ("units=us&lang=es",)
DAY_SHEETS = "day-sheets"
"""For a job with a start, whose days have dates."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Call:
    """One request whose answer is recorded."""

    job: str
    path: str
    body: bytes

    @property
    def name(self) -> str:
        """The name of the file of its answer."""
        return (
            f"{self.job}.{self.path.replace('/v1/', '').replace('?', '.').replace('=', '-').replace('&', '.')}.json.gz"
        )


def calls(jobs: Path) -> Iterator[Call]:
    """Each job to each calculation that takes it, in both units; what holds all that the others say, in Spanish too."""
    for file in sorted(jobs.glob("*.job.json")):
        name = file.name.removesuffix(".job.json")
        body = file.read_bytes()
        for calculation in _calculations(json.loads(body)):
            for asked in (*IN_ENGLISH, *(IN_SPANISH if calculation in (CALCULATIONS[-1], DAY_SHEETS) else ())):
                yield Call(job=name, path=f"/v1/{calculation}?{asked}&working=true", body=body)


def _calculations(job: dict[str, Any]) -> tuple[str, ...]:
    """What takes a job: of a slab alone only its readiness."""
    if "rooms" not in job:
        return CALCULATIONS[:1]
    return (*CALCULATIONS, DAY_SHEETS) if "start" in job.get("work", {}) else CALCULATIONS


def client_of(release: Path) -> FlaskClient:
    """A service with the catalogue of that release."""
    text = (release / CATALOGUE).read_text("utf-8")
    return held(snapshot_of(text), secrets=lambda: [SECRET])


def answer(client: FlaskClient, call: Call) -> bytes:
    """The bytes of the answer; a refusal has a request id, which is the same for all."""
    headers = {"Content-Type": "application/json", "X-Request-Id": "golden", "Accept-Encoding": "identity"}
    return client.post(call.path, data=call.body, headers=headers).data


def record(release: Path) -> int:
    """Write the jobs, the catalogue and the answers; how many these are."""
    from gaugerake.catalogue.store.demo import demo_text

    release.mkdir()
    (release / CATALOGUE).write_text(demo_text(), "utf-8")
    for file in (*EXAMPLES.glob("*.json"), *FOLDER.glob("*.job.json")):
        (release / f"{file.name.split('.')[0]}.job.json").write_bytes(file.read_bytes())
    client = client_of(release)
    made = list(calls(release))
    for call in made:
        (release / call.name).write_bytes(gzip.compress(answer(client, call), 9, mtime=0))
    return len(made)


def main() -> None:
    """Record this version, unless it is recorded."""
    release = FOLDER / __version__
    if release.exists():
        sys.exit(f"{release} is recorded; remove it first if its results are meant to change, and say so")
    print(f"{record(release)} answers of {__version__} recorded")


if __name__ == "__main__":
    main()
