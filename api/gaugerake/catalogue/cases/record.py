"""Making a case of a job and what it is answered now."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from gaugerake.catalogue.cases.pointers import at, children
from gaugerake.measure.choice import ChoiceName


class SeveralThere(ValueError):
    """Several values stand at a pointer, of which a case can name one; its text is such a pointer."""


def usual_pointers(answer: Any) -> Iterator[str]:
    """What a case tells of an answer where nobody says: verdict, packs, money, whether the pour holds, and returns.

    >>> list(usual_pointers({"code": "refused-job", "errors": [], "status": 422}))
    ['/status', '/code']
    """
    if "errors" in answer:
        yield from ("/status", "/code")
        return
    yield "/readiness/verdict"
    for number in range(len(answer["quantities"]["order_lines"])):
        yield from (f"/quantities/order_lines/{number}/{key}" for key in ("sku", "packs"))
    yield "/quantities/totals/gross"
    if answer["pour_plan"] is not None:
        yield "/pour_plan/feasible"
    for number, back in enumerate(answer["return_times"]["returns"]):
        key = "after/value" if back["likely"] is None and back["after"] is not None else "likely"
        yield from (f"/return_times/returns/{number}/{name}" for name in ("traffic", key))


def recorded(name: str, job: Any, answer: Any, pointers: Sequence[str], *, units: ChoiceName) -> dict[str, Any]:
    """A case as its file writes it.

    Raises
    ------
    NothingThere, SeveralThere
        Of a pointer to what is no single value of the answer.
    """
    gives = [{"at": pointer, "is": _single(answer, pointer)} for pointer in pointers or tuple(usual_pointers(answer))]
    return {"case": name, "units": units, "job": job, "gives": gives}


def _single(answer: Any, pointer: str) -> Any:
    found = at(answer, pointer)
    if isinstance(found, dict | list):
        first = next(iter(children(found)), "")
        raise SeveralThere(f"{pointer}/{first}")
    return found
