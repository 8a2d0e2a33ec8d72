"""A sample shop: how the server of an ordering site talks to gaugerake. It needs Python alone.

A quote follows from the job, the catalogue and the prices alone, so every request may be sent again without harm. What
goes wrong falls into three kinds: try again soon (429, 503, a connection that broke, a proxy that lost the service),
ask the customer to mend a field (422), or call whoever runs the shop (anything else).
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from email.message import Message
from email.utils import parsedate_to_datetime
from http.client import HTTPException
from typing import Any
from urllib.error import HTTPError
from urllib.request import Request, urlopen

MOST_TRIES = 5
PATIENCE_SECONDS = 30.0
TIMEOUT_SECONDS = 30.0  # to connect, and between two pieces of the answer
SOON = {429, 502, 503, 504}
BROKE = (OSError, HTTPException)

Say = Callable[[str], None]


@dataclass
class Reply:
    """What came back, whole."""

    status: int
    reason: str
    headers: Message
    content: bytes

    def json(self) -> Any:
        """The value that it holds."""
        return json.loads(self.content)


def send(method: str, address: str, headers: Mapping[str, str], body: bytes | None) -> Reply:
    """One request and its reply, whatever its status.

    Raises
    ------
    OSError, HTTPException
        When no whole reply came back.
    """
    request = Request(address, data=body, headers=dict(headers), method=method)
    try:
        with urlopen(request, timeout=TIMEOUT_SECONDS) as answer:
            return Reply(answer.status, answer.reason, answer.headers, answer.read())
    except HTTPError as error:
        with error:
            return Reply(error.code, error.reason, error.headers, error.read())


class ToMend(Exception):
    """Fields of the customer's form that are to be mended: by JSON Pointer, what is wrong and what to write."""

    def __init__(self, errors: list[dict[str, Any]]) -> None:
        self.by_field = {error["pointer"]: error["hint"] or error["detail"] for error in errors}
        super().__init__(str(self.by_field))


class TryLater(Exception):
    """The service is busy or away for longer than a customer waits."""


class Misled(Exception):
    """Something that only the shop's keeper can mend, such as a revoked key; the request id finds it in the logs."""


@dataclass
class Cart:
    """What one customer is about to order."""

    reference: str
    job: dict[str, Any]
    shown: Decimal | None = None
    token: str | None = None


@dataclass
class Shop:
    """The shop's end of the wire."""

    address: str
    key: str | None = None
    say: Say = print
    wait: Callable[[float], None] = time.sleep
    wire: Callable[[str, str, Mapping[str, str], bytes | None], Reply] = send
    _systems: list[dict[str, Any]] = field(default_factory=list)
    _tag: str | None = None

    def systems(self) -> list[dict[str, Any]]:
        """What can be sold; asked for anew each time, and sent only when it is not what is here already."""
        headers = {"If-None-Match": self._tag} if self._tag else {}
        answer = self._ask("GET", "/v1/systems", headers=headers)
        if answer.status == 304:
            self.say("systems: nothing new")
        else:
            self._systems, self._tag = answer.json()["systems"], answer.headers["ETag"]
            self.say(f"systems: {', '.join(system['code'] for system in self._systems)}")
        return self._systems

    def quote(self, cart: Cart, *, offers: list[dict[str, Any]] | None = None) -> dict[str, Any]:
        """The whole quote for a cart, at the customer's own prices where there are any."""
        order = {**cart.job.get("order", {}), "reference": cart.reference, "offers": offers or []}
        quote: dict[str, Any] = self._ask("POST", "/v1/quotes", job={**cart.job, "order": order}).json()
        totals, first = quote["quantities"]["totals"], _to_settle(quote)
        total, currency = Decimal(totals["gross"]), totals["currency"]
        if cart.shown is not None and total != cart.shown:
            was, now = _money(cart.shown, currency), _money(total, currency)
            self.say(f"{cart.reference}: the price has changed from {was} to {now}: ask before it is ordered")
        cart.shown, cart.token = total, quote["token"]
        held = f"; not to be ordered: {' '.join(first)}" if first else ""
        self.say(f"{cart.reference}: {_money(total, currency)}{held}")
        return quote

    def reopen(self, token: str, form: str = "application/json") -> bytes:
        """A quote as it was made, however long ago and whatever the prices are now."""
        again = self._ask("GET", f"/v1/quotes/{token}", headers={"Accept": form}).content
        self.say(f"an earlier quote, opened again as {form}")
        return again

    def _ask(self, method: str, path: str, *, headers: Mapping[str, str] | None = None, job: Any = None) -> Reply:
        sent = {"Accept": "application/json", **(headers or {})}
        if self.key:
            sent["Authorization"] = f"Bearer {self.key}"
        if job is not None:
            sent["Content-Type"] = "application/json"
        body = None if job is None else json.dumps(job).encode()
        tried = 0
        while True:
            tried += 1
            try:
                answer = self.wire(method, self.address + path, sent, body)
            except BROKE:
                self._pause("no answer", float(tried), last=tried == MOST_TRIES)
                continue
            if answer.status not in SOON:
                return self._judged(answer)
            seconds = _seconds(answer.headers.get("Retry-After", ""), otherwise=float(tried))
            self._pause(str(answer.status), seconds, last=tried == MOST_TRIES)

    def _pause(self, why: str, seconds: float, *, last: bool) -> None:
        if last or seconds > PATIENCE_SECONDS:
            raise TryLater(f"{why}: again in {seconds:.0f} s")
        self.say(f"{why}: again in {seconds:.0f} s")
        self.wait(seconds)

    def _judged(self, answer: Reply) -> Reply:
        if answer.status < 400:
            return answer
        if "problem+json" not in answer.headers.get("Content-Type", ""):
            raise Misled(f"{answer.status} {answer.reason}: not from the service, but from something before it")
        problem = answer.json()
        if answer.status == 422 and all(error["pointer"] is not None for error in problem["errors"]):
            raise ToMend(problem["errors"])
        raise Misled(f"{problem['status']} {problem['code']}: {problem['detail']} ({problem['request_id']})")


def _money(amount: Decimal, currency: str) -> str:
    """An amount as people write it: with the sign of dollars, or the code of another currency before it."""
    return f"${amount:,}" if currency == "USD" else f"{currency} {amount:,}"


def _to_settle(quote: dict[str, Any]) -> list[str]:
    """What comes first: a shop that ignores it sells a floor that fails, or packs that its sum leaves out."""
    order = quote["quantities"]
    blockers = [blocker["text"] for blocker in order["blockers"]]
    return [*blockers, *(f"Ask for the price of {sku}." for sku in order["totals"]["unpriced"])]


def _seconds(told: str, *, otherwise: float) -> float:
    """What ``Retry-After`` asks for: the service tells seconds, a proxy before it may tell an instant."""
    if told.isdecimal():
        return float(told)
    try:
        return max(0.0, parsedate_to_datetime(told).timestamp() - time.time())
    except ValueError:
        return otherwise
