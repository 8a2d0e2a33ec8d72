"""What may stand in a line of text: the same for a job and for a catalogue.

The categories are those of the Unicode Character Database, as Python carries it; the noncharacters are those of the
Unicode Standard, chapter 23.7 (from memory).
"""

import re
import sys
from unicodedata import category

import pytest
from flask.testing import FlaskClient
from tests.builders import document, measured

from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.catalogue.file.format import load_text
from gaugerake.catalogue.store.demo import demo_text
from gaugerake.characters import HIDDEN_CLASS, has_hidden

NONCHARACTERS = {
    *range(0xFDD0, 0xFDF0),
    *(plane + last for plane in range(0, 0x110000, 0x10000) for last in (0xFFFE, 0xFFFF)),
}
JOINERS = {0x200C, 0x200D}
SEEN = [
    "José Ñúñez",
    "Jose\u0301",  # a combining accent
    "Nguyễn Thị",
    "厨房 3",
    "葛\U000e0100城",  # the variant of a character that a name is written with
    "مطبخ",
    "می\u200cخواهم",  # Persian parts a word by a joiner
    "क्\u200dष",
    "खाना पकाना",
    "ห้องครัว",
    "👩\u200d🍳 👍🏽 ❤\ufe0f 🇲🇽 1\ufe0f\u20e3",
    "½ in × 3′ — “A” №\u00a05",
    "\ue000",  # for private use
]
HIDDEN = [
    *(0x0, 0x1B, 0x7F, 0x85, 0xAD, 0x61C, 0x200B, 0x200E, 0x200F, 0x2028, 0x2029, 0x202E, 0x2060, 0x2064, 0x2066),
    *(0x206F, 0xFEFF, 0xFFF9, 0xFFFE, 0xFFFF, 0xFDD0, 0x1FFFE, 0x10FFFF, 0xE0000, 0xE0001, 0xE0041, 0xE007F, 0x3164),
    *JOINERS,
]


@pytest.mark.parametrize("text", SEEN)
def test_what_people_write_in_names_stays(text: str) -> None:
    assert not has_hidden(text)


@pytest.mark.parametrize("code", HIDDEN, ids="{:04X}".format)
@pytest.mark.parametrize("around", ["{}ab", "a{}b", "ab{}", "{}厨", "厨{}", "厨{} "])
def test_what_nobody_sees_is_refused(code: int, around: str) -> None:
    assert has_hidden(around.format(chr(code)))


def codes_of(*categories: str) -> set[int]:
    return {code for code in range(sys.maxunicode + 1) if category(chr(code)) in categories}


@pytest.fixture(scope="module")
def hides() -> set[int]:
    """All codes that are hidden, each looked at."""
    return {code for code in range(sys.maxunicode + 1) if has_hidden(f"é{chr(code)}é")}


def test_the_rule_is_that_of_the_categories(hides: set[int]) -> None:
    assert len(NONCHARACTERS) == 66
    by_category = codes_of("Cc", "Cf", "Cs", "Zl", "Zp") - JOINERS
    assert by_category | NONCHARACTERS <= hides
    others = hides - by_category - NONCHARACTERS
    assert others - codes_of("Cn") == {0x34F, 0x115F, 0x1160, 0x17B4, 0x17B5, 0x2800, 0x3164, 0xFFA0}
    assert others & codes_of("Cn") <= {0x2065, *range(0xFFF0, 0xFFF9), *range(0xE0000, 0xE1000)}


def test_what_xml_cannot_hold_is_refused(hides: set[int]) -> None:
    """XML 1.0, production 2 (Char), from memory; a quote is written as UBL as it is read."""
    holds = {0x9, 0xA, 0xD, *range(0x20, 0xD800), *range(0xE000, 0xFFFE), *range(0x10000, 0x110000)}
    assert set(range(sys.maxunicode + 1)) - holds <= hides


def test_the_description_says_the_same_of_the_basic_plane() -> None:
    described = re.compile(f"[{HIDDEN_CLASS}]")
    plane = (chr(code) for code in range(0x10000) if code not in JOINERS and not 0xD800 <= code <= 0xDFFF)
    assert [character for character in plane if bool(described.match(character)) != has_hidden(f"é{character}é")] == []


@pytest.mark.parametrize("text", ["Bay\u200b2", "Bay\u200e2", "\U000e0042ay 2", "Bay 2\U0001fffe"])
def test_a_job_and_a_catalogue_refuse_the_same(client: FlaskClient, text: str) -> None:
    job = document(measured("900 ft2", name=text))
    (error,) = client.post("/v1/quotes", json=job).get_json()["errors"]
    assert (error["pointer"], error["code"]) == ("/rooms/0/name", "unseemly-text")
    with pytest.raises(FileRefused) as refused:
        load_text(re.sub(r"^  en: .*$", lambda _: f'  en: "{text}"', demo_text(), count=1, flags=re.M))
    assert "nobody sees" in str(refused.value)
