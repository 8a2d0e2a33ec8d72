"""What stands where: the top level, the size of modules, sentences that are used and that exist."""

import re
import subprocess
from pathlib import Path

import pytest

from gaugerake.answers.show.words import templates

ROOT = Path(__file__).parents[2]
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "LICENSE", "api", "client", "tests", "openapi", "docker"}
TRACKED = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=True, text=True).stdout.split(
    "\0"
)[:-1]


def test_nothing_else_stands_at_the_top() -> None:
    assert {name.split("/")[0] for name in TRACKED if not name.startswith(".")} <= TOP


@pytest.mark.parametrize(
    "name", [name for name in TRACKED if name.startswith(("api/", "tests/")) and name.endswith(".py")]
)
def test_a_module_is_split_before_it_is_long(name: str) -> None:
    assert len((ROOT / name).read_text("utf-8").splitlines()) <= 400


PAGE = ("page-", "client-", "pouring-", "compare-", "begin-", "embed-", "working-", "late-")
"""Words of the page, of which ``tests/client`` asks the same."""


def test_every_sentence_is_used_somewhere() -> None:
    code = "\n".join(path.read_text("utf-8") for path in (ROOT / "api" / "gaugerake").rglob("*.py"))
    quoted = set(re.findall(r'"([a-z0-9][a-z0-9.-]*)"', code))
    stems = set(re.findall(r'f"([a-z0-9][a-z0-9.-]*)\{', code))
    ours = [key for key in templates() if not key.startswith(PAGE)]
    # the form for one is used where the other is
    said = {key.removesuffix("-one") if key.removesuffix("-one") in templates() else key for key in ours}
    unused = [key for key in said if key not in quoted and not any(key.startswith(stem) for stem in stems)]
    assert unused == []


def test_no_file_names_a_host_of_the_package_registries() -> None:
    hosts = re.compile(r"https?://[^\s\"')>]*(?:pypi|pythonhosted|npmjs|debian)\.", re.I)
    found = [name for name in TRACKED if hosts.search((ROOT / name).read_bytes().decode("utf-8", "ignore"))]
    assert found == []
