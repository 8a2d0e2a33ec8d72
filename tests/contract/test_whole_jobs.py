"""Whole jobs at random: each is answered, as the description says, and every answer agrees with itself.

Nothing here knows a figure. What is asked is what any right answer must hold: ranges in order, packs that cover the
need, money to the cent, chances between none and certainty, steps in their shifts, one order however a job is written.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from decimal import ROUND_HALF_UP, Decimal
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from tests.builders import client_of
from tests.contract.whole_jobs import jobs, written

from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.catalogue.store.snapshot import snapshot_of
from gaugerake.floor.system import Catalogue
from gaugerake.web.describe.description import description

# the schemas of what is asked beside a job, which have tests of their own
BESIDE_THE_JOB = ("JobComparison", "JobChoice", "JobPourExtent", "JobPourUnderWay", "JobProgress", "JobStart")
# a pack counts what one key counts, and the book of a job without a key has tests of its own
NOT_DRAWN = {"count", "price_book"}


METRIC = Path(__file__).parents[1] / "catalogue" / "data" / "metric.yaml"
CATALOGUES = {"demonstration": demo_snapshot(), "metric": snapshot_of(METRIC.read_text("utf-8"))}
ORDER = ("go", "untested", "fix", "stop")
SHOWN = 1e-5  # figures have six digits
QUADRATURE = 1e-3
CENT = Decimal("0.01")


CLIENTS = {name: client_of(snapshot) for name, snapshot in CATALOGUES.items()}
Answer = dict[str, Any]


def answered(name: str, job: Any, query: str = "") -> tuple[bytes, Answer]:
    response = CLIENTS[name].post(f"/v1/quotes{query}", json=job)
    assert response.status_code == 200, response.get_data(as_text=True)
    return response.get_data(), response.get_json()


def for_each_catalogue(examples: int) -> Callable[[Any], Any]:
    """The test for jobs of each catalogue, always the same ones."""

    def over(test: Callable[..., None]) -> Callable[[str], None]:
        @pytest.mark.parametrize("name", CATALOGUES)
        def run(name: str) -> None:
            health = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]
            # a job that fails is shown as it was drawn: to make it small takes minutes
            drawing = settings(phases=[Phase.generate], derandomize=True, suppress_health_check=health)
            once = settings(drawing, max_examples=examples, deadline=None)
            once(given(jobs(CATALOGUES[name].catalogue), st.randoms(use_true_random=False))(
                lambda job, chance: test(name, job, chance)
            ))()  # fmt: skip

        run.__name__, run.__doc__ = test.__name__, test.__doc__
        return run

    return over


def figure(shown: Answer | None) -> float:
    assert shown is not None
    return float(shown["value"])


def in_order(*shown: Answer | None) -> bool:
    values = [figure(one) for one in shown]
    return all(one <= next_ * (1 + SHOWN) for one, next_ in pairwise(values))


def moments(*written_: str | None) -> list[datetime]:
    return [datetime.fromisoformat(one) for one in written_ if one is not None]


def same_order(one: Answer, other: Answer) -> bool:
    return packs_of(one) == packs_of(other)


def packs_of(answer: Answer) -> list[tuple[str, int, str | None]]:
    return [(line["sku"], line["packs"], line["amount"]) for line in answer["quantities"]["order_lines"]]


@for_each_catalogue(110)
def test_an_answer_agrees_with_itself(name: str, job: Any, _chance: Any) -> None:
    job = written(job)
    _, answer = answered(name, job)
    quantities = answer["quantities"]
    needs_hold(quantities)
    packs_cover(CATALOGUES[name].catalogue, job, quantities)
    money_adds_up(job, quantities)
    chances_hold(job, quantities)
    verdicts_hold(answer["readiness"])
    steps_hold(answer["return_times"])
    returns_hold(job, answer["return_times"])
    pours_hold(answer["pour_plan"])


def needs_hold(quantities: Answer) -> None:
    for layer in quantities["layers"]:
        for need in (layer["need"], layer["used"]):
            assert in_order(need["low"], need["likely"], need["high"]), layer
        assert figure(layer["used"]["likely"]) >= figure(layer["need"]["likely"]) * (1 - SHOWN), layer
    for room in quantities["rooms"]:
        assert 0 < figure(room["area"]) <= figure(room["gross_area"]) * (1 + SHOWN)


def packs_cover(catalogue: Catalogue, job: Any, quantities: Answer) -> None:
    contents = {pack.sku: pack.contents for product in catalogue.products.values() for pack in product.packs}
    product_of = {pack.sku: product.code for product in catalogue.products.values() for pack in product.packs}
    colour_of = {pack.sku: pack.colour for product in catalogue.products.values() for pack in product.packs}
    lines = defaultdict(list)
    for line in quantities["order_lines"]:
        assert line["packs"] >= 1
        lines[line["product"]].append(line)
    short = bool(quantities["blockers"])
    limits = {offer["sku"]: offer["available"] for offer in job["order"]["offers"] if "available" in offer}
    for product, own in lines.items():
        need = own[0]["need"]
        assert all(line["need"] is None and line["left_over"] is None for line in own[1:])
        assert in_order(need["low"], need["likely"], need["high"])
        size = figure(own[0]["contents"]) / contents[own[0]["sku"]]  # of one base unit, as the answer shows it
        colours = {colour_of[line["sku"]] for line in own}
        held = size * sum(
            contents[entry["sku"]] * entry["packs"]
            for entry in job["order"]["on_hand"]
            if product_of[entry["sku"]] == product and colour_of[entry["sku"]] in colours
        )
        bought = sum(line["packs"] * figure(line["contents"]) for line in own)
        assert bought + held >= figure(need["ordered"]) * (1 - SHOWN) or short, product
        over = bought + held - figure(need["likely"])
        assert abs(figure(own[0]["left_over"]) - over) <= SHOWN * (bought + held + figure(need["likely"]))
        assert all(line["packs"] <= limits.get(line["sku"], line["packs"]) for line in own)


def money_adds_up(job: Any, quantities: Answer) -> None:
    def cents(amount: Decimal) -> Decimal:
        return amount.quantize(CENT, ROUND_HALF_UP)

    order, totals = job["order"], quantities["totals"]
    amounts = [line for line in quantities["order_lines"] if line["amount"] is not None]
    for line in amounts:
        assert Decimal(line["amount"]) == cents(Decimal(line["unit_price"]) * line["packs"])
    lines, discount, delivery, net, tax, gross = (
        Decimal(totals[part]) for part in ("lines", "discount", "delivery", "net", "tax", "gross")
    )
    assert lines == sum(Decimal(line["amount"]) for line in amounts)
    assert discount == cents(lines * Decimal(str(order.get("discount_percent", 0))) / 100)
    assert delivery == Decimal(order.get("delivery", "0"))
    assert net == lines - discount + delivery
    assert tax == cents(net * Decimal(str(order.get("tax_percent", 0))) / 100)
    assert gross == net + tax


def chances_hold(job: Any, quantities: Answer) -> None:
    for shortage in quantities["shortage"]:
        curve = [point["probability"] for point in shortage["curve"]]
        counts = [point["packs"] for point in shortage["curve"]]
        assert all(0 <= chance <= 1 for chance in curve)
        assert counts == sorted(set(counts))
        assert all(more <= fewer for fewer, more in pairwise(curve)), shortage
        fewer = shortage["with_one_pack_fewer"]
        assert fewer is None or 0 <= shortage["with_order"] <= fewer <= 1, shortage
    chances = [shortage["with_order"] for shortage in quantities["shortage"]]
    together = quantities["shortage_any"]
    assert max(chances, default=0.0) - QUADRATURE <= together <= min(1.0, sum(chances)) + QUADRATURE
    if not quantities["blockers"]:
        assert together <= 1 - job["order"].get("confidence", 0.9) + QUADRATURE
    assert quantities["orderable"] is not bool(quantities["blockers"])


def verdicts_hold(readiness: Answer) -> None:
    verdicts = [ORDER.index(check["verdict"]) for check in readiness["checks"]]
    assert readiness["verdict"] == ORDER[max(verdicts, default=0)]
    for check in readiness["checks"]:
        assert (check["do"] is None) == (check["verdict"] == "go"), check
    for test in readiness["tests_needed"]:
        assert test["missing"] == max(0, test["needed"] - test["given"])


def steps_hold(times: Answer) -> None:
    spans = [moments(one["from"], one["until"]) for one in times["open_hours"]]
    before = 0.0
    for step in times["steps"]:
        if step["after"] is None:
            continue
        assert figure(step["after"]) >= before * (1 - SHOWN), step
        before = figure(step["after"])
        if step["cured_after"] is not None:
            assert figure(step["cured_after"]) >= before * (1 - SHOWN), step
    for step in times["steps"]:
        for begins, ends in worked(step):
            assert begins <= ends
            cast = step["step"] == "apply" and "broadcast" in step["layer"]  # when its body is wet, past the shift too
            if spans and step["lasts"] and figure(step["lasts"]) > 0 and not cast:
                assert any(opened <= begins < closed for opened, closed in spans), (step, spans)


def worked(step: Answer) -> Iterator[list[datetime]]:
    """The spans in which a step is worked, when it is known when."""
    for part in step["parts"] or [step]:
        if part["from"] is not None and part["until"] is not None:
            yield moments(part["from"], part["until"])


def returns_hold(job: Any, times: Answer) -> None:
    for back in times["returns"]:
        assert moments(back["earliest"], back["likely"], back["latest"]) == sorted(
            moments(back["earliest"], back["likely"], back["latest"])
        )
        if back["latest"] is not None:
            assert back["likely"] is not None
    deadline = times["deadline"]
    if deadline is None or "start" not in job["work"]:
        return
    (latest,) = (back["latest"] for back in times["returns"] if back["traffic"] == deadline["traffic"])
    if latest is None:
        assert (deadline["met"], deadline["slack"]) == (False, None)
        return
    reopen_by, latest_return = moments(deadline["reopen_by"], latest)
    slack = timedelta(hours=figure(deadline["slack"]))
    assert deadline["met"] == (latest_return <= reopen_by)
    assert abs(reopen_by - latest_return - slack) <= timedelta(seconds=1) + SHOWN * abs(slack)
    if deadline["met"] and deadline["latest_start"] is not None:
        start, last = moments(job["work"]["start"], deadline["latest_start"])
        assert start <= last.replace(tzinfo=None)


def pours_hold(plan: Answer) -> None:
    last: dict[str, int] = {}
    for pour in plan["pours"]:
        assert pour["first_mix"] <= pour["last_mix"]
        assert pour["mixes"] == pour["last_mix"] - pour["first_mix"] + 1
        assert pour["first_mix"] in (last.get(pour["layer"], 0), last.get(pour["layer"], 0) + 1), pour
        last[pour["layer"]] = pour["last_mix"]
        assert moments(pour["from"], pour["until"]) == sorted(moments(pour["from"], pour["until"]))
    if plan["feasible"] is True:
        assert all(pour["holds"] is not False for pour in plan["pours"])
        assert plan["bottleneck"] is None


@for_each_catalogue(20)
def test_an_answer_is_what_the_description_says(name: str, job: Any, chance: Any) -> None:
    units = chance.choice(["us", "si"])
    _, answer = answered(name, written(job), f"?units={units}&working=true&echo=true")
    assert [f"{error.json_path}: {error.message[:200]}" for error in CONFORMS.iter_errors(answer)] == []
    assert [f"{error.json_path}: {error.message[:200]}" for error in IS_A_JOB.iter_errors(written(job))] == []


CONFORMS = Draft202012Validator({**description(), "$ref": "#/components/schemas/QuoteAnswer"})
IS_A_JOB = Draft202012Validator({**description(), "$ref": "#/components/schemas/Job"})


@for_each_catalogue(35)
def test_a_job_is_the_same_however_it_is_written(name: str, job: Any, chance: Any) -> None:
    first, answer = answered(name, written(job))
    again, _ = answered(name, written(job))
    assert first == again
    members = list(written(job).items())
    chance.shuffle(members)
    assert answered(name, dict(members))[0] == first
    _, metric = answered(name, written(job, si=True), "?units=si")
    assert metric["fingerprint"] == answer["fingerprint"]
    assert same_order(metric, answer)


@for_each_catalogue(30)
def test_the_order_of_the_rooms_changes_no_line(name: str, job: Any, chance: Any) -> None:
    _, answer = answered(name, written(job))
    shuffled = chance.sample(job["rooms"], len(job["rooms"]))
    _, other = answered(name, written(job | {"rooms": shuffled}))
    assert other["quantities"]["order_lines"] == answer["quantities"]["order_lines"]
    assert other["quantities"]["totals"] == answer["quantities"]["totals"]
    assert other["readiness"]["verdict"] == answer["readiness"]["verdict"]


@for_each_catalogue(30)
def test_the_job_that_is_sent_back_gets_the_same_order(name: str, job: Any, chance: Any) -> None:
    units = chance.choice(["us", "si"])
    _, answer = answered(name, written(job), f"?echo=true&units={units}")
    _, again = answered(name, answer["job"], f"?echo=true&units={units}")
    assert again["fingerprint"] == answer["fingerprint"]
    assert same_order(again, answer)
    assert again["job"] == answer["job"]


def test_the_drawn_jobs_are_of_every_system_and_hold_every_field() -> None:
    seen: set[str] = set()

    @settings(max_examples=150, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
    @given(jobs(CATALOGUES["demonstration"].catalogue))
    def look(job: Any) -> None:
        seen.update(json.dumps(written(job)).split('"')[1::2])

    look()
    fields = {
        field
        for schema, form in description()["components"]["schemas"].items()
        if schema.startswith("Job") and not schema.startswith(BESIDE_THE_JOB)
        for field in form.get("properties", ())
    }
    assert fields - seen == NOT_DRAWN
    assert CATALOGUES["demonstration"].catalogue.systems.keys() <= seen
