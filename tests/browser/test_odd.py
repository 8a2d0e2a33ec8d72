"""What seldom comes: names without a blank or from right to left, a hundred trucks to load, letters set wide apart."""

from typing import Any

import pytest
from playwright.sync_api import expect

OVER = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
HUGE = {"system": "level-clear", "rooms": [{"shape": {"rectangle": {"length": "1200 ft", "width": "900 ft"}}}]}
SIDES = {"rectangle": {"length": "20 ft", "width": "10 ft"}}
SPACED = "* {line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important}"
"""What WCAG 2.2, 1.4.12 says that people may set; and space after paragraphs, which the page has."""


def named(*names: str, **order: str) -> Any:
    return {"system": "level-clear", "rooms": [{"name": name, "shape": SIDES} for name in names], "order": order}


@pytest.mark.parametrize("width", [320, 640, 1280])
def test_a_name_without_a_blank_stays_on_the_sheet(open_page: Any, width: int) -> None:
    desk = open_page(width, job=named("W" * 80, "North", reference="M" * 80))
    desk.quoted()
    desk.page.locator(".clock > summary").click()
    expect(desk.page.locator(".mixes")).to_be_visible()
    assert desk.page.evaluate(OVER) == 0
    desk.page.set_viewport_size({"width": 750, "height": 900})
    desk.page.emulate_media(media="print")
    assert desk.page.evaluate(OVER) == 0


def test_a_name_from_right_to_left_leaves_what_stands_beside_it(open_page: Any) -> None:
    desk = open_page(job=named("غرفة الغسيل"))
    desk.quoted()
    parts = desk.page.locator(".plan figcaption").evaluate(
        """(one) => { const range = document.createRange(); range.selectNode(one.childNodes[1]);
          const [name, ...area] = [one.firstChild.getBoundingClientRect(), ...range.getClientRects()];
          return [name.right, ...area.map((part) => part.left)];
        }"""
    )
    assert len(parts) == 2, "the area is torn in two"
    assert parts[0] <= parts[1] + 1


def test_many_packs_do_not_run_into_what_they_are_of(open_page: Any) -> None:
    desk = open_page(390, job=HUGE)
    desk.quoted()
    gaps = desk.page.locator(".order tbody tr").evaluate_all(
        """(rows) => rows.map(({children: [name, , packs]}) => { const range = document.createRange();
          range.selectNodeContents(packs);
          return name.getBoundingClientRect().left - range.getBoundingClientRect().right; })"""
    )
    assert min(gaps) > 8  # the times sign is drawn in it
    packs = desk.page.locator(".order tbody td:nth-child(3)").all_inner_texts()
    assert any(len(text) > 5 for text in packs)
    assert not [text for text in packs if len(text) > 3 and "," not in text]


@pytest.mark.parametrize("width", [390, 1280])
def test_letters_set_wide_apart_lose_nothing(open_page: Any, example: Any, width: int) -> None:
    desk = open_page(width, job=example("full"), bypass_csp=True)
    desk.quoted()
    desk.page.add_style_tag(content=SPACED)
    desk.unfold()
    assert desk.page.evaluate(OVER) == 0
    lost = desk.page.evaluate(
        """[...document.querySelectorAll('h1, h2, h3, p, li, th, td, dt, dd, summary, legend, label, button, text')]
          .filter((one) => one.checkVisibility()).map((one) => [one.getBoundingClientRect(), one])
          .filter(([box]) => box.right > 0 && (box.left < 0 || box.right > innerWidth))
          .map(([, one]) => one.textContent)"""
    )
    assert lost == []


def test_a_long_name_of_a_step_stays_on_the_timetable(open_page: Any, example: Any) -> None:
    """The list below has all of it."""
    long = "Urethane-cement levelling body of the second delivery, with fibres, for wet rooms"
    desk = open_page(390)
    desk.page.route(
        "**/v1/quotes?*",
        lambda route: route.fulfill(body=route.fetch().text().replace("Urethane-cement levelling body", long)),
    )
    desk.open(job=example("counter"))
    desk.quoted()
    over = "(boxes) => boxes.filter((box) => box.left < 0 || box.right > innerWidth)"
    boxes = "all.map((one) => one.getBoundingClientRect())"
    assert desk.page.locator(".timetable text:visible").evaluate_all(f"(all) => ({over})({boxes})") == []
    desk.page.locator("summary", has_text="The likely run").click()
    expect(desk.page.get_by_role("rowheader", name=long, exact=True)).to_be_visible()
