"""The page on the slab where things go wrong: full stores, two tabs, a network that comes and goes, small screens."""

import re

import pytest
import requests
from playwright.sync_api import Route, expect
from tests.answers.slab_jobs import FROM_LEFT, feet, job
from tests.browser.conftest import Phone, opening
from tests.browser.keyed import Keyed
from tests.browser.pouring import BOARD, SETUP, WAY, Pour
from tests.browser.profiles import Profiles

FULL = "() => { Storage.prototype.setItem = () => { throw new DOMException('', 'QuotaExceededError'); }; }"
AWAY = "() => new Promise((done) => navigator.onLine ? addEventListener('offline', () => done()) : done())"
CUT = """(all) => all.filter((one) => one.checkVisibility() && one.scrollWidth > one.clientWidth)
  .map((one) => one.textContent)"""
COVERED = """() => {
  const [headline, next, pad] = ['.headline', '.next', '#pad']
    .map((name) => document.querySelector(name).getBoundingClientRect());
  return [headline, next].filter((one) => one.bottom > pad.top && one.right > pad.left);
}"""
ELL = {"points": [[0, 0], [40, 0], [40, 10], [12, 10], [12, 30], [0, 30]], "unit": "ft"}


def judged(pour: Pour, words: str) -> None:
    expect(pour.page.locator('[data-tell="answered"]')).to_contain_text(words)


def turned(pour: Pour, side: str) -> None:
    """Say that the pour begins at another side."""
    pour.page.locator("summary", has_text="This pour").tap()
    pour.tap("other-side")
    pour.tap("side", side)


def test_a_full_store_is_told_and_the_count_goes_on(phone: Phone) -> None:
    pour = phone(WAY)
    unkept = pour.page.locator("#unkept")
    pour.tap("mix", "1", 2)
    expect(unkept).to_be_hidden()
    pour.page.evaluate(FULL)
    pour.tap("mix", "1")
    expect(unkept).to_be_visible()
    expect(pour.page.locator("#state")).not_to_contain_text("Kept")
    pour.tells("mixes", "3 mixes emptied")
    pour.desk.is_accessible()


def test_pours_of_before_make_room_for_the_one_under_way(phone: Phone) -> None:
    """The store is filled to its last letter, a million of them in an older pour."""
    pour = phone(WAY)
    pour.page.evaluate("""() => {
      const [one] = JSON.parse(localStorage.getItem('gaugerake.pours'));
      const old = {...one, key: '#1', title: 'x'.repeat(1_000_000)};
      localStorage.setItem('gaugerake.pours', JSON.stringify([one, old]));
      for (let [size, count] = [1_000_000, 0]; size >= 1; count++)
        try { localStorage.setItem(`f${count}`, 'x'.repeat(size)); } catch { size = Math.floor(size / 2); }
    }""")
    pour.tap("mix", "1", 3)
    expect(pour.page.locator("#unkept")).to_be_hidden()
    pour.page.reload()
    pour.tells("mixes", "3 mixes emptied")


def test_two_pages_of_one_pour_count_together(phone: Phone) -> None:
    pour = phone(WAY)
    second = pour.page.context.new_page()
    second.goto(pour.page.url)
    expect(second.locator(BOARD)).to_be_attached()
    pour.tap("mix", "1", 5)
    expect(second.locator('[data-tell="mixes"]')).to_have_text("5 mixes emptied")
    second.locator('#pad [data-do="mix"][data-with="1"]').tap()
    pour.tells("mixes", "6 mixes emptied")


def test_an_answer_that_comes_while_another_side_is_chosen_takes_nothing_away(phone: Phone) -> None:
    pour = phone(WAY)
    pour.tap("mix", "1", 3)
    held: list[Route] = []
    pour.page.route("**/v1/pour-progress*", lambda route: held.append(route))
    pour.tap("measure")
    pour.page.locator("summary", has_text="This pour").tap()
    pour.tap("other-side")
    with pour.page.expect_response("**/v1/pour-progress*"):
        held[0].continue_()
    pour.state("Kept on this device")
    expect(pour.page.locator(SETUP)).to_be_visible()
    pour.tap("as-it-was")
    judged(pour, "Judged after 3 mixes")


