"""Every sentence stands in every language, with the same figures and values, made from the English of today."""

import re
from dataclasses import replace
from pathlib import Path
from string import Formatter

import pytest
from tests.words import compare
from tests.words.compare import MADE_FROM, OTHERS, sentences

from gaugerake.answers.show.reader import LANGUAGES, US_READER, Language
from gaugerake.answers.show.words import own_templates, sentence, templates
from gaugerake.floor.values.figure import Figure, Kind


def test_these_are_the_languages_of_the_service() -> None:
    assert (compare.ENGLISH, *OTHERS) == LANGUAGES
    for language in LANGUAGES:
        assert own_templates(language) == {code: said.text for code, said in sentences(language).items()}


@pytest.mark.parametrize("language", OTHERS)
def test_nothing_differs(language: str) -> None:
    found = list(compare.differences(language))
    assert found == [], "python -m tests.words.compare lists it; with --record CODE, a sentence is looked at again"


@pytest.mark.parametrize("language", OTHERS)
def test_a_plural_has_all_its_forms(language: str) -> None:
    ones = {code.removesuffix("-one") for code in templates("en") if code.endswith("-one")}
    plurals = [code for code in ones if f"{code}-other" in templates("en")]
    assert "client-years" in plurals
    forms = {f"{code}-{form}" for code in plurals for form in ("one", "other")}
    assert sorted(forms - own_templates(language).keys()) == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_sentence_reads_as_python_fills_its_template(language: Language) -> None:
    """Held against ``str.format``: percent signs and doubled braces too, with and without values."""
    reader = replace(US_READER, language=language)
    for code, template in templates(language).items():
        values = {name: f"[100 % of {name}]" for _, name, _, _ in Formatter().parse(template) if name is not None}
        assert sentence(code, values, reader) == template.format(**values), code
    assert any("%" in template and "{" in template for template in templates(language).values())


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("counted", ["count", "stops"])
def test_one_thing_is_told_in_the_form_for_one(language: Language, counted: str) -> None:
    code = {"count": "pour-edge-others", "stops": "pour-stops-lose-mixes"}[counted]
    reader, own = replace(US_READER, language=language), templates(language)
    for many, form in ((1, f"{code}-one"), (2, code)):
        values = {"count": many, "stops": many, "layer": "Body", "more": "2 mixes"}
        assert sentence(code, values, reader) == own[form].format(**values)


@pytest.mark.parametrize("given", [1, Figure(1.0, Kind.COUNT)])
def test_one_counted_figure_is_told_in_the_form_for_one(given: int | Figure) -> None:
    said = sentence("check-test-count-below", {"given": given, "needed": 4}, US_READER)
    assert said == "1 moisture test counts; the area needs 4."


@pytest.mark.parametrize(("count", "crews"), [(1, "1 crew"), (2, "2 crews")])
def test_crews_are_added_in_words_of_the_trade(count: int, crews: str) -> None:
    said = sentence("remedy-crews-all-day", {"count": count}, US_READER)
    assert said == f"Add {crews}, so work runs around the clock on the days of the longest shift."


def test_no_spanish_phrase_reads_like_a_command_between_friends() -> None:
    """Formal usted throughout: none of the usual words of tú."""
    familiar = re.compile(r"\b(tú|tu|tus|ti|te|contigo|tienes|puedes|debes|quieres|haz|pon)\b", re.I)
    assert [said.text for said in sentences("es").values() if familiar.search(said.text)] == []


def test_no_sentence_ends_with_a_time_that_has_a_point_of_its_own() -> None:
    assert [said.text for said in sentences("es").values() if said.text.endswith("{when}.")] == []


def test_nobody_is_told_to_breathe_dust_in() -> None:
    """ "Aspire el polvo" is read as "vacuum the dust" and as "breathe in the dust": the tool is named instead."""
    ambiguous = re.compile(r"\b(aspir(?!adora)\w*|inhale\w*)\b", re.I)
    assert [said.text for said in sentences("es").values() if ambiguous.search(said.text)] == []


@pytest.fixture
def folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Two languages of three sentences, in which nothing differs."""
    for language in ("en", "es"):
        (tmp_path / language).mkdir()
    english = 'one = "Wait {time}, 24 h at least."\ntwo = "Stop."\n"unit-ft2/h" = "sq ft/h"\n'
    (tmp_path / "en" / "all.toml").write_text(english, "utf-8")
    spanish = 'one = "Espere {time}, por lo menos 24 h."\ntwo = "Deténgase."\n"unit-ft2/h" = "ft²/h"\n'
    (tmp_path / "es" / "all.toml").write_text(spanish, "utf-8")
    monkeypatch.setattr(compare, "WORDS", tmp_path)
    compare.record("es")
    assert list(compare.differences("es")) == []
    return tmp_path


@pytest.mark.parametrize(
    ("of", "before", "after", "expected"),
    [
        ("es", 'two = "Deténgase."\n', "", "es/all.toml: two: is missing: Stop."),
        ("es", "{time}", "un rato", "es/all.toml: one: has other placeholders than: Wait {time}, 24 h at least."),
        ("es", "24 h.", "un día.", "es/all.toml: one: has other figures than: Wait {time}, 24 h at least."),
        ("es", "two =", "three =", "es/all.toml: three: has no English sentence"),
        ("en", "Stop.", "Stop now.", "es/all.toml: two: was made from another English sentence than: Stop now."),
    ],
)
def test_what_differs_is_found(folders: Path, of: str, before: str, after: str, expected: str) -> None:
    file = folders / of / "all.toml"
    text = file.read_text("utf-8")
    assert before in text
    file.write_text(text.replace(before, after), "utf-8")
    assert expected in list(compare.differences("es"))


def test_a_sentence_in_another_file_is_found(folders: Path) -> None:
    (folders / "es" / "all.toml").rename(folders / "es" / "other.toml")
    assert "es/other.toml: two: stands in all.toml in English" in list(compare.differences("es"))


def test_a_sentence_follows_its_english_to_another_code(folders: Path) -> None:
    file = folders / "en" / "all.toml"
    file.write_text(file.read_text("utf-8").replace("two =", "halt ="), "utf-8")
    compare.move("es")
    assert list(compare.differences("es")) == []
    assert sentences("es")["halt"].text == "Deténgase."


def test_a_sentence_that_was_looked_at_again_is_noted_alone(folders: Path) -> None:
    file = folders / "en" / "all.toml"
    file.write_text(file.read_text("utf-8").replace("Stop.", "Stop now.").replace("Wait", "Stay"), "utf-8")
    compare.record("es", "two")
    assert list(compare.differences("es")) == [
        "es/all.toml: one: was made from another English sentence than: Stay {time}, 24 h at least."
    ]
    assert (folders / "es" / "all.toml").read_text("utf-8").count(MADE_FROM) == 3
