"""The quote that the service prints: letters that can be read, what a buyer signs first, the cautions in full by
themselves."""

import unicodedata
from typing import Any

import pytest
import requests
from tests.browser.papers import Printed, pages_of
from tests.browser.profiles import Profiles

from gaugerake.answers.job.everyday import EVERYDAY
from gaugerake.answers.show.reader import Language
from gaugerake.answers.show.words import templates

LEAST_PT = 7.95
"""8 points: a browser rounds letters down to a fraction of a pixel, 7.99."""
MOST_PAGES = 2
"""A page to sign, and a page of cautions and of what is assumed."""


def plain(text: str) -> str:
    """Text without line ends and ligatures."""
    return " ".join(unicodedata.normalize("NFKC", text).split())


def close(text: str) -> str:
    """Text without spaces: a line may end within a date, behind its hyphen."""
    return plain(text).replace(" ", "")


def printed(profiles: Profiles, server: str, job: Any, query: str, paper: str) -> list[Printed]:
    """A job's quote as it comes out of the printer."""
    made = requests.post(f"{server}/v1/quotes", json=job, timeout=30).json()
    with profiles.lend(service_workers="block", extra_http_headers={"accept": "text/html"}) as context:
        page = context.new_page()
        page.goto(f"{server}/v1/quotes/{made['token']}?{query}")
        return pages_of(page.pdf(format=paper))


def answer(server: str, job: Any, language: str) -> Any:
    return requests.post(f"{server}/v1/quotes?lang={language}", json=job, timeout=30).json()


@pytest.mark.parametrize(
    ("name", "language", "paper"),
    [
        *((name, language, "Letter") for name in ("least", "counter", "full", "winter") for language in ("en", "es")),
        *((name, "en", "A4") for name in ("counter", "full", "metric")),
    ],
)
def test_a_printed_quote_can_be_read(
    profiles: Profiles, server: str, example: Any, name: str, language: Language, paper: str
) -> None:
    pages = printed(profiles, server, example(name), f"lang={language}", paper)
    for number, page in enumerate(pages, 1):
        assert page.smallest() > (LEAST_PT, "")
        assert templates(language)["print-page"].format(page=number, pages=len(pages)) in page.text
    assert len(pages) <= MOST_PAGES


def test_two_languages_can_be_read_too(profiles: Profiles, server: str, example: Any) -> None:
    for page in printed(profiles, server, example("full"), "lang=en&beside=es", "Letter"):
        assert page.smallest() > (LEAST_PT, "")


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("name", ["full", "winter"])
def test_the_first_page_is_what_a_buyer_signs(
    profiles: Profiles, server: str, example: Any, name: str, language: Language
) -> None:
    job = example(name)
    job["order"] = job.get("order", {}) | {"reference": "PO 4711", "buyer": "Larch Lane Bakery"}
    first = plain(printed(profiles, server, job, f"lang={language}", "Letter")[0].text)
    made, words = answer(server, job, language), templates(language)
    (system,) = [
        one["name"]
        for one in requests.get(f"{server}/v1/systems?lang={language}", timeout=30).json()["systems"]
        if one["code"] == job["system"]
    ]
    for said in (system, "PO 4711", "Larch Lane Bakery", made["readiness"]["summary"]):
        assert said in first
    for line in made["quantities"]["order_lines"]:
        assert f"{line['packs']} {line['sku']} {line['description']}" in first
    assert f"{words['print-sum-total']} {made['quantities']['totals']['gross']}" in first
    for one in made["return_times"]["returns"]:
        assert words[f"open-to-{one['traffic']}"] in first
    for danger in ("before-sawing", "hazard-isocyanate", "hazard-wet-cement", "concrete-dust", "engines-indoors"):
        assert words[f"client-danger-{danger}"] in first
    mine = list(dict.fromkeys(note["text"] for note in made["cautions"] if note["code"] not in EVERYDAY))
    assert [text for text in mine if close(text) in close(first)] == mine[:4]
    assert words["print-in-full"] in first


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("name", ["counter", "full", "winter"])
def test_the_cautions_stand_in_full_on_pages_of_their_own(
    profiles: Profiles, server: str, example: Any, name: str, language: Language
) -> None:
    job, words = example(name), templates(language)
    job["order"] = job.get("order", {}) | {"reference": "PO 4711"}
    pages = [plain(page.text) for page in printed(profiles, server, job, f"lang={language}", "Letter")]
    made = answer(server, job, language)
    (begins,) = [
        number for number, page in enumerate(pages) if f"{words['print-safety']} {words['print-quote'][:5]}" in page
    ]
    head = plain(words["print-page"].format(page=begins + 1, pages=len(pages)) + " " + words["print-safety"])
    assert pages[begins].startswith(head)  # nothing of the quote stands above
    number = "-".join(made["fingerprint"][at : at + 4] for at in (0, 4, 8))
    assert f"{words['print-quote'].format(number=number)}, PO 4711" in pages[begins]
    full = close("".join(pages[begins:]))
    texts = [note["text"] for note in made["cautions"] if note["code"] != "invented-data"]
    assert len(texts) > 15
    assert [text for text in texts if close(text) not in full] == []


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("name", ["full", "winter"])
def test_no_heading_and_no_line_is_left_alone(
    profiles: Profiles, server: str, example: Any, name: str, language: Language
) -> None:
    """A page ends neither with a heading nor with the sentence above a list, and a list's last line is not alone."""
    words = templates(language)
    above = {words[code] for code in words if code.startswith("print-") and not words[code].endswith(".")}
    for page in printed(profiles, server, example(name), f"lang={language}", "Letter"):
        lines = [plain(line) for line in page.text.splitlines() if line.strip()][1:]  # but for the number of the page
        assert lines[-1] not in above
        assert not lines[-1].endswith(":")
        assert len(lines) > 3
