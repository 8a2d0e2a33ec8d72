"""A page in a hand: a small screen, a low one, a thumb for a mouse."""

from typing import Any

import pytest
from playwright.sync_api import expect

SCREENS = [(390, 844), (390, 420), (320, 256)]
"""A phone, a phone with its keyboard open, and a screen of 1280 by 1024 enlarged fourfold."""

COVERED = """() => {
  const one = document.activeElement, field = one.getBoundingClientRect();
  const bar = document.querySelector('#foot').getBoundingClientRect();
  const hidden = Math.round(Math.max(0, field.bottom - bar.top));
  return {hidden, top: Math.round(field.top), tall: field.height > bar.top, what: one.id || one.dataset.at};
}"""
"""How much of the field in hand lies under the bar."""


@pytest.mark.parametrize("screen", SCREENS, ids=lambda screen: "x".join(map(str, screen)))
def test_the_bar_never_covers_the_field_in_hand(open_page: Any, example: Any, screen: tuple[int, int]) -> None:
    desk = open_page(screen[0], job=example("least"))
    desk.page.set_viewport_size({"width": screen[0], "height": screen[1]})
    desk.quoted()
    desk.unfold()
    desk.page.evaluate("document.documentElement.style.scrollBehavior = 'auto'")
    fields = desk.page.locator("#job :is(input, select, textarea, button):visible")
    assert fields.count() > 50
    for index in range(0, fields.count(), 4):
        fields.nth(index).focus()
        where = desk.page.evaluate(COVERED)
        assert where["hidden"] == 0 or where["tall"], where
        assert where["top"] >= 0, where


@pytest.mark.parametrize("screen", SCREENS, ids=lambda screen: "x".join(map(str, screen)))
def test_the_bar_that_comes_leaves_the_field_in_hand_in_sight(open_page: Any, screen: tuple[int, int]) -> None:
    """The field lies at the foot of the screen when the first quote brings the bar."""
    desk = open_page(screen[0])
    desk.page.set_viewport_size({"width": screen[0], "height": screen[1]})
    desk.page.evaluate("document.documentElement.style.scrollBehavior = 'auto'")
    area = desk.page.locator("[data-at='shape/measured/area']")
    area.focus()
    desk.page.evaluate("scrollBy(0, document.activeElement.getBoundingClientRect().bottom - innerHeight + 2)")
    assert area.evaluate("(one) => innerHeight - one.getBoundingClientRect().bottom") < 10
    area.press_sequentially("1200")
    desk.quoted()
    expect(desk.page.locator("#foot")).to_be_visible()
    for _ in range(20):  # the bar is measured when it is drawn
        if desk.page.evaluate(COVERED)["hidden"] == 0:
            break
        desk.page.wait_for_timeout(50)
    assert desk.page.evaluate(COVERED)["hidden"] == 0


def test_the_bar_is_one_low_line_on_a_low_screen(open_page: Any, example: Any) -> None:
    desk = open_page(320, job=example("least"))
    desk.quoted()
    bar = desk.page.locator("#foot")
    high = bar.evaluate("(one) => one.offsetHeight")
    desk.page.set_viewport_size({"width": 320, "height": 256})
    low = bar.evaluate("(one) => one.offsetHeight")
    assert low <= 32 < high
    assert all(link.evaluate("(one) => one.offsetHeight") >= 24 for link in bar.get_by_role("link").all())
    desk.is_accessible()


def test_the_bar_stands_above_a_keyboard_that_lies_over_the_page(open_page: Any) -> None:
    """As some browsers have it: what is seen shrinks, and the page does not."""
    desk = open_page(390)
    desk.type("Area", "1200")
    desk.quoted()
    desk.page.evaluate(
        """Object.defineProperty(visualViewport, 'height', {value: innerHeight - 300});
          visualViewport.dispatchEvent(new Event('resize'));"""
    )
    # the module that lifts it came with the first field, and may be here later than the quote
    desk.page.wait_for_function("innerHeight - document.querySelector('#foot').getBoundingClientRect().bottom === 300")
    content = desk.page.locator("meta[name=viewport]").get_attribute("content")
    assert "interactive-widget=resizes-content" in content  # where the browser asks, the page shrinks with it


MOST_SCREENS = 5
"""Of 390 by 844, for the simplest quote."""


def test_the_simplest_quote_is_five_screens_of_a_phone(open_page: Any) -> None:
    desk = open_page(390, has_touch=True, is_mobile=True)
    desk.page.set_viewport_size({"width": 390, "height": 844})
    desk.type("Area", "1200")
    desk.quoted()
    assert desk.page.evaluate("document.querySelector('#sheet').getBoundingClientRect().height") <= MOST_SCREENS * 844
    slab = desk.page.locator(".part-the-slab")
    fold = slab.locator("summary").first
    expect(fold).to_have_text("19 checks open; 4 moisture tests needed")
    fold.click()
    expect(slab.locator(".open dt")).to_have_count(19)
    expect(slab).to_contain_text("Look at a core")
    desk.is_accessible()


def test_a_list_of_contents_leads_to_the_parts_and_leaves_the_address(open_page: Any) -> None:
    desk = open_page(390, job={"system": "level-clear", "rooms": [{"shape": {"measured": {"area": "1200 ft2"}}}]})
    desk.quoted()
    address = desk.page.url
    links = desk.page.get_by_role("navigation", name="The quote", exact=True).get_by_role("link")
    assert links.all_inner_texts() == [
        "To load", "Back on the floor", "The floor", "The pour", "The slab", "Take care",
    ]  # fmt: skip
    links.nth(4).click()
    heading = desk.page.locator(".part-the-slab h3")
    expect(heading).to_be_focused()
    expect(heading).to_be_in_viewport()
    assert desk.page.url == address
    desk.page.set_viewport_size({"width": 1280, "height": 900})
    expect(links.first).to_be_hidden()
