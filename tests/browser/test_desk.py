"""Who looks at a page for others sees what is wrong with it, also where there is much of a make."""

from typing import Any

import pytest
from tests.browser.desk import Desk

PAGE = """<!doctype html><html lang="en"><head><title>Rows</title><style>
  body {{ color: #222; background: #fff }} .bar {{ background: #333 }} .bar td {{ color: #fff }}
</style></head><body><main><h1>Rows</h1><table><tbody>{}</tbody></table></main></body></html>"""
ROW = "<tr><td>{0}</td><td><b>{0}</b></td><td></td></tr>"
ODD = {
    "of a letter's own colour": '<tr><td>60</td><td style="color: #ddd">60</td></tr>',
    "of what it stands in": '<tr style="background: #444"><td>60</td></tr>',
    "of a line that is half seen": '<tr style="opacity: 0.4"><td>60</td></tr>',
    "of its class": '<tr class="bar"><td style="color: inherit">60</td></tr>',
    "of a box": '<tr><td><input aria-label="60" value="60" style="color: #ddd; background: #fff"></td></tr>',
}


@pytest.fixture
def desk(profiles: Any, server: str) -> Any:
    """A page of nothing yet."""
    with profiles.lend(service_workers="block") as context:
        yield Desk(context.new_page(), server)


def filled(desk: Desk, odd: str) -> None:
    rows = [ROW.format(number) for number in range(90)]
    desk.page.set_content(PAGE.format("".join([*rows[:60], odd, *rows[60:]])))


@pytest.mark.parametrize("kind", ODD)
def test_letters_that_cannot_be_read_are_found_among_many(desk: Desk, kind: str) -> None:
    filled(desk, ODD[kind])
    with pytest.raises(AssertionError, match="color-contrast"):
        desk.is_accessible()
    desk.is_accessible(colours=False)


def test_what_can_be_read_is_let_through(desk: Desk) -> None:
    filled(desk, "")
    desk.is_accessible()


def test_what_is_wrong_with_the_last_row_is_found(desk: Desk) -> None:
    filled(desk, "")
    desk.page.evaluate("document.querySelector('tr:last-child td:last-child').append(document.createElement('button'))")
    with pytest.raises(AssertionError, match="button-name"):
        desk.is_accessible()
