"""Price lists of branches on the command line: checked, shown, written out, compared, and where they have been."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.catalogue.commands import Run

FIRST = "sku,price,from\nBD-1,64.00,\nBD-1,60.00,20\nCL-2,80.00,\n"
SECOND = "sku,price,from\nBD-1,65.50,\nCL-8,300.00,\n"


@pytest.fixture()
def shop(run: Run, file: Path, tmp_path: Path) -> Run:
    """A shop with the small catalogue and two files of prices."""
    run("catalogue", "load", "small.yaml")
    (tmp_path / "first.csv").write_text(FIRST)
    (tmp_path / "second.csv").write_text(SECOND)
    return run


def test_a_price_list_is_checked_and_nothing_of_it_is_kept(shop: Run, tmp_path: Path) -> None:
    end = shop("prices", "check", "first.csv")
    assert (end.code, end.out) == (0, "first.csv: sound; prices: 2\n")
    assert "first.csv:1: caution: CL-8: no price in this file" in end.err
    assert shop("prices", "list").out == ""
    (tmp_path / "first.csv").write_text(FIRST.replace("80.00", "80.005").replace("BD-1,64", "BD-9,64"))
    end = shop("prices", "check", "first.csv")
    assert end.code == 1
    assert [line.split(": ")[0] for line in end.out.splitlines()] == ["first.csv:2", "first.csv:3", "first.csv:4"]


def test_a_price_list_is_checked_beside_a_catalogue_to_come(shop: Run, file: Path, spoiled: Callable[..., str]) -> None:
    file.write_text(spoiled(("sku: CL-2", "sku: CL-3")), "utf-8")
    end = shop("prices", "check", "first.csv", "--catalogue", "small.yaml")
    assert (end.code, end.out) == (1, 'first.csv:4: CL-2: the catalogue has no such sku. Do you mean "CL-8"?\n')
    file.write_text("catalogue: x", "utf-8")
    assert shop("prices", "check", "first.csv", "--catalogue", "small.yaml").code == 3


def test_the_prices_in_use_are_shown_and_written_out(shop: Run) -> None:
    shop("prices", "load", "north", "first.csv")
    assert shop("prices", "show", "north").out.splitlines() == [
        "BD-1, Body, 1 mix: 64.00; 60.00 from 20",
        "CL-2, Clear, 2 gal: 80.00",
    ]
    assert shop("prices", "export", "north").out == FIRST
    assert "BD-1, Body, 1 mix: 70.00; 66.00 from 10; 61.50 from 30" in shop("prices", "show", "list").out
    assert shop("prices", "export", "list").out.startswith("sku,price,from\nBD-1,70.00,\nBD-1,66.00,10\n")


def test_what_a_new_list_would_change_is_told(shop: Run) -> None:
    shop("prices", "load", "north", "first.csv")
    assert shop("prices", "diff", "north", "second.csv").out.splitlines() == [
        "BD-1: 64.00; 60.00 from 20 -> 65.50",
        "no longer there: CL-2 (was 80.00)",
        "new: CL-8: 300.00",
    ]
    assert shop("prices", "diff", "north", "first.csv").out == "no difference\n"
    assert "BD-1: 70.00; 66.00 from 10; 61.50 from 30 -> 64.00; 60.00 from 20" in (
        shop("prices", "diff", "list", "north").out
    )


def test_an_earlier_list_is_found_again(shop: Run, tmp_path: Path) -> None:
    shop("prices", "load", "north", "first.csv")
    shop("prices", "load", "north", "second.csv")
    listed = json.loads(shop("prices", "history", "north", "--json").out)
    assert [(one["prices"], one["in_use"]) for one in listed] == [(2, True), (2, False)]
    lines = shop("prices", "history", "north").out.splitlines()
    assert [line[:14] for line in lines] == [f"* {listed[0]['book'][:12]}", f"  {listed[1]['book'][:12]}"]
    earlier = listed[1]["book"][:8]
    assert shop("prices", "export", earlier).out == FIRST
    assert shop("prices", "diff", earlier, "north").out.startswith("BD-1: 64.00; 60.00 from 20 -> 65.50\n")
    (tmp_path / "again.csv").write_text(shop("prices", "export", earlier).out)
    shop("prices", "load", "north", "again.csv")
    marks = [(one["book"][:8], one["in_use"]) for one in json.loads(shop("prices", "history", "north", "--json").out)]
    assert (earlier, True) in marks


@pytest.mark.parametrize("command", ["show", "export", "history"])
def test_a_branch_without_prices_is_told(shop: Run, command: str) -> None:
    end = shop("prices", command, "south")
    assert (end.code, end.err) == (3, 'gaugerake: there is no price book "south"\n')


def test_an_id_is_named_by_four_characters_or_more(shop: Run) -> None:
    shop("prices", "load", "north", "first.csv")
    [listed] = json.loads(shop("prices", "history", "north", "--json").out)
    assert shop("prices", "show", listed["book"][:3]).code == 3
    assert shop("prices", "show", listed["book"][:4]).code == 0


def test_cautions_stand_in_the_order_of_the_file_each_at_its_line(
    run: Run, file: Path, spoiled: Callable[..., str]
) -> None:
    """A product that no system uses is told where it stands, between what is told of the products around it."""
    pack = "{sku: IDLE-%s, contents: 1 piece, unit_code: EA}"
    idle = "  - {code: idle-%s, name: Idle, counted_in: piece, packs: [" + pack + "]}\n"
    text = spoiled(("likely: 27 h", "likely: 6 h"), ('{from: 30, price: "61.50"}', '{from: 30, price: "75.00"}'))
    first, second = "  - code: body\n", "  - code: clear\n"
    text = text.replace(first, idle % (1, 1) + first).replace(second, idle % (2, 2) + second)
    file.write_text(text, "utf-8")
    end = run("catalogue", "check", "small.yaml")
    told = [line.split(": ")[:3] for line in end.err.splitlines()]
    lines = [int(place.split(":")[1]) for place, _, _ in told]
    paths = [path for _, _, path in told]
    assert paths == [
        "products[idle-1]",
        "products[body].packs[BD-1].breaks",
        "products[idle-2]",
        "systems[probe].returns[carts].after",
    ]
    written = text.splitlines()
    assert lines == sorted(lines)
    assert [
        "idle-1" in written[lines[0] - 1],
        "breaks" in written[lines[1] - 1],
        "idle-2" in written[lines[2] - 1],
    ] == [
        True,
        True,
        True,
    ]
