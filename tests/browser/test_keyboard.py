"""The whole way by keyboard alone, from an empty page to a printed figure, on a phone's screen and a desktop's."""

from typing import Any

import pytest
from playwright.sync_api import expect

WIDTHS = [390, 1280]
MOST_STOPS = 120
FOCUS = """() => {
  const one = document.activeElement, look = getComputedStyle(one), box = one.getBoundingClientRect();
  const x = box.left + Math.min(box.width / 2, 40), y = box.top + box.height / 2;
  const there = document.elementFromPoint(x, y);
  const over = document.querySelector('#foot').getBoundingClientRect();
  return {name: one.labels?.[0]?.innerText ?? one.innerText?.split('\\n')[0] ?? one.id, tag: one.tagName,
    outline: look.outlineStyle === 'none' ? 0 : parseFloat(look.outlineWidth),
    seen: Boolean(there) && [one, ...(one.labels ?? [])].some((part) => part.contains(there) || there.contains(part))};
}"""


class Hands:
    """Two hands on a keyboard: nothing here uses a mouse or a selector to act."""

    def __init__(self, page: Any) -> None:
        self.page, self.keys = page, page.keyboard

    def to(self, name: str) -> None:
        """Press Tab until the focus is on what is called so."""
        stops = []
        for _ in range(MOST_STOPS):
            self.keys.press("Tab")
            where = self.page.evaluate(FOCUS)
            stops.append(where["name"])
            if where["name"].replace("\n", " ").startswith(name):
                return
        pytest.fail(f"Tab never came to {name!r}, only to {stops}")

    def type(self, name: str, text: str) -> None:
        """Go to a field and type."""
        self.to(name)
        self.keys.type(text)

    def moment(self, name: str, *parts: str) -> None:
        """Go to a field for a date and a time, and type its parts as the browser takes them."""
        self.to(name)
        for part in parts:
            self.keys.type(part)
        self.page.wait_for_timeout(50)


@pytest.mark.parametrize("width", WIDTHS)
def test_a_whole_job_by_keyboard(open_page: Any, width: int) -> None:
    desk = open_page(width)
    hands = Hands(desk.page)
    desk.says("the quote appears here")
    hands.type("Floor system", "Levelled")
    hands.type("Thickness", "1/4")
    hands.type("Name", "Packing hall")
    hands.type("Measured by", "length")
    hands.type("Length", "42")
    hands.type("Width", "28' 6\"")
    hands.to("Drains, joints")
    hands.keys.press("Enter")
    hands.to("Add a drain")
    hands.keys.press("Enter")
    hands.type("Diameter", "8")
    hands.type("How many", "2")
    hands.to("none in this room")
    hands.keys.press("Space")
    hands.to("Slab tests so far")
    hands.keys.press("Enter")
    hands.type("Age at the start", "45")
    hands.type("Compressive strength", "4200")
    hands.to("looked, nothing found")
    hands.keys.press("Space")
    hands.to("Work and reopening")
    hands.keys.press("Enter")
    hands.to("Work begins")
    hands.keys.type("03052027")
    hands.keys.press("ArrowRight")
    hands.keys.type("0600AM")
    hands.type("Temperature", "64")
    hands.to("Order")
    hands.keys.press("Enter")
    hands.type("How sure", "careful")
    hands.type("Your reference", "PO 4711")
    hands.keys.press("Enter")
    desk.quoted()
    expect(desk.page.locator("#sheet")).to_be_focused()
    expect(desk.page.locator(".heading")).to_contain_text("PO 4711")
    expect(desk.page.locator(".answers dd").first).to_contain_text("$")
    job = desk.page.evaluate("JSON.parse(sessionStorage['gaugerake.job']).job")
    assert job["rooms"] == [
        {
            "name": "Packing hall",
            "shape": {"rectangle": {"length": "42", "width": "28' 6\""}},
            "drains": [{"round": {"diameter": "8"}, "count": 2}],
            "joints": [],
        }
    ]
    assert job["slab"] == {"age": "45", "compressive_strength": "4200", "contaminants": []}
    assert job["work"]["start"] == "2027-03-05T06:00"
    assert job["order"] == {"confidence": 0.95, "reference": "PO 4711"}
    hands.to("Print")


@pytest.mark.parametrize("width", WIDTHS)
def test_every_stop_shows_where_the_focus_is_and_nothing_hides_it(open_page: Any, example: Any, width: int) -> None:
    desk = open_page(width, job=example("least"))
    desk.quoted()
    desk.unfold()
    desk.page.evaluate("document.documentElement.style.scrollBehavior = 'auto'")
    names = []
    for _ in range(200):
        desk.page.keyboard.press("Tab")
        where = desk.page.evaluate(FOCUS)
        if where["tag"] == "BODY":
            break
        names.append(where["name"])
        assert where["outline"] >= 2, where
        assert where["seen"], where
    assert len(names) > 60
    assert names[0] == "Skip to the quote"


def test_the_focus_stays_where_the_sheet_is_written_anew(open_page: Any, example: Any) -> None:
    desk = open_page(job=example("least"))
    desk.quoted()
    working = desk.page.get_by_role("button", name="Show the working")
    working.focus()
    desk.page.keyboard.press("Enter")
    expect(desk.page.get_by_role("heading", name="Working")).to_be_visible()
    expect(working).to_be_focused()


@pytest.mark.parametrize("width", WIDTHS)
def test_a_mistake_is_found_from_the_summary(open_page: Any, width: int) -> None:
    desk = open_page(width)
    hands = Hands(desk.page)
    hands.type("Thickness", "1 3/2 in")
    hands.type("Area", "1200")
    hands.to("Slab tests so far")
    hands.keys.press("Enter")
    hands.type("Slab thickness", "5' 14\"")
    hands.keys.press("Enter")
    expect(desk.page.locator("#faults")).to_be_focused()
    expect(desk.page.locator("#faults li")).to_have_count(2)
    desk.page.evaluate("document.querySelector('#part-slab').open = false")
    hands.to("Slab thickness")
    hands.keys.press("Enter")
    expect(desk.page.locator("#slab-thickness")).to_be_focused()
    wrong = desk.page.locator("#slab-thickness")
    expect(wrong).to_have_attribute("aria-invalid", "true")
    told = "(one) => one.getAttribute('aria-describedby').split(' ').map((id) => document.getElementById(id).innerText)"
    assert "inches are fewer than 12" in " ".join(wrong.evaluate(told))
    hands.keys.press("Control+a")
    hands.keys.type("5")
    hands.keys.press("Tab")
    expect(desk.page.locator("#faults li")).to_have_count(1)


def test_a_first_quote_takes_three_fields(open_page: Any) -> None:
    """A system is chosen already and an area typed: nobody needs to know more in the first half minute."""
    desk = open_page()
    hands = Hands(desk.page)
    hands.type("Area", "1200")
    desk.quoted()
    expect(desk.page.locator(".answers dt").first).to_have_text("The order")
