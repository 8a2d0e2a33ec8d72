"""Worked cases: a distributor's own jobs and figures, which a catalogue must give before it is loaded."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
from tests.builders import client_of, example, measured
from tests.catalogue.commands import Run

from gaugerake.catalogue.cases.compare import differences
from gaugerake.catalogue.cases.file import read_cases
from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.catalogue.store.demo import demo_snapshot, demo_text
from gaugerake.catalogue.store.snapshot import revision_id
from gaugerake.web.api.one_quote import one_quote

DEMO_CASES = Path(__file__).parents[2] / "api" / "gaugerake" / "catalogue" / "store" / "demo_cases.yaml"
CASES = """\
worked_cases: Floors that we know (invented)
cases:
  - case: a shop floor
    job:
      system: probe
      rooms:
        - shape: {measured: {area: 600 ft2}}
      order: {waste_percent: 0, colour: red}
    gives:
      - {at: /quantities/order_lines/0/sku, is: BD-1}
"""


def told(answer: Any, line: str) -> list[str]:
    """What differs between an answer and one line of what a case gives."""
    text = f"worked_cases: x\ncases:\n  - case: x\n    job: {{}}\n    gives:\n      - {line}\n"
    [case] = read_cases(text)
    return [one.text for one in differences(case, answer)]


@pytest.fixture()
def cases(tmp_path: Path, file: Path) -> Path:
    """A file of one case beside the small catalogue."""
    path = tmp_path / "cases.yaml"
    path.write_text(CASES, "utf-8")
    return path


def test_the_demonstration_gives_its_worked_cases(run: Run, tmp_path: Path) -> None:
    (tmp_path / "demo_cases.yaml").write_text(DEMO_CASES.read_text("utf-8"), "utf-8")
    end = run("cases", "check", "demo_cases.yaml")
    assert end == (0, "demo_cases.yaml: cases: 4, figures: 21, differences: 0\n", "")


@pytest.mark.parametrize(
    ("old", "new", "pointer"),
    [
        ("likely: 0.55 ft3", "likely: 0.53 ft3", "/quantities/order_lines/0/need/likely/value"),
        ("likely: 0.92 lb/ft2", "likely: 0.93 lb/ft2", "/quantities/order_lines/2/need/likely/value"),
        ('price: "16.90"', 'price: "16.80"', "/quantities/order_lines/2/amount"),
        ("high: 14.5 h", "high: 15 h", "/return_times/returns/0/after/value"),
        ("dew_point_spread: 6 delta_degF", "dew_point_spread: 5 delta_degF", "/readiness/checks/18/limit/low/value"),
        ("moisture_emission: 4.5 lb", "moisture_emission: 5 lb", "/readiness/verdict"),
        ("high: 5/16 in}", "high: 1 in}", "/status"),
    ],
)
def test_a_catalogue_that_breaks_a_case_of_the_demonstration_is_told(
    run: Run, tmp_path: Path, old: str, new: str, pointer: str
) -> None:
    text = demo_text()
    assert old in text
    (tmp_path / "new.yaml").write_text(text.replace(old, new), "utf-8")
    end = run("cases", "check", str(DEMO_CASES), "--catalogue", "new.yaml")
    assert end.code == 1
    assert f": {pointer} is " in end.out


@pytest.mark.parametrize("name", ["least", "full", "winter", "tested"])
@pytest.mark.parametrize("units", ["us", "si"])
def test_a_case_is_answered_as_the_service_answers(name: str, units: Any) -> None:
    """But for the token, which a service signs, and what names the request."""
    job = example(name)
    served = client_of(demo_snapshot()).post(f"/v1/quotes?working=true&units={units}", json=job).get_json()
    answered = one_quote(job, demo_snapshot(), units=units, explained=True)
    unsigned = [one for one in served["cautions"] if one["code"] != "token-without-secret"]
    assert {**served, "token": "", "cautions": unsigned} == answered


def test_a_job_that_is_refused_is_answered_as_the_service_answers() -> None:
    job = {"system": "level-clear", "rooms": [measured(thickness="1 in")], "orders": {}}
    served = client_of(demo_snapshot()).post("/v1/quotes", json=job).get_json()
    assert {**served, "request_id": None} == one_quote(job, demo_snapshot())


@pytest.mark.parametrize(
    ("line", "text"),
    [
        ("{at: /a, is: 80}", "is 79, not 80: 1 less (1.25 %)"),
        ("{at: /a, is: 80, within: 0.5}", "is 79, not 80: 1 less (1.25 %), and within 0.5 is allowed"),
        ("{at: /a, is: 80, within: 1 %}", "is 79, not 80: 1 less (1.25 %), and within 1 % is allowed"),
        ("{at: /a, is: 80, within: 5 min}", "is 79, not 80: 1 less (1.25 %), and within 5 min is allowed"),
        ('{at: /money, is: "80.00"}', 'is "81.50", not "80.00": 1.50 more (1.88 %)'),
        ("{at: /when, is: 2027-03-05T06:00:00-06:00}",
         'is "2027-03-05T07:01:30-06:00", not "2027-03-05T06:00:00-06:00": 1 h 1 min 30 s later'),
        ("{at: /yes, is: false}", "is true, not false"),
        ("{at: /yes, is: 1}", "is true, not 1"),
        ("{at: /word, is: stop}", 'is "go", not "stop"'),
        ("{at: /word, is: 3}", 'is "go", not 3'),
        ("{at: /none, is: 3}", "is null, not 3"),
        ("{at: /list/4, is: 3}", "is nothing in the answer; /list has 0, 1"),
        ("{at: /deep/er, is: 3}", "is nothing in the answer; /deep has value, unit"),
        ("{at: /word/er, is: 3}", "is nothing in the answer"),
        ("{at: /deep, is: 3}", "holds several values: point at one, such as /deep/value"),
    ],
)  # fmt: skip
def test_a_difference_is_told_with_how_much_it_is(line: str, text: str) -> None:
    answer = {
        "a": 79,
        "money": "81.50",
        "when": "2027-03-05T07:01:30-06:00",
        "yes": True,
        "word": "go",
        "none": None,
        "list": [1, 2],
        "deep": {"value": 3, "unit": "ft"},
    }
    assert told(answer, line) == [text]


@pytest.mark.parametrize(
    "line",
    [
        "{at: /a, is: 79}",
        "{at: /a, is: 79.0}",
        '{at: /a, is: "79"}',
        "{at: /a, is: 79.5, within: 0.5}",
        "{at: /a, is: 79.79, within: 1 %}",
        "{at: /money, is: 81.5}",
        "{at: /when, is: 2027-03-05T08:00:00-05:00, within: 0 s}",
        "{at: /when, is: 2027-03-05T06:58:00-06:00, within: 3.5 min}",
        "{at: /none, is: null}",
        "{at: /a~1b, is: yes}",
    ],
)
def test_what_is_as_it_is_written_is_no_difference(line: str) -> None:
    answer = {"a": 79, "money": "81.50", "when": "2027-03-05T07:00:00-06:00", "none": None, "a/b": "yes"}
    assert told(answer, line) == []


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        (CASES, "- a list", 1, "worked cases begin with keys and values"),
        ("worked_cases: ", "workedcases: ", 1, '"workedcases" is not known here. Do you mean "worked_cases"?'),
        ("    job:", "    jobb:", 4, 'Do you mean "job"?'),
        ("    job:", "    units: metric\n    job:", 4, "write us or si here"),
        ("is: BD-1", "is: [BD-1]", 10, "write one value here, not several"),
        ("is: BD-1", "isnt: BD-1", 10, "is is missing: write is: the value"),
        ("at: /quantities", "at: quantities", 10, "write a JSON Pointer here"),
        ("is: BD-1", "is: BD-1, within: some", 10, "write how far it may be off"),
        ("is: BD-1", "is: true, within: 1", 10, "only a figure or a time can be off"),
        ("      system: probe", "      system: probe\n      system: probe", 6, '"system" is written twice here'),
        ("      system: probe", "      system: [probe", 6, "not YAML"),
    ],
)
def test_a_fault_of_the_file_has_its_line(run: Run, cases: Path, old: str, new: str, line: int, words: str) -> None:
    assert old in CASES
    cases.write_text(CASES.replace(old, new), "utf-8")
    end = run("cases", "check", "cases.yaml", "--catalogue", "small.yaml")
    assert end.code == 1
    assert any(one.startswith(f"cases.yaml:{line}: ") and words in one for one in end.out.splitlines()), end.out


def test_two_cases_have_two_names() -> None:
    again = CASES + CASES.partition("\ncases:\n")[2]
    with pytest.raises(FileRefused, match='11: cases: a case before is called "a shop floor" too'):
        read_cases(again)


def test_a_job_that_is_refused_is_told_on_its_own_line(run: Run, cases: Path) -> None:
    cases.write_text(CASES.replace("area: 600 ft2", "area: 600"), "utf-8")
    end = run("cases", "check", "cases.yaml", "--catalogue", "small.yaml")
    assert end.code == 1
    assert end.out.startswith("cases.yaml:7: a shop floor: the job is refused at /rooms/0/shape/measured/area: ")


def test_a_catalogue_that_breaks_a_case_is_not_loaded(run: Run, cases: Path, small: str) -> None:
    before = run("catalogue", "list").out
    cases.write_text(CASES.replace("is: BD-1", "is: BD-2"), "utf-8")
    end = run("catalogue", "load", "small.yaml", "--cases", "cases.yaml")
    assert end.code == 1
    assert end.out.splitlines() == [
        'cases.yaml:10: a shop floor: /quantities/order_lines/0/sku is "BD-1", not "BD-2"',
        "cases.yaml: cases: 1, figures: 1, differences: 1",
        "small.yaml is not loaded, and what was in use stays so",
    ]
    assert run("catalogue", "list").out == before
    cases.write_text(CASES, "utf-8")
    assert run("catalogue", "load", "small.yaml", "--cases", "cases.yaml").code == 0
    assert run("catalogue", "list").out.startswith(f"* {revision_id(small)[:12]}")


def test_faults_of_the_catalogue_and_of_the_cases_are_told_as_such(run: Run, cases: Path, file: Path) -> None:
    file.write_text("catalogue: x", "utf-8")
    assert run("catalogue", "load", "small.yaml", "--cases", "cases.yaml").out.startswith("small.yaml:1: ")
    cases.write_text("cases: x", "utf-8")
    assert run("catalogue", "load", "small.yaml", "--cases", "cases.yaml").out.startswith("cases.yaml:1: ")


def test_a_case_may_ask_for_the_prices_of_a_branch(run: Run, cases: Path, tmp_path: Path) -> None:
    run("catalogue", "load", "small.yaml")
    (tmp_path / "north.csv").write_text("sku,price\nBD-1,64\n")
    run("prices", "load", "north", "north.csv")
    north = CASES.replace("colour: red", "colour: red, price_book: north")
    cases.write_text(north.replace("0/sku, is: BD-1", "0/unit_price, is: 64"), "utf-8")
    for more in ((), ("--catalogue", "small.yaml")):
        end = run("cases", "check", "cases.yaml", *more)
        assert end.code == 0, end.out


def test_a_catalogue_file_is_tried_without_any_database(run: Run, cases: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GAUGERAKE_DATABASE", "sqlite:////nowhere/at/all.sqlite3")
    assert run("cases", "check", "cases.yaml", "--catalogue", "small.yaml").code == 0


def test_differences_are_told_to_programs(run: Run, cases: Path) -> None:
    cases.write_text(CASES.replace("0/sku, is: BD-1", "0/unit_price, is: 71"), "utf-8")
    answer = json.loads(run("cases", "check", "cases.yaml", "--catalogue", "small.yaml", "--json").out)
    [difference] = answer["differences"]
    assert (answer["cases"], answer["figures"], difference["line"], difference["expected"]) == (1, 1, 10, 71)
    assert difference["by"].endswith(" %)")


def test_what_is_recorded_is_what_the_catalogue_gives(run: Run, tmp_path: Path) -> None:
    for name in ("least", "winter"):
        (tmp_path / f"{name}.json").write_text(json.dumps(example(name)))
    (tmp_path / "refused.yaml").write_text("system: level-clear\nrooms: []\n")
    end = run("cases", "record", "least.json", "winter.json", "refused.yaml", "--units", "si")
    assert end.code == 0
    (tmp_path / "cases.yaml").write_text(end.out)
    checked = run("cases", "check", "cases.yaml")
    assert (checked.code, checked.out.startswith("cases.yaml: cases: 3, ")) == (0, True)
    read = read_cases(end.out)
    assert [case.job for case in read[:2]] == [example("least"), example("winter")]
    assert [one.value for one in read[2].gives] == [422, "invalid-job"]


def test_what_is_recorded_can_be_chosen(run: Run, tmp_path: Path) -> None:
    (tmp_path / "least.json").write_text(json.dumps(example("least")))
    end = run("cases", "record", "least.json", "--at", "/working/0/figure", "--at", "/quantities/totals/currency")
    assert end.code == 0, end.err
    [case] = read_cases(end.out)
    assert [one.pointer for one in case.gives] == ["/working/0/figure", "/quantities/totals/currency"]
    assert case.gives[1].value == "USD"


@pytest.mark.parametrize(
    ("pointer", "words"),
    [
        ("/quantities/totalz", "the answer has nothing at /quantities/totalz; /quantities has "),
        ("/quantities/totals", "point at one, such as /quantities/totals/currency"),
        # a place in a list is written without leading zeros (RFC 6901, section 4)
        ("/quantities/rooms/0000009/name", "the answer has nothing at /quantities/rooms/0000009/name"),
        ("/quantities/rooms/00/name", "the answer has nothing at /quantities/rooms/00/name"),
    ],
)
def test_a_pointer_to_no_single_value_is_not_recorded(run: Run, tmp_path: Path, pointer: str, words: str) -> None:
    (tmp_path / "least.json").write_text(json.dumps(example("least")))
    end = run("cases", "record", "least.json", "--at", pointer)
    assert (end.code, words in end.err) == (3, True), end.err


def test_two_jobs_of_one_name_are_not_recorded_as_one(run: Run, tmp_path: Path) -> None:
    for folder in ("north", "south"):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / "hall.json").write_text(json.dumps(example("least")))
    end = run("cases", "record", "north/hall.json", "south/hall.json")
    assert (end.code, "two jobs have one name" in end.err, end.out) == (3, True, "")


def test_the_reference_names_what_a_case_has() -> None:
    reference = (DEMO_CASES.parents[1] / "README.md").read_text("utf-8")
    for key in ("worked_cases", "cases", "case", "worked", "units", "job", "gives", "at", "is", "within"):
        assert f"`{key}`" in reference


def test_the_case_of_the_reference_is_given_by_its_catalogue(run: Run, tmp_path: Path) -> None:
    """60 m² of quartz at 1.4 to 2.1 kg/m²: 84 to 126 kg."""
    reference = (DEMO_CASES.parents[1] / "README.md").read_text("utf-8")
    catalogue, cases = re.findall(r"^```yaml\n(.*?)^```", reference, re.S | re.M)
    (tmp_path / "floors.yaml").write_text(catalogue)
    (tmp_path / "cases.yaml").write_text(cases)
    end = run("cases", "check", "cases.yaml", "--catalogue", "floors.yaml")
    assert (end.code, end.out) == (0, "cases.yaml: cases: 1, figures: 2, differences: 0\n")
