"""The files of the page: packed for those who take them so, each form with a tag of its own, and sent once."""

import gzip
import re

import pytest
from flask.testing import FlaskClient

from gaugerake.measure.choice import SI, US, text_unit
from gaugerake.measure.dimension import KINDS

GZIP = {"Accept-Encoding": "gzip, deflate, br"}
PLAIN = {"Accept-Encoding": "identity"}
FORMS = pytest.mark.parametrize("headers", [GZIP, PLAIN], ids=["packed", "plain"])
FILES = pytest.mark.parametrize("path", ["/", "/style.css", "/js/quote/main.js", "/js/quote/mixes.js", "/sw.js"])


@FILES
def test_a_file_comes_packed_and_is_the_same_file(
    client: FlaskClient, request: pytest.FixtureRequest, path: str
) -> None:
    file = request.config.rootpath / "client" / (path.lstrip("/") or "index.html")
    packed, plain = client.get(path, headers=GZIP), client.get(path, headers=PLAIN)
    assert packed.headers["Content-Encoding"] == "gzip"
    assert "Content-Encoding" not in plain.headers
    assert gzip.decompress(packed.data) == plain.data == file.read_bytes()
    assert int(packed.headers["Content-Length"]) == len(packed.data) < len(plain.data)
    assert [response.headers["Vary"] for response in (packed, plain)] == ["Accept-Encoding"] * 2


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
    assert again.headers["Vary"] == "Accept-Encoding"
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


def test_the_page_spells_units_as_sentences_do(request: pytest.FixtureRequest) -> None:
    words = (request.config.rootpath / "client" / "js" / "shared" / "words.js").read_text("utf-8")
    table = words.partition("const UNITS = {")[2].partition("};")[0]
    spelled = {one or other: said for one, other, said in re.findall(r"(?:'([^']+)'|(\w+)): '([^']*)'", table)}
    shown = {made.unit(kind) for kind in KINDS for made in (US, SI)}
    said = {name: text_unit(name) for name in shown & set(spelled) if spelled[name]}
    assert said == {name: spelled[name] for name in said}
    assert {"ft2", "ft2/h", "lb/1000ft2/24h", "m2/L", "um"} <= set(said)
