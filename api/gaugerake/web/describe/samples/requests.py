"""The requests that are shown: one that is answered, and the same with a fault in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from gaugerake.floor.values.frozen import dataclass
from gaugerake.web.api.examples import BY_AREA, COUNTER, LEAST

UNKNOWN_TOKEN = "not-a-token"


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """What is asked; a ``{token}`` in the path is that of the quote of ``quoted``. ``lines`` are a batch's."""

    path: str
    query: Mapping[str, str] = field(default_factory=dict)
    body: object = None
    lines: tuple[object, ...] = ()
    quoted: object = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """A request, the same with a fault, and what the programs print of the answer (``""``: how much there is of it).

    ``typed`` is the component that the answer is, where the description names several.
    """

    good: Request
    bad: Request
    prints: str
    typed: str = ""


def _spoiled(document: Mapping[str, object], **changed: object) -> dict[str, object]:
    return {**document, **changed}


def _post(path: str, body: object, bad: object, prints: str) -> Sample:
    return Sample(good=Request(path=path, body=body), bad=Request(path=path, body=bad), prints=prints)


_UNITLESS = _spoiled(LEAST, rooms=[{"name": "Floor", "shape": {"measured": {"area": "1200"}}}])
_UNTOLD_UNIT = _spoiled(LEAST, slab={"moisture_emission": ["6.1 lb"]})
_TOO_THICK = _spoiled(LEAST, thickness="2 in")
_NO_MONTH = _spoiled(LEAST, work={"start": "2027-13-05T06:00"})
_NO_SYSTEM = _spoiled(LEAST, system="levle-clear")
_NOTHING_POURED = _spoiled(BY_AREA, progress={"mixes": 0, "placed": {"area": "330 sq ft"}})
_CHOICES = [
    {"name": "Levelled", "change": {"system": "level-clear"}},
    {"name": "Trowelled", "change": {"system": "trowelled-mortar"}},
]
_COMPARED: dict[str, object] = {"job": {"rooms": LEAST["rooms"]}, "choices": _CHOICES}
_HOURS: dict[str, object] = {
    "job": _spoiled(LEAST, work={"zone": "America/Chicago", "crew": {"mixing_stations": 2}}),
    "search": {"from": "2027-03-08T06:00", "until": "2027-03-08T10:00", "step": "1 h"},
}
_NO_HOURS = _spoiled(_HOURS, search={"from": "2027-03-08T06:00", "until": "2027-03-07T06:00"})
_DATED = _spoiled(LEAST, work=COUNTER["work"])


def _by_token(path: str, quoted: object, prints: str) -> Sample:
    bad = Request(path=path.replace("{token}", UNKNOWN_TOKEN))
    return Sample(good=Request(path=path, quoted=quoted), bad=bad, prints=prints)


def _plain(path: str, prints: str) -> Sample:
    return Sample(good=Request(path=path), bad=Request(path=path, query={"verbose": "1"}), prints=prints)


SAMPLES: Mapping[str, Sample] = {
    "listSystems": Sample(
        good=Request(path="/v1/systems", query={"view": "names"}),
        bad=Request(path="/v1/systems", query={"view": "codes"}),
        prints="names[0]?.code",
        typed="SystemNames",
    ),
    "showSystem": Sample(
        good=Request(path="/v1/systems/level-clear", query={"units": "si"}),
        bad=Request(path="/v1/systems/levle-clear"),
        prints="system.name",
    ),
    "listUnits": _plain("/v1/units", "dimensions[0]?.base_unit"),
    "judgeSlab": _post("/v1/readiness", LEAST, _UNTOLD_UNIT, "verdict"),
    "countPacks": _post("/v1/quantities", LEAST, _UNITLESS, "totals.gross"),
    "planPour": _post("/v1/pour-plan", LEAST, _TOO_THICK, "cadence?.value"),
    "followPour": _post("/v1/pour-progress", BY_AREA, _NOTHING_POURED, "over"),
    "timeReturns": _post("/v1/return-times", LEAST, _NO_MONTH, "labour.people_needed"),
    "makeQuote": _post("/v1/quotes", LEAST, _NO_SYSTEM, "quantities?.totals.gross"),
    "openQuote": _by_token("/v1/quotes/{token}", LEAST, "quantities?.totals.gross"),
    "drawQuoteCode": _by_token("/v1/quotes/{token}/qr.svg", LEAST, ""),
    "makeDaySheets": _post("/v1/day-sheets", _DATED, LEAST, "days[0]?.people"),
    "openDaySheets": _by_token("/v1/quotes/{token}/day-sheet", _DATED, "days[0]?.people"),
    "compareChoices": _post("/v1/comparisons", _COMPARED, _spoiled(_COMPARED, choices=_CHOICES[:1]), "best.cheapest"),
    "searchStart": _post("/v1/start-search", _HOURS, _NO_HOURS, "best[0]"),
    "makeQuotes": Sample(
        good=Request(path="/v1/batches", query={"parts": "order"}, lines=(LEAST, _NO_SYSTEM)),
        bad=Request(path="/v1/batches", query={"parts": "everything"}, lines=(LEAST,)),
        prints="",
    ),
    "isAlive": _plain("/healthz", "alive"),
    "isReady": _plain("/readyz", "ready"),
}
"""By operation."""
