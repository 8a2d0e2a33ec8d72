"""The files of the page: packed for those who take them so, each form with a tag of its own, and sent once."""

import gzip
import json
import re
from collections.abc import Iterator

import pytest
from flask.testing import FlaskClient

from gaugerake.answers.show.words import templates
from gaugerake.answers.show.words.figures import unit_text
from gaugerake.measure.choice import SI, US
from gaugerake.measure.dimension import KINDS

GZIP = {"Accept-Encoding": "gzip, deflate, br"}
PHRASES = "/* words "
PLAIN = {"Accept-Encoding": "identity"}
FORMS = pytest.mark.parametrize("headers", [GZIP, PLAIN], ids=["packed", "plain"])
FILES = pytest.mark.parametrize("path", ["/", "/style.css", "/js/quote/main.js", "/js/quote/mixes.js", "/sw.js"])


def varies(path: str) -> str:
    """What a file depends on: one with phrases also on who reads it."""
    return "Accept-Encoding, Accept-Language, Cookie" if path in {"/", "/js/quote/mixes.js"} else "Accept-Encoding"


@FILES
def test_a_file_comes_packed_and_is_the_same_file(client: FlaskClient, path: str) -> None:
    packed, plain = client.get(path, headers=GZIP), client.get(path, headers=PLAIN)
    assert packed.headers["Content-Encoding"] == "gzip"
    assert "Content-Encoding" not in plain.headers
    assert gzip.decompress(packed.data) == plain.data
    assert int(packed.headers["Content-Length"]) == len(packed.data) < len(plain.data)
    assert [response.headers["Vary"] for response in (packed, plain)] == [varies(path)] * 2


def test_a_file_without_words_comes_as_it_is(client: FlaskClient, request: pytest.FixtureRequest) -> None:
    assert client.get("/sw.js", headers=PLAIN).data == (request.config.rootpath / "client" / "sw.js").read_bytes()


def test_the_style_comes_without_its_comments_and_indents(client: FlaskClient, request: pytest.FixtureRequest) -> None:
    sent = client.get("/style.css", headers=PLAIN).text.splitlines()
    written = (request.config.rootpath / "client" / "style.css").read_text("utf-8").splitlines()
    plain = [line.strip() for line in _uncommented(written) if line.strip()]
    assert [line for line in sent if line] == [_without_blanks(line) for line in plain]
    assert len(sent) == len(written)


def _without_blanks(line: str) -> str:
    """A line of a style sheet whose signs have no blanks about them; what stands in quotes stays."""
    parts = line.split('"')
    for index in range(0, len(parts), 2):
        for sign in "{};,":
            while f" {sign}" in parts[index] or f"{sign} " in parts[index]:
                parts[index] = parts[index].replace(f" {sign}", sign).replace(f"{sign} ", sign)
        parts[index] = parts[index].replace(": ", ":").replace(";}", "}")
    return '"'.join(parts)


def _uncommented(lines: list[str]) -> Iterator[str]:
    """The lines of a style sheet that stand in no comment; a comment begins and ends a line of its own."""
    within = False
    for line in lines:
        within = within or line.strip().startswith("/*")
        if not within:
            yield line
        within = within and not line.strip().endswith("*/")


def test_scripts_come_without_their_lines_of_comment(client: FlaskClient, request: pytest.FixtureRequest) -> None:
    """Every other line is sent at its number, but for types, indents and phrases.

    ``tests/client`` shows that both mean the same.
    """
    folder = request.config.rootpath / "client"
    for file in (folder / "js").rglob("*.js"):
        sent = client.get(f"/{file.relative_to(folder).as_posix()}", headers=PLAIN).text.splitlines()
        written = [re.sub(r"/\*\*[^*]*\*/ ?", "", line).strip() for line in file.read_text("utf-8").splitlines()]
        assert len(sent) == len(written), file.name
        assert all(line in (text, "") for line, text in zip(sent, written, strict=True) if PHRASES not in text), (
            file.name
        )
        assert not [line for line in sent if line.strip().startswith(("//", "/**\n", "* "))], file.name


def test_words_come_with_the_file_that_needs_them(client: FlaskClient) -> None:
    page, embed = client.get("/").text, client.get("/embed.js").text
    assert page.startswith('<!DOCTYPE html>\n<html lang="en">')
    assert "<h1>What floor, on what slab?</h1>" in page
    block = page.partition('<script type="application/json" id="words">')[2].partition("</script>")[0]
    assert json.loads(block)["client-try-again"] == "Try again"
    assert '"embed-quote-this-floor":"Quote this floor"' in embed
    assert "{{" not in page.replace(block, "")


