"""Reading a file of worked cases: all of them, or everything that is wrong with the file, each with its line."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal
from typing import Any, get_args

from gaugerake.catalogue.cases.pointers import POINTER
from gaugerake.catalogue.cases.values import Case, Expected, Single, Within
from gaugerake.catalogue.file.faults import Notebook
from gaugerake.catalogue.file.nodes import Entries, Items, Node, Scalar, tree
from gaugerake.catalogue.file.read import Table, items, text
from gaugerake.measure.choice import ChoiceName
from gaugerake.measure.dimension import Dimension
from gaugerake.measure.errors import NotAMeasure
from gaugerake.measure.grammar import read

_EXAMPLES = {
    "worked_cases": "worked_cases: a title",
    "cases": "cases: a list of jobs and what each gives",
    "case": "case: what it is called",
    "job": "job: a job as the API takes it, such as {system: level-clear, rooms: [ … ]}",
    "gives": "gives: a list of what the answer must hold, such as {at: /readiness/verdict, is: ready}",
    "at": "at: a JSON Pointer into the answer, such as /quantities/totals/gross",
    "is": 'is: the value that must stand there, such as 12 or "84.00"',
}
_BEGINS = "worked cases begin with keys and values, such as worked_cases: Floors that we know"
_JOB_BEGINS = "a job begins with keys and values, such as system: level-clear"
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]{0,14})(\.[0-9]{1,15})?([eE][-+]?[0-9]{1,2})?")
_PERCENT = re.compile(r"([0-9]{1,3}(?:\.[0-9]{1,6})?) ?%")
_AMOUNT = re.compile(r"[0-9]{1,12}(\.[0-9]{1,12})?")
_WITHIN = "write how far it may be off: a number in the figure's own unit, a share such as 1 %, or a time such as 5 min"


def read_cases(written: str) -> tuple[Case, ...]:
    """The cases of a file.

    Raises
    ------
    FileRefused
        With all faults of the file, each with its line.
    """
    notebook = Notebook()
    table = _table(tree(written.removeprefix("\ufeff"), notebook, begins=_BEGINS), ("worked_cases", "cases"))
    table.read("worked_cases", text, "")
    cases = table.read("cases", lambda node: [_case(item) for item in items(node)], [])
    for number, case in enumerate(cases):
        if any(case.name == before.name for before in cases[:number]):
            notebook.fault(
                case.line, "cases", f'a case before is called "{case.name}" too: give each a name of its own'
            )
    notebook.raise_any()
    return tuple(cases)


def read_job(written: str) -> Any:
    """The job document that a file holds, in YAML or JSON.

    Raises
    ------
    FileRefused
    """
    notebook = Notebook()
    root = tree(written.removeprefix("\ufeff"), notebook, begins=_JOB_BEGINS)
    notebook.raise_any()
    return _value(root)


def _table(node: Node, required: tuple[str, ...], optional: tuple[str, ...] = ()) -> Table:
    return Table(node, required=required, optional=optional, examples=_EXAMPLES)


def _case(node: Node) -> Case:
    table = _table(node, ("case", "job", "gives"), ("worked", "units"))
    table.read("worked", lambda place: text(place, longest=2000), "")
    job = table.get("job")
    if job is not None and not isinstance(job, Entries):
        job.fault("write the job here, as keys and values")
    return Case(
        line=node.line,
        name=table.read("case", text, ""),
        units=table.read("units", _units, "us"),
        job=None if job is None else _value(job),
        lines={} if job is None else dict(_lines(job, "")),
        gives=table.read("gives", lambda place: tuple(_expected(item) for item in items(place)), ()),
    )


def _units(node: Node) -> ChoiceName:
    names: tuple[ChoiceName, ...] = get_args(ChoiceName)
    for name in names:
        if isinstance(node, Scalar) and node.text == name:
            return name
    node.fault("write us or si here: the units in which the answer is looked at")
    return "us"


def _expected(node: Node) -> Expected:
    table = _table(node, ("at", "is"), ("within",))
    value = table.read("is", _single, None)
    within = table.read("within", _within, None)
    if within is not None and (value is None or isinstance(value, bool)):
        table.fault("within", "only a figure or a time can be off by so much: leave this out")
    return Expected(line=node.line, pointer=table.read("at", _pointer, "/"), value=value, within=within)


def _pointer(node: Node) -> str:
    if isinstance(node, Scalar) and node.written and POINTER.fullmatch(node.text):
        return node.text
    node.fault("write a JSON Pointer here: a slash before each name or number, such as /quantities/totals/gross")
    return "/"


def _single(node: Node) -> Single:
    if isinstance(node, Scalar):
        value: Single = _value(node)
        return value
    node.fault("write one value here, not several: point at one value each")
    return None


def _within(node: Node) -> Within | None:
    words = node.text if isinstance(node, Scalar) and node.written else ""
    percent = _PERCENT.fullmatch(words)
    if percent:
        return Within(amount=Decimal(percent[1]), of="percent", written=words)
    if _AMOUNT.fullmatch(words):
        return Within(amount=Decimal(words), of="unit", written=words)
    try:
        return Within(amount=Decimal(read(words, Dimension.DURATION)), of="seconds", written=words)
    except NotAMeasure:
        node.fault(_WITHIN)
        return None


def _value(node: Node) -> Any:
    """What a part of the file is as JSON."""
    if isinstance(node, Entries):
        return {key: _value(below) for key, below in node.entries.items()}
    if isinstance(node, Items):
        return [_value(below) for below in node.items]
    assert isinstance(node, Scalar)
    if node.kind == "bool":
        return node.text.lower() == "true"
    if node.kind == "null":
        return None
    if node.plain and (found := _NUMBER.fullmatch(node.text)):
        return float(node.text) if found[1] or found[2] else int(node.text)
    return node.text


def _lines(node: Node, pointer: str) -> Iterator[tuple[str, int]]:
    yield pointer, node.line
    if isinstance(node, Entries):
        for key, below in node.entries.items():
            yield from _lines(below, f"{pointer}/{key.replace('~', '~0').replace('/', '~1')}")
    elif isinstance(node, Items):
        for number, below in enumerate(node.items):
            yield from _lines(below, f"{pointer}/{number}")
