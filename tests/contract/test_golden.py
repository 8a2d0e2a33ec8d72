"""What a release answered is answered still, to the byte, by the version that has its number; by later ones in figures.

A later version says its own number and has its own tokens and fingerprints; its figures and words are the same, but for
what DEVELOPERS.md lists under "Changed results".
"""

import gzip
import json
import re
from pathlib import Path
from typing import Any

import pytest
from tests.contract.golden.record import FOLDER, Call, answer, calls, client_of

from gaugerake import __version__

RELEASES = sorted(path for path in FOLDER.iterdir() if re.fullmatch(r"\d+\.\d+\.\d+", path.name))
CALLS = [(release, call) for release in RELEASES for call in calls(release)]
OF_THE_ENGINE = {"engine", "fingerprint", "token"}


@pytest.fixture(scope="module")
def client(request: pytest.FixtureRequest) -> Any:
    return client_of(request.param)


def figures(body: bytes) -> Any:
    return {name: value for name, value in json.loads(body).items() if name not in OF_THE_ENGINE}


@pytest.mark.parametrize(
    ("client", "call"), CALLS, ids=[f"{release.name}-{call.name}" for release, call in CALLS], indirect=["client"]
)
def test_the_answer_is_what_it_was(client: Any, call: Call, request: pytest.FixtureRequest) -> None:
    release: Path = request.node.callspec.params["client"]
    recorded = gzip.decompress((release / call.name).read_bytes())
    given = answer(client, call)
    if release.name == __version__:
        assert given == recorded
    else:
        assert figures(given) == figures(recorded)


def test_this_version_is_recorded() -> None:
    assert __version__ in {release.name for release in RELEASES}


def test_every_recorded_answer_is_replayed() -> None:
    for release in RELEASES:
        assert {path.name for path in release.glob("*.json.gz")} == {call.name for call in calls(release)}


def test_the_recorded_jobs_are_answered_and_not_only_refused() -> None:
    for release, call in CALLS:
        recorded = json.loads(gzip.decompress((release / call.name).read_bytes()))
        assert ("errors" in recorded) == call.job.startswith("refused"), call.name
