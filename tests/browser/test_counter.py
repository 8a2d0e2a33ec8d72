"""What a walk-in takes at the counter, and the small ways to and fro."""

import math
from typing import Any

import pytest
import requests
from playwright.sync_api import expect

AREA = "[data-at='shape/measured/area']"
SHARE = "void (navigator.share = async (shared) => { window.shared = shared; console.info('shared'); })"
PUT_AWAY = """void (navigator.share = async () => {
  console.info('put away'); throw new DOMException('put away', 'AbortError'); })"""
CLIPPED = """(one) => { const free = one.cloneNode(); one.after(free); free.style.width = 'max-content';
  const [is, wants] = [one.offsetWidth, free.offsetWidth]; free.remove(); return wants - is; }"""
CHECKED = "[...document.querySelectorAll('.checks tbody tr')].map((row) => [...row.cells].map((one) => one.innerText))"
VIEWS = ("Compare", "Best start")


def test_four_keys_are_a_price_on_an_empty_desk(open_page: Any) -> None:
    desk = open_page()
    expect(desk.page.locator(AREA)).to_be_focused()
    desk.page.keyboard.type("1200")
    desk.quoted()
    expect(desk.page.locator("#answer")).to_contain_text("$7,547.25")  # the demonstration's own prices


def test_a_phone_and_a_filled_form_are_left_alone(open_page: Any, example: Any) -> None:
    """There a focus would open the keyboard, or scroll away from what one came for."""
    assert open_page(390).page.evaluate("document.activeElement.tagName") == "BODY"
    desk = open_page(job=example("least"))
    desk.quoted()
    assert desk.page.evaluate("document.activeElement.tagName") == "BODY"


def test_change_it_has_a_way_back_to_the_quote(open_page: Any, example: Any) -> None:
    desk = open_page(390, job=example("least"))
    desk.quoted()
    desk.page.evaluate("document.documentElement.style.scrollBehavior = 'auto'")
    fold = desk.page.locator(".part-the-floor summary", has_text="Assumed here")
    fold.click()
    desk.page.locator(".part-the-floor a", has_text="Change it").last.click()
    expect(desk.page.locator("#thickness")).to_be_focused()
    back = desk.page.get_by_role("button", name="Back to the quote")
    expect(back).to_be_in_viewport()
    desk.is_accessible()
    back.click()
    expect(fold).to_be_in_viewport()
    expect(back).to_have_count(0)
    expect(desk.page.locator("#sheet")).to_be_focused()


def test_the_share_sheet_of_the_device_is_used_where_there_is_one(open_page: Any, example: Any) -> None:
    desk = open_page(390, job=example("least"))
    desk.quoted()
    desk.page.evaluate(SHARE)
    with desk.page.expect_console_message(lambda one: one.text == "shared"):
        desk.page.get_by_role("button", name="Link to this quote").click()
    assert desk.page.evaluate("window.shared.url").startswith(f"{desk.server}/#quote=")
    assert desk.page.evaluate("window.shared.title") == desk.page.title()
    desk.page.evaluate(PUT_AWAY)
    with desk.page.expect_console_message(lambda one: one.text == "put away"):
        desk.page.get_by_role("button", name="Link to this quote").click()
    expect(desk.page.locator(".actions [role=status]")).to_be_empty()


@pytest.mark.parametrize("width", [390, 768, 1280])
def test_a_date_with_its_time_is_not_clipped(open_page: Any, width: int) -> None:
    desk = open_page(width)
    desk.unfold()
    for field in ("#start", "#reopen"):
        assert desk.page.locator(field).evaluate(CLIPPED) <= 0, field


def test_what_else_the_page_does_has_its_place_and_makes_the_first_screen_no_longer(open_page: Any) -> None:
    """The area stands on a phone's first screen, and so do the ways to the other views."""
    desk = open_page(390)
    desk.page.set_viewport_size({"width": 390, "height": 844})
    for name in VIEWS:
        expect(desk.page.get_by_role("link", name=name)).to_be_in_viewport()
    expect(desk.page.get_by_role("button", name="Jobs", exact=True)).to_be_in_viewport()
    expect(desk.page.locator(AREA)).to_be_in_viewport()
    # before the other views were there it was 1.4 screens of 844
    assert desk.page.evaluate("document.querySelector('#job').getBoundingClientRect().height") <= 1.41 * 844
    desk.type("Area", "1200")
    desk.quoted()
    expect(desk.page.get_by_role("link", name="Pour it")).to_be_visible()
    desk.page.locator("#part-work > summary").click()
    expect(desk.page.get_by_label("Mixing stations")).to_be_visible()


def test_a_phone_has_the_whole_name_of_the_system(open_page: Any) -> None:
    """Its list of choices cuts a long one, so it stands beneath; a desk's shows it whole."""
    desk = open_page(390)
    name = desk.page.locator("#system-note strong")
    for option in desk.page.locator("#system option").all():
        desk.page.locator("#system").select_option(option.get_attribute("value"))
        expect(name).to_have_text(option.inner_text())
        expect(name).to_be_visible()
        assert name.evaluate("(one) => one.scrollWidth <= one.clientWidth")
    desk.page.set_viewport_size({"width": 1280, "height": 900})
    expect(name).to_be_hidden()


