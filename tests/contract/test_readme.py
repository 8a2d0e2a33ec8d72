"""The README's curl gives the README's answer."""

import json
import re
import shlex
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
import requests

README = (Path(__file__).parents[2] / "README.md").read_text("utf-8")


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```", README, re.S | re.M)


def missing(promised: Any, given: Any, place: str = "") -> list[str]:
    """Where ``given`` does not hold what ``promised`` says; objects may hold more, lists go on after it."""
    if isinstance(promised, dict):
        return [fault for key in promised for fault in missing(promised[key], given.get(key), f"{place}/{key}")]
    if isinstance(promised, list):
        return [fault for i, one in enumerate(promised) for fault in missing(one, given[i], f"{place}/{i}")]
    return [] if promised == given else [f"{place}: {given!r} instead of {promised!r}"]


def test_the_curl_of_the_readme_gives_its_answer(server: str) -> None:
    command = next(shlex.split(block) for block in blocks("sh") if block.startswith("curl"))
    address = urlsplit(next(word for word in command if word.startswith("http")))
    body = command[command.index("-d") + 1]
    header = command[command.index("-H") + 1].split(": ")
    response = requests.post(server + address.path, data=body.encode(), headers=dict([header]), timeout=10)
    promised = json.loads(blocks("json")[0])
    assert missing(promised, response.json()) == []


def test_the_cart_of_the_readme_holds_what_its_answer_promises(server: str) -> None:
    (code,) = blocks("python")
    assert "http://127.0.0.1:8080" in code
    held: dict[str, Any] = {}
    exec(code.replace("http://127.0.0.1:8080", server), held)
    promised = json.loads(blocks("json")[0])["quantities"]
    assert held["total"] == promised["totals"]["gross"]
    assert {line["sku"]: line["packs"] for line in promised["order_lines"]}.items() <= held["cart"].items()
    assert held["tell"]
    assert bool(held["ask_first"]) is not held["order"]["orderable"]
    assert held["order"]["totals"]["unpriced"] == []
    assert requests.get(server + held["again"], timeout=10).json() == held["quote"]


def test_the_cart_of_the_readme_says_what_is_wrong(server: str) -> None:
    (code,) = blocks("python")
    with pytest.raises(SystemExit) as stopped:
        exec(code.replace("http://127.0.0.1:8080", server).replace("1200 sq ft", "1200"), {})
    assert [error["pointer"] for error in stopped.value.code] == ["/rooms/0/shape/measured/area"]  # type: ignore[union-attr]


PICTURES = re.findall(r"!\[([^\]]+)\]\(([^)]+)\)", README)


def test_there_is_a_picture_of_the_page_and_of_the_paper() -> None:
    assert [path for _, path in PICTURES] == ["client/pictures/page.png", "client/pictures/paper.png"]


@pytest.mark.parametrize(("words", "path"), PICTURES)
def test_a_picture_is_small_and_said_in_words(words: str, path: str) -> None:
    picture = (Path(__file__).parents[2] / path).read_bytes()
    assert picture.startswith(b"\x89PNG\r\n")
    assert len(picture) < 150_000
    assert len(words) > 40


def test_the_address_is_the_one_that_serve_opens_by_default() -> None:
    assert "http://127.0.0.1:8080/v1/quotes" in README


def test_a_promise_that_is_not_kept_is_found() -> None:
    assert missing({"a": [1, {"b": 2}]}, {"a": [1, {"b": 3}, 4]}) == ["/a/1/b: 3 instead of 2"]
