"""Rooms as people measure them: two sides, feet and inches, a walk along the wall, keys for a thumb."""

from typing import Any

import pytest
from playwright.sync_api import expect

AREA = "[data-at='shape/measured/area']"
CORNERS = "[data-at='shape/polygon/points']"
ROOMS = "JSON.parse(sessionStorage['gaugerake.job']).job.rooms"


def test_two_sides_typed_as_an_area_are_offered_as_length_and_width(open_page: Any) -> None:
    desk = open_page(390)
    desk.page.locator(AREA).fill("42 x 28")
    offer = desk.page.get_by_role("button", name="Take it as a length of 42 and a width of 28")
    expect(offer).to_be_visible()
    desk.is_accessible()
    offer.click()
    desk.quoted()
    expect(desk.page.locator(".rooms")).to_contain_text("1,176 sq ft")  # 42 by 28
    assert desk.page.evaluate(ROOMS)[0]["shape"] == {"rectangle": {"length": "42", "width": "28"}}


def test_an_offer_goes_when_one_figure_is_left(open_page: Any) -> None:
    desk = open_page()
    desk.page.locator(AREA).fill("42 x 28")
    offer = desk.page.get_by_role("button", name="Take it as a length")
    expect(offer).to_be_visible()
    desk.type("Area", "1176")
    expect(offer).to_have_count(0)
    desk.quoted()


def test_corners_are_in_feet_and_inches_and_drawn_while_they_are_typed(open_page: Any) -> None:
    desk = open_page(390)
    desk.page.locator(".room [data-variant]").first.select_option("polygon")
    field = desk.page.locator(CORNERS)
    field.fill("0, 0\n12 ft 6 in, 0\n12' 6\", 8 ft")
    drawing = desk.page.locator(".outline")
    expect(drawing).to_contain_text("3 corners; from the last back to the first it is 14 ft 10 1/16 in.")  # 14.841 ft
    expect(drawing.locator("text").first).to_have_text("12 ft 6 in")
    field.fill("0, 0\n12 ft 6 in, 0\n12' 6\", 8 ft\n0, 8")
    expect(drawing).to_contain_text("4 corners; from the last back to the first it is 8 ft.")
    desk.quoted()
    expect(desk.page.locator(".rooms")).to_contain_text("100 sq ft")  # 12.5 by 8
    desk.is_accessible()


def test_the_wall_is_walked(open_page: Any) -> None:
    desk = open_page(390)
    desk.page.locator(".room [data-variant]").first.select_option("polygon")
    desk.page.locator(CORNERS).fill("20 ft, left, 10 ft, left, 12 ft, left, 4 ft, right, 8 ft")
    desk.quoted()
    expect(desk.page.locator(".rooms")).to_contain_text("168 sq ft")  # 20 by 10 less a notch of 8 by 4
    points = desk.page.evaluate(ROOMS)[0]["shape"]["polygon"]["points"]
    assert points == [[0, 0], [20, 0], [20, 10], [8, 10], [8, 6], [0, 6]]
    desk.page.reload()
    desk.quoted()
    expect(desk.page.locator(CORNERS)).to_have_value("0, 0\n20, 0\n20, 10\n8, 10\n8, 6\n0, 6")


def test_a_room_that_is_added_later_draws_its_corners_too(open_page: Any) -> None:
    desk = open_page()
    desk.page.get_by_role("button", name="Add a room").click()
    room = desk.page.locator(".room").nth(1)
    room.locator("[data-variant]").first.select_option("polygon")
    room.locator(CORNERS).fill("3 m, left, 2 m, left, 3 m")
    expect(room.locator(".outline")).to_contain_text("4 corners")


def test_a_thumb_has_keys_for_the_units(open_page: Any) -> None:
    desk = open_page(390, has_touch=True, is_mobile=True)
    area = desk.page.locator(AREA)
    area.tap()
    keys = desk.page.locator(".keys button")
    expect(keys).to_have_text(["sq ft", "×", "m²"])
    area.press_sequentially("110")
    keys.nth(2).tap()
    expect(area).to_be_focused()
    expect(area).to_have_value("110 m² ")
    desk.quoted()
    expect(desk.page.locator(".rooms")).to_contain_text("1,184 sq ft")  # 110 / 0.09290304 = 1,184.03, in whole feet
    desk.is_accessible()
    thickness = desk.page.locator("#thickness")
    thickness.tap()
    expect(keys).to_have_text(["in", "/", "mm"])
    thickness.press_sequentially("1")
    keys.nth(1).tap()
    thickness.press_sequentially("4")
    expect(thickness).to_have_value("1/4")
    assert all(key.evaluate("(one) => one.offsetHeight") >= 44 for key in keys.all())


@pytest.mark.parametrize("width", [320, 360, 390])
def test_the_keys_of_a_narrow_field_stay_on_the_page(open_page: Any, width: int) -> None:
    desk = open_page(width, has_touch=True, is_mobile=True)
    desk.page.locator(AREA).fill("1200")
    desk.page.get_by_label("Perimeter").focus()
    expect(desk.page.locator(".keys button")).to_have_text(["ft", "in", "/", "m"])
    assert desk.page.evaluate("document.documentElement.scrollWidth") <= width
    ends = [
        key.evaluate("(one) => one.getBoundingClientRect().right") for key in desk.page.locator(".keys button").all()
    ]
    assert max(ends) <= width


def test_what_is_said_of_a_number_is_true_on_this_page(open_page: Any) -> None:
    """Here a number alone has the unit beside its field."""
    desk = open_page()
    desk.type("Area", "1200.")
    wrong = desk.page.locator(".room .wrong")
    expect(wrong).to_contain_text("A number alone is taken in sq ft.")
    desk.type("Area", "1 2 3")
    expect(wrong).to_contain_text("A number alone is taken in sq ft.")
    assert "anything" not in desk.text()
