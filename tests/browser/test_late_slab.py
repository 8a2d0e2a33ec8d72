"""The page on the slab, where answers come late: none of them takes the place of what was said since."""

from collections.abc import Callable
from typing import Any

import pytest
import requests
from playwright.sync_api import Route, expect
from tests.browser.conftest import opening
from tests.browser.desk import link
from tests.browser.late import holding, let_go
from tests.browser.pouring import BOARD, WAY, Pour
from tests.browser.profiles import Profiles

Phone = Callable[..., Pour]
PROGRESS = "**/v1/pour-progress*"
PLAN = "**/v1/pour-plan*"


@pytest.fixture
def judged_late(phone: Phone) -> Any:
    """A pour of three mixes whose edge was measured, and the answer to it on its way."""
    pour = phone(WAY)
    pour.page.on("dialog", lambda dialog: dialog.accept())
    pour.tap("mix", "1", 3)
    held = holding(pour.page, PROGRESS)
    with pour.page.expect_request(PROGRESS):
        pour.tap("measure")
    pour.page.locator("summary", has_text="This pour").tap()
    return pour, held


def says_nothing(pour: Pour, late: Route) -> None:
    """The answer comes, and is told as none."""
    let_go(pour.page, late)
    pour.state("Kept on this device")
    pour.tells("answered", "")


def test_a_pour_that_is_begun_anew_is_not_told_by_an_answer_from_before(judged_late: Any) -> None:
    pour, held = judged_late
    pour.tap("anew")
    pour.tells("mixes", "0 mixes emptied")
    says_nothing(pour, held[0])


def test_an_answer_about_the_side_from_before_says_nothing_of_this_one(judged_late: Any) -> None:
    pour, held = judged_late
    pour.tap("other-side")
    pour.tap("side", "top")
    expect(pour.page.locator(BOARD)).to_be_visible()
    says_nothing(pour, held[0])


def test_what_was_measured_and_undone_is_judged_no_more(judged_late: Any) -> None:
    pour, held = judged_late
    pour.tap("undo")
    says_nothing(pour, held[0])


def test_what_is_undone_without_a_network_waits_for_none(phone: Phone) -> None:
    pour = phone(WAY)
    pour.tap("mix", "1", 3)
    pour.page.route(PROGRESS, lambda route: route.abort("internetdisconnected"))
    pour.tap("measure")
    pour.state("No network")
    pour.tap("undo")
    pour.state("Kept on this device")


def test_a_plan_that_comes_after_it_was_given_up_changes_nothing(phone: Phone) -> None:
    """From the left a mix goes 35.2 / 28.5 = 1.2351 ft, 1 ft 2.8 in."""
    pour = phone(WAY)
    held = holding(pour.page, PLAN)
    pour.page.locator("summary", has_text="This pour").tap()
    pour.tap("other-side")
    with pour.page.expect_request(PLAN):
        pour.tap("side", "top")
    pour.tap("as-it-was")
    pour.tells("next", "Mix 1 ends at 1 ft 2 3/4 in")
    let_go(pour.page, held[0])
    pour.tells("next", "Mix 1 ends at 1 ft 2 3/4 in")


def test_a_plan_stands_in_the_units_that_are_chosen_when_it_comes(phone: Phone) -> None:
    """From above a mix goes 35.2 / 42 = 0.8381 ft: 0.25545 m, on a tape of 5 mm 0.255 m."""
    pour = phone(WAY)
    held = holding(pour.page, PLAN)
    pour.page.locator("summary", has_text="This pour").tap()
    pour.tap("other-side")
    with pour.page.expect_request(PLAN):
        pour.tap("side", "top")
    pour.page.locator("#units label", has_text="metres").tap()
    let_go(pour.page, held[0])
    expect(pour.page.get_by_label("metres")).to_be_checked()
    pour.tells("next", "Mix 1 ends at 0.255 m")


def test_a_pour_that_is_opened_twice_keeps_its_mixes(profiles: Profiles, marks_server: str) -> None:
    """The network comes back while the quote is on its way: it is asked for again, and comes twice."""
    token = requests.post(f"{marks_server}/v1/quotes", json=WAY, timeout=30).json()["token"]
    with opening(profiles.lend, marks_server) as open_it:
        desk = open_it(390, path="healthz", ready="body", has_touch=True, is_mobile=True)
        page, pour = desk.page, Pour(desk)
        held = holding(page, "**/v1/quotes/*")
        with page.expect_request("**/v1/quotes/*"):
            page.goto(f"{desk.server}/slab.html#quote={token}")
        with page.expect_request("**/v1/quotes/*"):
            page.evaluate("dispatchEvent(new Event('online'))")
        held[0].continue_()
        expect(page.locator(BOARD)).to_be_visible()
        pour.tap("mix", "1", 3)
        let_go(page, held[1])
        pour.tells("mixes", "3 mixes emptied")


def test_the_units_that_are_chosen_while_a_pour_is_opened_stay(phone: Phone) -> None:
    pour = phone(None, ready="#state[data-trouble]")
    held = holding(pour.page, "**/v1/quotes?*")
    with pour.page.expect_request("**/v1/quotes?*"):
        pour.page.evaluate("(hash) => { location.hash = hash; }", link(WAY))
    pour.page.locator("#units label", has_text="metres").tap()
    let_go(pour.page, held[0])
    expect(pour.page.locator(BOARD)).to_be_visible()
    expect(pour.page.get_by_label("metres")).to_be_checked()
    pour.tells("next", "Mix 1 ends at 0.375 m")  # 0.37645 m, on a tape of 5 mm