@pytest.mark.parametrize(
    ("likes", "chosen", "language"),
    [("es-MX, en;q=0.5", "", "es"), ("en", "", "en"), ("en", "es", "es"), ("es", "en", "en"), ("es", "fr", "es")],
)
def test_the_page_is_in_the_language_of_the_browser_or_as_chosen_on_it(
    client: FlaskClient, likes: str, chosen: str, language: str
) -> None:
    client = client.application.test_client(use_cookies=False)
    headers = {"Accept-Language": likes, **({"Cookie": f"lang={chosen}"} if chosen else {})}
    page = client.get("/", headers=headers)
    assert page.text.startswith(f'<!DOCTYPE html>\n<html lang="{language}">')
    assert page.headers["Content-Language"] == language
    again = "Intentar otra vez" if language == "es" else "Try again"
    block = page.text.partition('<script type="application/json" id="words">')[2].partition("</script>")[0]
    assert json.loads(block)["client-try-again"] == again
    for path in ("/slab.html", "/compare.html", "/start.html"):
        assert f'<html lang="{language}">' in client.get(path, headers=headers).text
    late = client.get("/js/quote/working.js", headers=headers).text
    assert ("punto de rocío" in late) == (language == "es")
    assert client.get("/v1/systems", headers=headers).headers["Content-Language"] == language
    other = client.get("/", headers={"Accept-Language": "en" if language == "es" else "es"})
    assert other.headers["ETag"] != page.headers["ETag"]


@pytest.mark.parametrize("path", ["/", "/index.html", "/slab.html", "/compare.html", "/start.html", "/embed.js"])
def test_a_file_with_words_refuses_a_language_that_we_do_not_have(client: FlaskClient, path: str) -> None:
    for query in ("lang=fr", "lang=", "lang=ES", "lang=es&lang=en"):
        refused = client.get(f"{path}?{query}", headers={"Accept-Language": "es"})
        assert (refused.status_code, refused.get_json()["code"]) == (422, "bad-parameter")
    (error,) = client.get(f"{path}?lang=fr").get_json()["errors"]
    assert (error["parameter"], error["hint"]) == ("lang", "Known here: en, es.")
    spoken = client.get(f"{path}?lang=es&from=a-letter", headers={"Accept-Language": "en"})
    assert (spoken.status_code, spoken.headers["Content-Language"]) == (200, "es")


@pytest.mark.parametrize("path", ["/style.css", "/sw.js", "/js/quote/main.js"])
def test_a_file_without_words_has_no_language_to_refuse(client: FlaskClient, path: str) -> None:
    response = client.get(f"{path}?lang=fr")
    assert response.status_code == 200
    assert "Content-Language" not in response.headers


@FILES
def test_each_form_has_a_strong_tag_of_its_own(client: FlaskClient, path: str) -> None:
    tags = [client.get(path, headers=headers).headers["ETag"] for headers in (GZIP, PLAIN)]
    assert len(set(tags)) == 2
    assert all(tag.startswith('"') for tag in tags)


@FORMS
@FILES
def test_what_one_has_is_not_sent_again(client: FlaskClient, path: str, headers: dict[str, str]) -> None:
    first = client.get(path, headers=headers)
    again = client.get(path, headers={**headers, "If-None-Match": first.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")
    assert again.headers["ETag"] == first.headers["ETag"]
    assert again.headers["Vary"] == varies(path)
    assert "Content-Encoding" not in again.headers


@FORMS
@FILES
def test_the_head_alone_is_that_of_the_file(client: FlaskClient, path: str, headers: dict[str, str]) -> None:
    whole, head = client.get(path, headers=headers), client.head(path, headers=headers)
    assert (head.status_code, head.data) == (200, b"")
    # a number of its own is all that differs
    assert {name: value for name, value in head.headers if name != "X-Request-Id"} == {
        name: value for name, value in whole.headers if name != "X-Request-Id"
    }


@pytest.mark.parametrize("asked", ["gzip;q=0", "br", "", "identity, *;q=0"])
def test_nobody_gets_a_form_that_was_not_asked_for(client: FlaskClient, asked: str) -> None:
    assert "Content-Encoding" not in client.get("/style.css", headers={"Accept-Encoding": asked}).headers


def test_a_file_is_packed_the_same_in_every_worker(client: FlaskClient) -> None:
    """No time of packing stands in it: the same tag means the same bytes."""
    packed = client.get("/style.css", headers=GZIP).data
    assert packed[4:8] == b"\0\0\0\0"


def test_the_page_spells_units_as_sentences_do() -> None:
    prefix = "client-unit-"
    spelled = {code.removeprefix(prefix): word for code, word in templates().items() if code.startswith(prefix)}
    shown = {made.unit(kind) for kind in KINDS for made in (US, SI)}
    said = {name: unit_text(name, templates()) for name in shown & set(spelled)}
    assert said == {name: spelled[name] for name in said}
    assert {"ft2", "ft2/h", "lb/1000ft2/24h", "m2/L", "um"} <= set(said)


def test_the_working_brings_its_phrases(client: FlaskClient) -> None:
    script = client.get("/js/quote/working.js", headers=PLAIN).text
    assert '"working-figure-gross-area":"gross area"' in script
    assert PHRASES not in script
    assert "working-input-" not in client.get("/", headers=PLAIN).text


def test_a_late_module_brings_its_phrases(client: FlaskClient) -> None:
    """The first view carries none of them."""
    assert '"late-log-ask-unit":"In which unit are {about}?"' in client.get("/js/shared/readings.js").text
    assert '"late-' not in client.get("/", headers=PLAIN).text
