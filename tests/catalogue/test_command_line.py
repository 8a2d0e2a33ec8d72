"""The command line as people use it: exit codes, one fault a line, clear words when something stands in the way."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.catalogue.commands import End, Run

from gaugerake.catalogue.store.demo import demo_text
from gaugerake.catalogue.store.snapshot import revision_id

SECOND = Path(__file__).parents[1] / "contract" / "data" / "second.yaml"


@pytest.fixture()
def run_alone(url: str, tmp_path: Path) -> Run:
    """The same, each command in a process of its own; that takes a second each."""

    def command(*arguments: str) -> End:
        end = subprocess.run(
            [sys.executable, "-m", "gaugerake.cli", *arguments],
            cwd=tmp_path,
            env={**os.environ, "GAUGERAKE_DATABASE": url},
            capture_output=True,
            timeout=120,
        )
        return End(end.returncode, end.stdout.decode(), end.stderr.decode())

    return command


def test_a_sound_file_is_said_to_be_so(run_alone: Run, file: Path) -> None:
    assert run_alone("catalogue", "check", "small.yaml") == End(0, "small.yaml: sound; systems: 1, products: 4\n", "")


def test_each_fault_is_a_line_that_editors_can_follow(run: Run, file: Path, spoiled: Callable[..., str]) -> None:
    file.write_text(spoiled(('"99.00"', '"99.001"'), ("layer: joint", "layer: jiont")), "utf-8")
    end = run("catalogue", "check", "small.yaml")
    assert (end.code, end.err) == (1, "")
    first, second = end.out.splitlines()
    assert first.startswith("small.yaml:32: products[clear].packs[CL-2].price: USD has 2 decimals")
    assert second.startswith("small.yaml:")
    assert 'Do you mean "joint"?' in second


def test_a_caution_goes_beside_and_does_not_fail(run: Run, file: Path, spoiled: Callable[..., str]) -> None:
    file.write_text(spoiled(("likely: 27 h", "likely: 6 h")), "utf-8")
    end = run("catalogue", "check", "small.yaml")
    assert end.code == 0
    assert "caution: systems[probe].returns[carts].after:" in end.err


def test_a_catalogue_goes_in_is_used_shown_and_comes_out_again(run: Run, file: Path, small: str) -> None:
    demo, mine = revision_id(demo_text())[:12], revision_id(small)[:12]
    assert run("catalogue", "load", "small.yaml").out == f"revision {mine} is kept and is in use\n"
    assert run("catalogue", "load", "small.yaml").out == f"revision {mine} was kept already and is in use\n"
    listed = run("catalogue", "list").out.splitlines()
    assert [line[:14] for line in listed] == [f"* {mine}", f"  {demo}"]
    assert run("catalogue", "export", "current").out == small
    shown = run("catalogue", "show", mine[:6]).out
    assert "BD-1, 1 mix (KT): 70.00; 66.00 from 10; 61.50 from 30" in shown
    assert run("catalogue", "use", demo).out == f"revision {demo} is in use\n"
    assert run("catalogue", "list").out.splitlines()[1].startswith(f"* {demo}")


def test_a_refused_file_leaves_what_is_in_use(run_alone: Run, file: Path, spoiled: Callable[..., str]) -> None:
    before = run_alone("catalogue", "list").out
    file.write_text(spoiled(("currency: USD", "currency: usd")), "utf-8")
    assert run_alone("catalogue", "load", "small.yaml").code == 1
    assert run_alone("catalogue", "list").out == before


def test_every_kind_of_fault_in_one_file_is_told_at_once_and_nothing_of_it_is_kept(run: Run, tmp_path: Path) -> None:
    text = SECOND.read_text("utf-8")
    for old, new in (
        ("sku: UW-16", "sku: UW-4"),
        ("contents: 18 L", "contents: 0 L"),
        ("yield: {low: 13.2 L", "yield: {low: 13.9 L"),
        ("low: 32 min, likely: 38 min, high: 45 min", "low: 12 min, likely: 13 min, high: 14 min"),
        ('"14800"', '"EUR 14800"'),
        ("likely: 48 h", "likely: 4 h"),
    ):
        assert old in text
        text = text.replace(old, new, 1)
    lines = text.splitlines()
    cove = next(number for number, line in enumerate(lines) if "layer: cove" in line)
    coat = next(number for number, line in enumerate(lines) if number > cove and "layer: coat" in line)
    lines.insert(coat, lines.pop(cove))
    (tmp_path / "bad.yaml").write_text("\n".join(lines), "utf-8")
    before = run("catalogue", "list")
    end = run("catalogue", "load", "bad.yaml")
    assert (end.code, end.err) == (1, "")
    told = [line.removeprefix("bad.yaml:").split(": ", 1)[1] for line in end.out.splitlines()]
    wanted = (
        "products[uwatsuki].packs[UW-4].sku: this sku stands already on line 19",
        'products[iro].packs[IRO-18-HAI].contents: "0 L" is not from 1 mL to 50 m3',
        "products[nagashi].yield: low, likely and high must rise in this order",
        "products[nagashi].open_time[2]: it takes longer here than where it is colder",
        "products[nagashi].packs[NA-1].price: a price in another currency",
        "systems[usunuri].layers[coat].recoat_closes: at 73.4 degF",
        f"systems[kakato].layers[cove]: this cove comes after the coat on line {coat} that climbs it",
    )
    assert len(told) == len(wanted)
    for line, beginning in zip(told, wanted, strict=True):
        assert line.startswith(beginning)
    assert run("catalogue", "list") == before


def test_a_difference_is_told_between_a_revision_and_a_file(run: Run, file: Path, spoiled: Callable[..., str]) -> None:
    run("catalogue", "load", "small.yaml")
    file.write_text(spoiled(('"70.00"', '"72.00"')), "utf-8")
    assert run("catalogue", "diff", "current", "small.yaml").out == "Body: price of BD-1: 70.00 -> 72.00\n"
    assert run("catalogue", "diff", "current", "current").out == "no difference\n"


def test_prices_of_a_branch_go_in_and_out(run: Run, file: Path, tmp_path: Path) -> None:
    run("catalogue", "load", "small.yaml")
    (tmp_path / "north.csv").write_text("sku,price\nBD-1,64\nCL-2,80\nCL-8,300\nSD-40,9\nTN-RED,4\nTN-BLUE,4\n")
    assert run("prices", "load", "north", "north.csv") == End(0, "6 prices of north are in use\n", "")
    assert run("prices", "list").out.startswith("north  ")
    assert run("prices", "drop", "north").code == 0
    assert run("prices", "list").out == ""
    (tmp_path / "north.csv").write_text("sku,price\nBD-1,64 EUR\n")
    end = run("prices", "load", "north", "north.csv")
    assert (end.code, end.out.count("north.csv:2: BD-1.price: a price in another currency")) == (1, 1)


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        ((), 2, "COMMAND"),
        (("catalogue", "chek", "x"), 2, 'there is no command "chek". Do you mean "check"?'),
        (("catalog", "check", "x"), 2, 'Do you mean "catalogue"?'),
        (("catalogue", "qqq"), 2, "Known here: check, diff, export, list, load, schema, show, use."),
        (("catalogue", "check"), 2, "FILE"),
        (("catalogue", "check", "absent.yaml"), 3, "absent.yaml: No such file"),
        (("catalogue", "check", "."), 3, ".: Is a directory"),
        (("catalogue", "use", "0123456789"), 3, "there is no revision"),
        (("catalogue", "diff", "current", "0123456789"), 3, "there is no revision"),
        (("prices", "drop", "north"), 3, "there is no price book"),
        (("serve", "--workers", "0"), 2, "write a whole number from 1 to 256, not 0"),
        (("serve", "--port", "99999"), 2, "write a whole number from 1 to 65535"),
        (("database", "downgrade", "base"), 3, 'there is no step "base"'),
        (("database", "downgrade", "-1"), 3, 'there is no step "-1"'),
        (("database", "downgrade", "9999"), 3, 'there is no step "9999"'),
    ],
)
def test_what_stands_in_the_way_is_said_without_a_traceback(
    arguments: tuple[str, ...], code: int, words: str, run: Run
) -> None:
    end = run(*arguments)
    assert end.code == code
    assert words in end.err
    assert "Traceback" not in end.err


def test_a_file_that_is_not_utf8_is_told(run: Run, tmp_path: Path) -> None:
    (tmp_path / "latin.yaml").write_bytes("catalogue: Tähkä".encode("latin-1"))
    end = run("catalogue", "check", "latin.yaml")
    assert (end.code, "not UTF-8 at byte" in end.err) == (3, True)


def test_a_file_with_faults_is_not_compared(run: Run, file: Path) -> None:
    file.write_text("catalogue: x", "utf-8")
    end = run("catalogue", "diff", "current", "small.yaml")
    assert (end.code, "catalogue check small.yaml" in end.err) == (3, True)


def test_the_database_goes_back_a_step_and_forth_and_keeps_the_catalogues(run: Run, file: Path) -> None:
    run("catalogue", "load", "small.yaml")
    before = run("catalogue", "list")
    assert run("database", "downgrade", "base").code == 3
    assert run("catalogue", "list") == before
    assert [line[:6] for line in run("database", "downgrade", "0001").out.splitlines()] == ["* 0001", "  0002"]
    assert [line[:6] for line in run("database", "upgrade").out.splitlines()] == ["  0001", "* 0002"]
    assert run("catalogue", "list") == before


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ((), ""),
        (("--origin", "https://shop.example"), "can read it, and with it the list prices; it can write"),
        (("--origin", "https://shop.example", "--book", "north"), "and with it the prices of north; it can write"),
    ],
)
def test_who_makes_a_key_for_pages_is_told_who_can_read_it(
    run: Run, file: Path, tmp_path: Path, more: tuple[str, ...], told: str
) -> None:
    run("catalogue", "load", "small.yaml")
    (tmp_path / "north.csv").write_text("sku,price\nBD-1,64\n")
    run("prices", "load", "north", "north.csv")
    end = run("key", "make", "Shop", *more)
    assert end.code == 0
    assert ("Whoever opens a page" in end.err, told in end.err) == (bool(told), True)
