"""Words of the page: each is asked for, each that is asked for is there, and none stands anywhere else."""

import gzip
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from gaugerake.answers.job.traffic import USUAL
from gaugerake.answers.readiness.registry import CHECKS
from gaugerake.answers.show.reader import Language
from gaugerake.answers.show.words import templates
from gaugerake.floor.layers.kinds import KINDS
from gaugerake.floor.slab.surface import Substrate, substrate

CLIENT = Path(__file__).parents[2] / "client"
GOLDEN = Path(__file__).parents[1] / "contract" / "golden"
GAPS = ("first", "second", "third")
SCRIPTS = "\n".join(path.read_text("utf-8") for path in sorted((CLIENT / "js").rglob("*.js")))
HTML = "\n".join((CLIENT / name).read_text("utf-8") for name in ("index.html", "rows.html"))
SLAB = "\n".join(path.read_text("utf-8") for path in (CLIENT / "slab.html", *sorted((CLIENT / "js").rglob("*.js"))))
EMBED = (CLIENT / "embed.js").read_text("utf-8")
# an address of our own, a unit's sign, and what is the same in every language
SAME_EVERYWHERE = {"gaugerake"}
VIEWS = [("compare.html", "compare-", "compare"), ("start.html", "begin-", "start")]


def told(prefix: str) -> set[str]:
    return {code for code in templates() if code.startswith(prefix)}


def stems(text: str) -> set[str]:
    """What codes begin with that a script puts together."""
    return set(re.findall(r"`((?:client|pouring|late)-[a-z-]+-)\$\{", text))


def counted(text: str) -> set[str]:
    """Codes of phrases that depend on a number."""
    asked = set(re.findall(r"phraseOfCount\('((?:client|pouring|late)-[a-z-]+)'", text))
    return asked | {f"late-plan-{what}" for what in re.findall(r"\['(\w+)', room\.", text)}


def test_a_script_asks_for_no_phrase_that_is_not_there() -> None:
    asked = set(re.findall(r"'((?:client|late)-[a-z0-9-]+)'", SCRIPTS)) - counted(SCRIPTS)
    assert len(asked) > 150
    assert asked - told("client-") - told("late-") == set()
    assert {f"{code}-{form}" for code in counted(SCRIPTS) for form in ("one", "other")} <= set(templates())


def test_every_phrase_of_the_scripts_is_asked_for() -> None:
    asked = set(re.findall(r"'(client-[a-z0-9-]+)'", SCRIPTS))
    begun = stems(SCRIPTS)
    plural = {f"{code}-{form}" for code in counted(SCRIPTS) for form in ("one", "other")}
    unused = [code for code in told("client-") if code not in asked | plural and not any(map(code.startswith, begun))]
    assert unused == []


LATE = {
    found[1]: path
    for path in sorted((CLIENT / "js").rglob("*.js"))
    if (found := re.search(r"/\* words (late-[a-z]+-) \*/ \{\}", path.read_text("utf-8")))
}
"""What the codes of a late module's phrases begin with, and the module that brings them."""


@pytest.mark.parametrize("prefix", sorted(LATE))
def test_a_late_module_brings_what_is_asked_for_and_no_more(prefix: str) -> None:
    asked = set(re.findall(rf"'({prefix}[a-z-]+)'", SCRIPTS))
    numbered = {f"{code}-{form}" for code in counted(SCRIPTS) for form in ("one", "other") if code.startswith(prefix)}
    begun = stems(SCRIPTS)
    assert (asked - counted(SCRIPTS)) | numbered <= told(prefix)
    unused = [code for code in told(prefix) - asked - numbered if not any(map(code.startswith, begun))]
    assert unused == []


def test_a_late_phrase_is_asked_for_where_it_was_brought() -> None:
    """By the module that brings it, or by one that it imports: else a code would be read instead of a sentence."""
    assert {f"late-{code.split('-')[1]}-" for code in told("late-")} == set(LATE)
    for path in sorted((CLIENT / "js").rglob("*.js")):
        for prefix in set(re.findall(r"['`](late-[a-z]+-)", path.read_text("utf-8"))):
            bringer = LATE[prefix]
            brought = f"./{path.relative_to(bringer.parent).as_posix()}" if path != bringer else ""
            assert path == bringer or f"from '{brought}'" in bringer.read_text("utf-8"), f"{path.name}: {prefix}"


def test_the_page_asks_for_all_its_words_and_no_others() -> None:
    assert set(re.findall(r"words\['(page-[a-z0-9-]+)'\]", HTML)) == told("page-")


def test_the_page_on_the_slab_asks_for_all_its_words_and_no_others() -> None:
    """Its HTML and scripts, and the modules that it shares; a phrase of a number has two forms."""
    asked = set(re.findall(r"'(pouring-[a-z0-9-]+)'", SLAB))
    numbered = {f"{code}-{form}" for code in counted(SLAB) for form in ("one", "other") if code.startswith("pouring-")}
    begun = stems(SLAB)
    assert len(asked) > 60
    assert (asked - counted(SLAB)) | numbered <= told("pouring-")
    known = asked | numbered
    assert [code for code in told("pouring-") if code not in known and not any(map(code.startswith, begun))] == []