def test_a_side_that_is_chosen_without_a_network_is_asked_for_when_it_is_back(phone: Phone) -> None:
    """From the top a mix goes 35.2 / 42 = 0.8381 ft: 10.06 in, and three 2.5143 ft: 2 ft 6.17 in."""
    pour = phone(WAY)
    pour.tap("mix", "1", 3)
    pour.page.context.set_offline(True)
    pour.page.evaluate(AWAY)
    turned(pour, "top")
    expect(pour.page.locator("#state")).to_have_attribute("data-trouble", "")
    pour.page.context.set_offline(False)
    pour.tells("edge", "Edge: 2 ft 6 1/4 in")
    pour.tells("mixes", "3 mixes emptied")


def test_an_edge_that_was_seen_from_another_side_says_nothing_of_this_one(phone: Phone) -> None:
    """At the left the L is 30 ft wide, 4 mixes go 4 x 35.2 / 30 = 4.693 ft; at the right 10 ft, 14.08 ft."""
    pour = phone(job("plain", {"shape": {"polygon": ELL}, "name": "Ell", **FROM_LEFT}))
    pour.tap("mix", "1", 4)
    pour.tells("edge", "Edge: 4 ft 8 1/4 in")
    pour.tap("edge", "-3")
    pour.tap("measure")
    judged(pour, "Judged after 4 mixes")
    turned(pour, "right")
    pour.tells("edge", "Edge: 14 ft 1 in")
    pour.tells("headline", "")


def test_three_rooms_of_which_two_share_a_name_and_one_has_the_number(phone: Phone) -> None:
    """200 ft² take 5.68 mixes, 100 ft² 2.84: after 10 of 35.2 ft² 52 ft² of the third are placed, 5.2 ft."""
    sides = (("20 ft", "Bay"), ("10 ft", "Bay"), ("30 ft", "Bay 2"))
    pour = phone(job("plain", *(feet(length, "10 ft", name=name, **FROM_LEFT) for length, name in sides)))
    pour.tap("mix", "1", 10)
    pour.tells("room", "Bay 2")
    pour.tells("edge", "Edge: 5 ft 2 1/2 in")
    pour.tap("room", "-1")
    pour.tells("room", "Bay 3")
    pour.tells("edge", "Edge: 10 ft 0 in")


def test_more_mixes_than_the_plan_has_leave_the_edge_at_the_end(phone: Phone) -> None:
    pour = phone(WAY)
    pour.tap("mix", "1", 30)
    pour.tap("measure")
    judged(pour, "Judged after 30 mixes")
    pour.tap("mix", "1", 11)
    pour.tells("edge", "Edge: 42 ft 0 in")
    pour.tap("mix", "-1", 41)
    pour.tells("edge", "Edge: 0 ft 0 in")


def test_what_to_do_stands_in_the_order_of_the_answer(phone: Phone) -> None:
    """Where the count is to be doubted, that comes before the joint to stop at: 20 mixes for 10 ft of 28.5 ft² each."""
    joint = {"line": [["15 ft", "0 ft"], ["15 ft", "28.5 ft"]], "kind": "contraction"}
    pour = phone(job("plain", feet("42 ft", "28.5 ft", name="Hall", joints=[joint], **FROM_LEFT)))
    pour.tap("mix", "1", 20)
    pour.tap("edge", "-3", 15)
    pour.tap("measure")
    pour.tells("headline", "Count again")
    advice = pour.page.locator('[data-tell="advice"] li')
    expect(advice.first).to_contain_text("Count again")
    expect(advice.nth(1)).to_have_text(re.compile(r"stop at the contraction joint at 15\sft\s0\sin\.$"))


def test_less_than_a_foot_is_told_in_inches(phone: Phone) -> None:
    """Mix 1 ends at 1 ft 2.82 in; the edge is a foot before it."""
    pour = phone(WAY)
    pour.tap("mix", "1")
    pour.tap("edge", "-3")
    pour.tells("edge", "Edge: 2 3/4 in")


def test_hours_of_another_day_have_their_date(phone: Phone) -> None:
    """Three mixes of 4.5 min before 23:50 on the 8th: begun at 23:45. Judged at 00:15 on the 9th, and read on the 10th.

    Where the job says no zone, it is that of the phone: five of 35 mixes are placed, the rest ends the same night.
    """
    pour = phone(WAY, ready="body")
    pour.page.clock.install(time="2027-03-08T23:50:00-06:00")
    pour.page.reload()
    expect(pour.page.locator(BOARD)).to_be_attached()
    pour.tap("mix", "1", 3)
    pour.page.clock.fast_forward("25:00")
    pour.tap("mix", "1", 2)
    pour.tap("measure")
    judged(pour, "Judged after 5 mixes, at 12:15\u00a0am.")
    pour.page.locator("summary", has_text="This pour").tap()
    figures = pour.page.locator('[data-tell="figures"]')
    expect(figures).to_contain_text("Mon Mar 8, 11:45\u00a0pm")
    # 1,197 - 5 x 35.15 ft² at 5.9 min a mix, 30 mixes: 2 h 57 min after 00:15
    expect(figures).to_contain_text(re.compile(r"All placed at3:1\d\sam"))
    pour.page.clock.fast_forward("30:00:00")
    pour.page.reload()
    judged(pour, "at Tue Mar 9, 12:15\u00a0am.")


