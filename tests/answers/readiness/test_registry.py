"""The registry of checks: what an answer, the description and the sentence file have of them is what it lists."""

import re
from collections.abc import Iterator
from typing import Any

from hypothesis import HealthCheck, given, settings
from tests.answers.readiness.test_verdict import airs, rooms, slabs

from gaugerake.answers.readiness.registry import CHECKS, CheckName
from gaugerake.answers.show.describe import Describer
from gaugerake.answers.show.words import templates
from gaugerake.floor.job import Air, Job, Room, Slab
from gaugerake.floor.values.note import Say

OF_CHECKS = re.compile(r"(name|check|do|summary-stop)-")
OTHERS = {"check-untested"}
"""Sentences of these stems that belong to no one check."""
CODES = {code for entry in CHECKS for code in entry.codes}


def parts(said: Say) -> Iterator[Say]:
    """The sentences of a list, or the one that it is."""
    inner = [one for one in said.params.values() if isinstance(one, Say)] if said.code.endswith("-list") else []
    yield from (one for each in inner for one in parts(each))
    yield from () if inner else (said,)


def test_names_are_told_apart() -> None:
    names = [entry.name for entry in CHECKS]
    assert len(set(names)) == len(names)
    assert [name.value for name in CheckName] == names


def test_the_description_lists_them_in_their_order() -> None:
    describer = Describer()
    describer.schema(CheckName)
    assert describer.components["CheckName"]["x-extensible-enum"] == [entry.name for entry in CHECKS]


def test_the_sentence_file_has_their_sentences_and_no_others() -> None:
    assert {code.removesuffix("-one") for code in templates() if OF_CHECKS.match(code)} - OTHERS == CODES


@given(slabs, airs, rooms)
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_a_check_says_only_what_its_entry_lists(judge_whole: Any, slab: Slab, air: Air, room: Room) -> None:
    answer = judge_whole(Job(system="floor", rooms=(room,), slab=slab, air=air)).answer
    entries = {entry.name: entry for entry in CHECKS}
    for check in answer.checks:
        said = [check.because, *([] if check.do is None else [check.do])]
        for reading in check.readings:
            said += [reading.because, *([] if reading.do is None else [reading.do])]
        assert {one.code for each in said for one in parts(each)} <= set(entries[check.check].codes)
        assert check.verdict != "stop" or entries[check.check].stops