@pytest.mark.parametrize(("name", "prefix", "folder"), VIEWS)
def test_a_view_asks_for_all_its_words_and_for_no_others(name: str, prefix: str, folder: str) -> None:
    html = (CLIENT / name).read_text("utf-8")
    scripts = "\n".join(path.read_text("utf-8") for path in sorted((CLIENT / "js" / folder).glob("*.js")))
    asked = set(re.findall(rf"'({prefix}[a-z-]+)'", html + scripts))
    begun = set(re.findall(rf"`({prefix}[a-z-]+-)\$\{{", scripts))
    unused = [code for code in told(prefix) - asked if not any(map(code.startswith, begun))]
    assert asked - told(prefix) == set()
    assert unused == []
    assert set(re.findall(r"words\['(page-[a-z0-9-]+)'\]", html)) <= told("page-")


@pytest.mark.parametrize(("name", "prefix", "folder"), VIEWS)
def test_no_word_that_a_person_reads_stands_in_the_html_of_a_view(name: str, prefix: str, folder: str) -> None:
    html = re.sub(r"\{\{.*?\}\}", "", (CLIENT / name).read_text("utf-8"))
    texts = [text.strip() for text in re.findall(r">([^<>]+)<", html)]
    assert [text for text in texts if re.search(r"[A-Za-z]{2}", text) and text not in SAME_EVERYWHERE] == []


def test_the_form_for_other_pages_asks_for_all_its_words_and_no_others() -> None:
    asked = {f"embed-{code}" for code in re.findall(r"'([a-z]+(?:-[a-z]+)*)'", EMBED)}
    assert told("embed-") <= asked
    phrases = set(re.findall(r"phrase\((?:\w+(?:\.\w+)? \? )?'([a-z-]+)'(?: : '([a-z-]+)')?", EMBED))
    assert {f"embed-{code}" for pair in phrases for code in pair if code} == told("embed-")


PREFIXES = ["client-", "page-", "pouring-", "embed-", "working-", "late-", "compare-", "begin-"]


@pytest.mark.parametrize("prefix", PREFIXES)
def test_a_phrase_is_said_once_for_one_use(prefix: str) -> None:
    """Gaps are named by plain words, so that a translator can move them."""
    for code in told(prefix):
        assert not re.search(r"\{(?![a-z]+\})", templates()[code]), code
        assert templates()[code].strip(), code


def recorded() -> Iterator[dict[str, Any]]:
    """The working of every quote that a release recorded."""
    for path in sorted(GOLDEN.glob("*/*quotes*.json.gz")):
        yield from json.loads(gzip.decompress(path.read_bytes())).get("working", ())


def code(stem: str, name: str) -> str:
    """The code of a name, as `spokenOf` of the page makes it."""
    parts = re.findall(r"[a-z]+|\d+", name.lower())
    return "-".join([stem, *("n" if part.isdigit() else part for part in parts)])


def test_every_input_of_a_working_has_a_phrase_with_a_gap_for_each_number() -> None:
    names = {given["name"] for work in recorded() for given in work["inputs"]}
    assert len(names) > 200
    for name in names:
        phrase = templates()[code("working-input", name)]
        assert set(re.findall(r"\{(\w+)\}", phrase)) == set(GAPS[: len(re.findall(r"\d+", name))]), name


def test_every_figure_of_a_working_has_a_phrase() -> None:
    for figure in {work["figure"] for work in recorded()}:
        holder = re.match(r"/[^/]+/([^/]+)(?:/\d+(?=/))?", figure)
        assert holder
        own = figure[holder.end() + 1 :].replace("/", " ")
        assert code("working-part", holder[1]) in templates(), figure
        assert code("working-figure", own or holder[1]) in templates(), figure


def test_every_check_kind_of_layer_and_usual_traffic_has_a_name_on_the_page() -> None:
    codes = {entry.name for entry in CHECKS} | set(KINDS) | set(USUAL)
    assert {f"client-code-{code}" for code in codes} == told("client-code-")


@pytest.mark.parametrize("page", sorted(CLIENT.glob("*.html")), ids=lambda path: path.name)
def test_no_word_that_a_person_reads_stands_in_the_html(page: Path) -> None:
    html = re.sub(r"\{\{.*?\}\}", "", page.read_text("utf-8"))
    texts = [text.strip() for text in re.findall(r">([^<>]+)<", html)]
    heard = re.findall(r'(?:aria-label|alt|title|placeholder)="([^"]*)"', html)
    assert [text for text in texts + heard if re.search(r"[A-Za-z]{2}", text) and text not in SAME_EVERYWHERE] == []


@pytest.mark.parametrize("language", ["en", "es"])
def test_a_substrate_that_the_page_offers_is_known_in_each_language(language: Language) -> None:
    offered = {
        code.removeprefix("page-on-"): words for code, words in templates(language).items() if "page-on-" in code
    }
    assert {kind.value: substrate(offered[kind.value]) for kind in Substrate} == {
        kind.value: kind for kind in Substrate
    }
    assert offered.keys() == {kind.value for kind in Substrate}


def test_no_style_sheet_writes_a_word() -> None:
    """A word in a style sheet stays English on a Spanish page."""
    written = [
        (path.name, text)
        for path in sorted(CLIENT.glob("*.css"))
        for text in re.findall(r'content: "([^"]*)"', path.read_text("utf-8"))
    ]
    assert written
    assert [(name, text) for name, text in written if re.search(r"[a-z]", text)] == []