@pytest.mark.parametrize("width", [390, 768, 1280])
def test_an_answer_of_several_lines_covers_no_other_words(open_page: Any, example: Any, width: int) -> None:
    """A date and an hour need two lines in a narrow column, where a button has them."""
    desk = open_page(width, job=example("counter"))
    desk.quoted()
    tall = desk.page.locator(".answers dd .drop").evaluate_all("(all) => all.map((one) => one.clientHeight)")
    assert tall and min(tall) >= 44
    covered = desk.page.evaluate(
        """() => {
          const box = (one) => {
            const range = document.createRange();
            range.selectNodeContents(one);
            return range.getBoundingClientRect();
          };
          const text = (dd) => (dd.querySelector('.drop') ?? dd).firstChild;
          return [...document.querySelectorAll('#answer .answers > div')].map((one) => ({
            above: box(one.querySelector('dt')).bottom - box(text(one.querySelector('dd'))).top,
            below: one.querySelector('.drop') && box(text(one.querySelector('dd'))).bottom
              - box(one.querySelector('small')).top,
          })).filter(({above, below}) => above > 4 || below > 4);
        }"""
    )
    assert covered == []


def test_how_sure_the_order_is_can_be_slid(open_page: Any, server: str, example: Any) -> None:
    """Keys and a finger; the packs said are those that the service orders at that confidence."""
    desk = open_page(390, job=example("counter"), has_touch=True, is_mobile=True)
    desk.quoted()
    desk.page.locator("summary", has_text="Running short of anything").click()
    slider = desk.page.get_by_role("slider", name="How sure the whole order is to suffice")
    expect(slider).to_have_attribute("aria-valuetext", f"90\xa0%, {_packs(server, example('counter'), 0.9)} packs")
    box = slider.bounding_box()
    assert box["height"] >= 44
    desk.is_accessible()
    slider.focus()
    for confidence in (0.92, 0.94):
        slider.press("ArrowRight")
        words = f"{confidence:.0%}".replace("%", "\xa0%") + f", {_packs(server, example('counter'), confidence)} packs"
        expect(slider).to_have_attribute("aria-valuetext", words)
        expect(slider).to_be_focused()
    expect(desk.page.locator("#confidence")).to_have_value("0.94")
    desk.quoted()  # the sheet is written anew, and the slider with it
    expect(slider).to_have_attribute("aria-valuetext", words)
    box = slider.bounding_box()
    desk.page.mouse.move(box["x"] + box["width"] * 8 / 15, box["y"] + box["height"] / 2)
    desk.page.mouse.down()
    desk.page.mouse.move(box["x"] + box["width"] - 2, box["y"] + box["height"] / 2, steps=5)
    expect(desk.page.locator(".sureness output")).to_have_text("99.9\xa0%")
    desk.page.mouse.up()
    words = f"99.9\xa0%, {_packs(server, example('counter'), 0.999)} packs"
    expect(slider).to_have_attribute("aria-valuetext", words)
    expect(desk.page.locator("#confidence")).to_have_value("0.999")
    desk.quoted()


@pytest.mark.parametrize("units", ["us", "si"])
def test_a_figure_reads_as_its_sentence_does(open_page: Any, server: str, example: Any, units: str) -> None:
    """What was measured beside why that passes or not; how long a lost edge waits beside its caution."""
    desk = open_page(job=example("winter"), units=units)
    desk.quoted()
    desk.unfold()
    rows = [[cell.replace("\xa0", " ") for cell in row] for row in desk.page.evaluate(CHECKED)]
    measured = [row for row in rows if "°" in row[2]]
    assert len(measured) == 3  # of the slab, of the air, and the spread
    assert [row for row in measured if f" {row[2]}" not in row[4]] == []
    made = requests.post(f"{server}/v1/quotes?units={units}", json=example("winter"), timeout=30).json()
    needed = made["pour_plan"]["pours"][0]["needed"]["value"]
    waits = f"{math.ceil(needed * 10) / 10:g}"
    assert waits != f"{needed:.1f}"  # the nearest tenth is less
    expect(desk.page.get_by_role("table", name="Pours")).to_contain_text(f"{waits}\xa0min")
    expect(desk.page.locator("#answer")).to_contain_text(f"the wet edge waits {waits} min")


def _packs(server: str, job: Any, confidence: float) -> int:
    """The packs of the products that may run short, as the service orders them."""
    asked = {**job, "order": {**job.get("order", {}), "confidence": confidence}}
    order = requests.post(f"{server}/v1/quotes", json=asked, timeout=30).json()["quantities"]
    unsure = {one["product"] for one in order["shortage"] if any(0 < at["probability"] < 1 for at in one["curve"])}
    return sum(line["packs"] for line in order["order_lines"] if line["product"] in unsure)
