"""Every state of the page is accessible, reads well, and fits its screen."""

import re
from typing import Any

import pytest
from playwright.sync_api import expect
from tests.browser.desk import AXE, VIOLATIONS

JOBS = ["least", "full", "winter", "metric"]
COLOURS = {(390, "light"), (1280, "dark")}
"""Where they are looked at: they do not depend on the width."""

LOOKS = [(390, "light"), (390, "dark"), (1280, "light"), (1280, "dark")]


@pytest.mark.parametrize(("width", "scheme"), LOOKS)
def test_the_empty_page(open_page: Any, width: int, scheme: str) -> None:
    desk = open_page(width, color_scheme=scheme)
    desk.says("the quote appears here")
    # folded, it is a part of what test_errors sees in each of these looks
    desk.unfold()
    desk.is_accessible(colours=(width, scheme) in COLOURS)
    desk.reads_well()


@pytest.mark.parametrize(
    ("name", "width", "scheme"), [("full", 390, "light"), ("full", 1280, "dark"), ("winter", 390, "dark")]
)
def test_the_filled_page(open_page: Any, example: Any, name: str, width: int, scheme: str) -> None:
    desk = open_page(width, job=example(name), color_scheme=scheme)
    desk.quoted()
    desk.unfold()
    desk.page.get_by_role("button", name="Show the working").click()
    expect(desk.page.get_by_role("heading", name="Working")).to_be_visible()
    # the four hundred figures are all of one make: axe is given the first few
    for summary in desk.page.locator(".workings summary").all()[:3]:
        summary.click()
    desk.is_accessible()
    desk.unfold()
    desk.reads_well()


@pytest.mark.parametrize("name", ["least", "metric"])
def test_the_filled_page_in_metres(shown: Any, name: str) -> None:
    desk = shown(name, "si")
    desk.unfold()
    desk.is_accessible(colours=False)
    desk.reads_well()


def test_the_slab_alone(open_page: Any, example: Any) -> None:
    desk = open_page(390, job=example("slab-only"))
    desk.says("The slab alone")
    expect(desk.page.locator(".verdict strong")).to_have_text("To be put right first")
    desk.unfold()
    desk.is_accessible()
    desk.reads_well()


@pytest.mark.parametrize(("width", "scheme"), LOOKS)
def test_errors(open_page: Any, width: int, scheme: str) -> None:
    desk = open_page(width, color_scheme=scheme)
    desk.type("Area", "1200")
    desk.quoted()
    desk.type("Thickness", "thin")
    desk.type("Perimeter", "1,5 m")
    desk.says("Something needs another look")
    expect(desk.page.locator("#faults li")).to_have_count(2)
    desk.is_accessible(colours=(width, scheme) in COLOURS)
    desk.reads_well()


@pytest.mark.parametrize("name", JOBS)
def test_nothing_is_wider_than_the_screen(open_page: Any, example: Any, name: str) -> None:
    """From 320 px on, also at 640 px, which a screen of 1280 px has at 200 % zoom (WCAG 2.2, 1.4.4 and 1.4.10)."""
    desk = open_page(320, job=example(name))
    desk.quoted()
    desk.unfold()
    over = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
    assert desk.page.evaluate(over) == 0
    # the last is the narrowest on which job and quote stand side by side
    for width in (640, 1024, 1119, 1120):
        desk.page.set_viewport_size({"width": width, "height": 450})
        assert desk.page.evaluate(over) == 0, width


def test_every_target_is_large_enough_for_a_wet_glove(open_page: Any, example: Any) -> None:
    desk = open_page(390, job=example("full"))
    desk.quoted()
    desk.unfold()
    small = desk.page.evaluate(
        """[...document.querySelectorAll('button, summary, select, textarea, input, .foot-bar a')]
          .map((one) => (/checkbox|radio/.test(one.type) ? one.closest('label') : one))
          .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < 44)
          .map((one) => one.outerHTML.slice(0, 120))"""
    )
    assert small == []


def test_no_way_of_holding_the_screen_is_forced(open_page: Any) -> None:
    desk = open_page(390)
    desk.page.evaluate(AXE)
    rule = {"runOnly": {"type": "rule", "values": ["css-orientation-lock"]}, "resultTypes": ["violations"]}
    assert desk.page.evaluate(VIOLATIONS, rule) == []


def test_reduced_motion_is_respected(open_page: Any) -> None:
    desk = open_page(reduced_motion="reduce")
    assert desk.page.evaluate("getComputedStyle(document.documentElement).scrollBehavior") == "auto"
    moving = (
        "[...document.querySelectorAll('*')].filter((one) => parseFloat(getComputedStyle(one).transitionDuration) > 0)"
    )
    assert desk.page.evaluate(f"{moving}.length") == 0


def test_job_and_quote_are_both_at_hand(open_page: Any, example: Any) -> None:
    """Side by side on a desk; on a phone one tap apart."""
    desk = open_page(1280, job=example("full"))
    desk.quoted()
    expect(desk.page.locator("#foot")).to_be_hidden()
    desk.page.get_by_role("button", name="Print").scroll_into_view_if_needed()
    expect(desk.page.locator("#system")).to_be_in_viewport()
    phone = open_page(390, job=example("full"), reduced_motion="reduce")
    phone.quoted()
    expect(phone.page.locator("#sheet .heading")).to_be_in_viewport()
    phone.page.get_by_role("link", name="The job").click()
    expect(phone.page.get_by_role("heading", level=1)).to_be_in_viewport()
    phone.page.locator("#foot").get_by_role("link", name="$19,987.55").click()
    expect(phone.page.locator("#sheet .heading")).to_be_in_viewport()
    phone.type("Thickness", "thin")
    expect(phone.page.locator("#foot")).to_contain_text("Something needs another look")


def test_drawings_take_the_colours_that_people_force(open_page: Any, example: Any) -> None:
    desk = open_page(job=example("full"), forced_colors="active", color_scheme="dark")
    desk.quoted()
    look = "(one) => [getComputedStyle(one).fill, getComputedStyle(document.body).backgroundColor]"
    for drawn in (".timetable .bar", ".timetable .mark", ".plan .drain", ".section text"):
        fill, paper = desk.page.locator(drawn).locator("visible=true").first.evaluate(look)
        assert fill != paper, drawn
        assert fill == "rgb(255, 255, 255)", drawn


def test_every_field_has_a_label(shown: Any) -> None:
    desk = shown("full")
    bare = desk.page.evaluate(
        "[...document.querySelectorAll('input, select, textarea')].filter((one) => !one.labels.length).length"
    )
    assert bare == 0


def test_drawings_have_words_of_their_own(shown: Any) -> None:
    desk = shown("full")
    desk.unfold()
    told = desk.page.eval_on_selector_all(
        "#answer figure", "all => all.map((one) => one.querySelector('figcaption').innerText)"
    )
    assert len(told) >= 5
    assert all(re.search(r"\d", words) for words in told)
    hidden_or_named = "svg:not([aria-hidden]):not([role=img][aria-label])"
    assert desk.page.locator(f"#answer {hidden_or_named}").count() == 0
