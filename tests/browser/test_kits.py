"""A catalogue with kits of parts on the page: the order says which lines belong together, and parts can be on hand."""

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import expect
from tests.contract.test_kits import CATALOGUE, ONE, TWELVE
from tests.service import running

from gaugerake.catalogue.store.first_start import ensure_ready

JOB = {"system": "mortar-floor", "rooms": [{"shape": {"measured": {"area": "480 ft2", "perimeter": "92 ft"}}}]}


@pytest.fixture(scope="module")
def kits(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a service with that catalogue."""
    folder = tmp_path_factory.mktemp("kits")
    url = f"sqlite:///{folder / 'catalogue.sqlite3'}"
    ensure_ready(url).load(CATALOGUE)
    with running(folder, database=url) as address:
        yield address


@pytest.mark.parametrize("width", [1280, 390])
def test_the_order_says_which_lines_make_a_kit(open_page: Any, kits: str, width: int) -> None:
    desk = open_page(width, server=kits, job=JOB)
    desk.quoted()
    rows = desk.page.locator("table.order tbody tr")
    expect(rows).to_have_count(4)
    expect(rows.nth(0)).to_contain_text("Liquid for one mix")
    for place, kit in enumerate((ONE, ONE, TWELVE, TWELVE)):
        expect(rows.nth(place)).to_contain_text(f"part of the kit {kit}")
    desk.is_accessible()
    desk.reads_well()


def test_a_part_can_be_named_as_on_hand(open_page: Any, kits: str) -> None:
    desk = open_page(server=kits, job=JOB)
    desk.quoted()
    desk.unfold()
    desk.page.get_by_role("button", name="Add packs on hand").click()
    choice = desk.page.locator("[data-list='/order/on_hand'] select")
    assert choice.locator("option").all_inner_texts()[1:] == [
        "Liquid for one mix (ML-1)",
        "Powder for one mix (MP-1)",
        "Liquid for twelve mixes (ML-12)",
        "Powder for twelve mixes (MP-12)",
    ]
    choice.select_option("ML-1")
    desk.page.locator("[data-list='/order/on_hand'] input").fill("2")
    desk.page.keyboard.press("Tab")
    expect(desk.page.locator("body")).to_contain_text("ML-1: 2 on hand without the rest of the kit")