def test_a_service_with_keys_says_where_one_is_entered(profiles: Profiles, keyed: Keyed) -> None:
    """A quote is opened without a key; its pour plan asks for one, which the page of the quote takes."""
    document = {"system": "level-clear", "rooms": [feet("30 ft", "20 ft", name="Kitchen", **FROM_LEFT)]}
    heads = {"authorization": f"Bearer {keyed.page}"}
    token = requests.post(f"{keyed.address}/v1/quotes", json=document, headers=heads, timeout=30).json()["token"]
    with opening(profiles.lend, keyed.address) as open_it:
        touch = {"has_touch": True, "is_mobile": True}
        pour = Pour(open_it(390, path=f"slab.html#quote={token}", ready="#state[data-trouble]", **touch))
        pour.state("Go to the quote, enter yours there, and come back.")
        pour.page.get_by_role("link", name="The quote").tap()
        pour.page.get_by_label("Key for this service").fill(keyed.page)
        pour.page.get_by_label("Key for this service").press("Enter")
        pour.page.get_by_role("link", name="Pour it").tap()
        pour.tap("mix", "1")
        pour.tells("mixes", "1 mix emptied")


@pytest.mark.parametrize("forced", ["none", "active"])
def test_the_layer_that_is_poured_stands_there_and_the_next_is_a_tap_away(phone: Phone, forced: str) -> None:
    """9 x 9 ft at 1/8 in are 81 / 96 = 0.84375 ft³, at 0.11 ft³ 7.67 mixes; the first body has its keyways too."""
    bay = feet("9 ft", "9 ft", name="Bay", joints=[], **FROM_LEFT)
    pour = phone(job("keyed", bay), forced_colors=forced)
    layers = pour.page.locator('[data-do="layer"]')
    first, second = layers.first, layers.last
    expect(first).to_have_attribute("aria-pressed", "true")
    filled = "(one) => getComputedStyle(one).backgroundColor"
    assert first.evaluate(filled) != second.evaluate(filled)
    pour.tap("mix", "1", 9)
    pour.tells("next", "The plan has no more mixes.")
    second.tap()
    pour.tells("mixes", "0 mixes emptied")
    expect(second).to_have_attribute("aria-pressed", "true")
    pour.tap("mix", "1")
    pour.tells("edge", "Edge: 1 ft 2 in")  # 0.11 x 96 / 9 = 1.1733 ft = 14.08 in
    pour.desk.is_accessible()
    first.tap()
    pour.tells("mixes", "9 mixes emptied")


@pytest.mark.parametrize(("width", "height"), [(320, 568), (375, 553), (667, 375), (844, 330)])
@pytest.mark.parametrize("locale", ["en-US", "es-MX"])
def test_on_a_small_screen_the_keys_the_verdict_and_the_next_mark_are_there_at_once(
    phone: Phone, width: int, height: int, locale: str
) -> None:
    """Upright or on its side: no key is cut off, or cuts off what is read."""
    rooms = feet("150 ft", "2.7 ft", name="Packing hall", **FROM_LEFT), feet("9 ft", "9 ft", **FROM_LEFT)
    pour = phone(job("plain", *rooms), width=width, locale=locale)
    pour.page.set_viewport_size({"width": width, "height": height})
    pour.tap("mix", "1", 10)  # 352 ft², 130 ft 4 1/2 in: as long as lengths become
    pour.tap("measure")
    judged(pour, "10")
    for name in (".headline", ".next", '[data-do="measure"]', '#pad [data-do="mix"][data-with="1"]'):
        expect(pour.page.locator(name)).to_be_in_viewport(ratio=0.98)
    assert pour.page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert pour.page.eval_on_selector_all("#pad button, #pad output, .headline, .next", CUT) == []
    assert pour.page.evaluate(COVERED) == []
    pour.desk.unfold()
    assert pour.small_keys() == []
    assert pour.page.evaluate("document.documentElement.scrollWidth <= innerWidth")
