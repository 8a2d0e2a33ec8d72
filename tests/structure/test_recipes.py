"""The recipes of DEVELOPERS.md, followed: each is applied to a copy of the package, and the copy is asked.

A block under a recipe says in the line before it what is done with it: ``New file``, ``At the end of``, or ``In ...
after`` a line that stands once in the file. Blocks after ``Then`` are run with the copy; ``post`` and ``get`` there are
those of a client of the service that holds the demonstration catalogue, or the text given as ``catalogue``.
"""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
GUIDE = (ROOT / "DEVELOPERS.md").read_text("utf-8")
PLACE = re.compile(r"^(New file|At the end of|In) `([^`]+)`(?:, after `([^`]+)`)?:$")
BLOCK = re.compile(r"^([^\n]+)\n\n?```\w+\n(.*?)^```$", re.S | re.M)
ASKING = """
from gaugerake.catalogue.store.demo import demo_text
from gaugerake.catalogue.store.snapshot import snapshot_of
from gaugerake.web.server.app import create_app

class Source:
    stale_since = None

    def __init__(self, text):
        self.current = snapshot_of(text)

def get(path, catalogue=None):
    return create_app(Source(catalogue or demo_text())).test_client().get(path).get_json()

def post(path, job, catalogue=None):
    answer = create_app(Source(catalogue or demo_text())).test_client().post(path, json=job)
    assert answer.status_code == 200, answer.text
    return answer.get_json()

FLOOR = {"rooms": [{"shape": {"measured": {"area": "1200 sq ft"}}}]}
"""
RECIPES = {
    part.partition("\n")[0]: part
    for part in GUIDE.partition("## How to add")[2].partition("\n## ")[0].split("\n### ")[1:]
}


def follow(recipe: str, copy: Path) -> list[str]:
    """Do what the recipe says to the copy; the blocks that ask the copy."""
    asked = []
    for said, block in BLOCK.findall(recipe):
        if said.startswith("Then"):
            asked.append(block)
            continue
        place = PLACE.match(said)
        assert place is not None, said
        change(copy / place[2], place[1], place[3], block)
    return asked


def change(path: Path, how: str, after: str | None, block: str) -> None:
    """Make one change of a recipe.

    Raises
    ------
    AssertionError
        When the file, or the line in it, is not as the recipe says.
    """
    if how == "New file":
        assert not path.exists()
        path.write_text(block, "utf-8")
        return
    text = path.read_text("utf-8")
    if after is None:
        path.write_text(text + block, "utf-8")
        return
    held = text.splitlines(keepends=True)
    (at,) = (number for number, line in enumerate(held, 1) if line.strip() == after)
    path.write_text("".join([*held[:at], block, *held[at:]]), "utf-8")


def run(copy: Path, script: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", ASKING + script],
        cwd=copy,
        env={"PYTHONPATH": str(copy / "api"), "PYTHONDONTWRITEBYTECODE": "1"},
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """The package in a folder of its own, with what is compiled of it: that holds for each file that is not changed."""
    for name in ("api/gaugerake", "client"):
        shutil.copytree(ROOT / name, tmp_path / name)
    return tmp_path


def test_there_are_four() -> None:
    assert list(RECIPES) == ["A check of the slab", "A kind of layer", "A sentence", "An endpoint"]


@pytest.mark.parametrize("name", RECIPES)
def test_who_follows_it_gets_what_it_promises(name: str, copy: Path) -> None:
    asked = follow(RECIPES[name], copy)
    assert asked
    for script in asked:
        done = run(copy, script)
        assert done.returncode == 0, done.stderr


@pytest.mark.parametrize("name", RECIPES)
def test_who_does_not_follow_it_does_not_get_it(name: str, copy: Path) -> None:
    untouched = shutil.copytree(copy / "api", copy / "before" / "api")
    shutil.copytree(copy / "client", copy / "before" / "client")
    (script, *_) = follow(RECIPES[name], copy)
    assert run(untouched.parent, script).returncode != 0
