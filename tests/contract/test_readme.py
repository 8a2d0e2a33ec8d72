"""The README's curl gives the README's answer."""

import json
import re
import shlex
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

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


def test_the_address_is_the_one_that_serve_opens_by_default() -> None:
    assert "http://127.0.0.1:8080/v1/quotes" in README


def test_a_promise_that_is_not_kept_is_found() -> None:
    assert missing({"a": [1, {"b": 2}]}, {"a": [1, {"b": 3}, 4]}) == ["/a/1/b: 3 instead of 2"]
