"""Commands told to programs: each has ``--json``, and what it then prints is one JSON value with the same facts."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from tests.catalogue.commands import Run

from gaugerake.catalogue.store.demo import demo_text
from gaugerake.catalogue.store.snapshot import revision_id
from gaugerake.cli.main import all_commands

WITHOUT = {("serve",), ("completion",)}
"""What serves until it is stopped, and what is written for a shell."""
COMMANDS = sorted(set(all_commands()[1].names()) - WITHOUT)
DEMO = revision_id(demo_text())


@pytest.fixture()
def told(run: Run) -> Callable[..., Any]:
    """Runs a command with ``--json`` and reads what it prints."""

    def command(*words: str, code: int = 0) -> Any:
        end = run(*words, "--json")
        assert end.code == code, end
        return json.loads(end.out)

    return command


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_every_command_can_be_told_to_programs(words: tuple[str, ...], run: Run) -> None:
    end = run(*words, "--help")
    assert end.code == 0
    assert "--json" in end.out


@pytest.mark.parametrize("words", sorted(WITHOUT), ids=" ".join)
def test_what_is_for_no_program_has_no_json(words: tuple[str, ...], run: Run) -> None:
    assert "--json" not in run(*words, "--help").out


def test_a_catalogue_and_its_revisions(told: Callable[..., Any], file: Path, small: str) -> None:
    mine = revision_id(small)
    checked = told("catalogue", "check", "small.yaml")
    assert (checked["sound"], checked["systems"], checked["products"], checked["cautions"]) == (True, 1, 4, [])
    assert told("catalogue", "load", "small.yaml") == {"revision": mine, "new": True, "cautions": []}
    assert [(one["revision"], one["in_use"]) for one in told("catalogue", "list")] == [(mine, True), (DEMO, False)]
    assert told("catalogue", "export", "current") == {"revision": mine, "source": small}
    shown = told("catalogue", "show", "current")
    assert (shown["currency"], shown["systems"][0]["code"]) == ("USD", "probe")
    body = next(one for one in shown["products"] if one["code"] == "body")
    [sold] = body["packs"][0]["sold_as"]
    breaks = [{"from": 10, "price": "66.00"}, {"from": 30, "price": "61.50"}]
    assert sold == {"sku": "BD-1", "unit_code": "KT", "price": {"price": "70.00", "breaks": breaks}}
    assert told("catalogue", "use", DEMO[:8]) == {"revision": DEMO}
    assert told("catalogue", "diff", mine[:8], mine[:8]) == {"differences": []}


def test_faults_have_their_lines(told: Callable[..., Any], file: Path, spoiled: Callable[..., str]) -> None:
    file.write_text(spoiled(('"99.00"', '"99.001"')), "utf-8")
    for command in ("check", "load"):
        answer = told("catalogue", command, "small.yaml", code=1)
        assert (answer["file"], answer["sound"], answer["more"]) == ("small.yaml", False, False)
        [fault] = answer["faults"]
        assert (fault["line"], fault["path"]) == (32, "products[clear].packs[CL-2].price")


def test_prices_keys_and_steps(told: Callable[..., Any], file: Path, tmp_path: Path) -> None:
    told("catalogue", "load", "small.yaml")
    (tmp_path / "north.csv").write_text("sku,price\nBD-1,64\n")
    loaded = told("prices", "load", "north", "north.csv")
    assert (loaded["branch"], loaded["prices"], len(loaded["cautions"])) == ("north", 1, 5)
    assert [one["branch"] for one in told("prices", "list")] == ["north"]
    key = told("key", "make", "Hall of trials", "--book", "north")["key"]
    assert key.startswith("gr_")
    [listed] = told("key", "list")
    assert (listed["holder"], listed["book"], listed["revoked"]) == ("Hall of trials", "north", None)
    assert told("key", "revoke", listed["prefix"])["holder"] == "Hall of trials"
    assert told("key", "open") == {"forgotten": 1}
    assert told("prices", "drop", "north") == {"branch": "north"}
    steps = told("database", "steps")
    assert [(one["step"], one["taken_last"]) for one in steps] == [("0001", False), ("0002", True)]


def test_what_stands_in_the_way(told: Callable[..., Any]) -> None:
    assert told("prices", "drop", "north", code=3) == {"hindered": 'there is no price book "north"'}


def test_the_description_of_the_interface(told: Callable[..., Any]) -> None:
    assert "/v1/quotes" in told("openapi")["paths"]
