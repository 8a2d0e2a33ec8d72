"""A sample shop: how the server of an ordering site talks to gaugerake. It needs ``requests`` alone.

A quote follows from the job, the catalogue and the prices alone, so every request may be sent again without harm. What
goes wrong falls into three kinds: try again soon (429, 503, a connection that broke, a proxy that lost the service),
ask the customer to mend a field (422), or call whoever runs the shop (anything else).
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from email.utils import parsedate_to_datetime
from typing import Any

import requests

MOST_TRIES = 5
PATIENCE_SECONDS = 30.0
TIMEOUT = (3.05, 30)  # to connect, and between two pieces of the answer
SOON = {429, 502, 503, 504}
BROKE = (requests.ConnectionError, requests.Timeout, requests.exceptions.ChunkedEncodingError)

Say = Callable[[str], None]


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
    """The shop's end of the wire. One for each thread: a session is not shared."""

    address: str
    key: str | None = None
    say: Say = print
    wait: Callable[[float], None] = time.sleep
    wire: requests.Session = field(default_factory=requests.Session)
    _systems: list[dict[str, Any]] = field(default_factory=list)
    _tag: str | None = None

    def systems(self) -> list[dict[str, Any]]:
        """What can be sold; asked for anew each time, and sent only when it is not what is here already."""
        headers = {"If-None-Match": self._tag} if self._tag else {}
        answer = self._ask("GET", "/v1/systems", headers=headers)
        if answer.status_code == 304:
            self.say("systems: nothing new")
        else:
            self._systems, self._tag = answer.json()["systems"], answer.headers["ETag"]
            self.say(f"systems: {', '.join(system['code'] for system in self._systems)}")
        return self._systems

    def quote(self, cart: Cart, *, offers: list[dict[str, Any]] | None = None) -> dict[str, Any]:
        """The whole quote for a cart, at the customer's own prices where there are any."""
        order = {**cart.job.get("order", {}), "reference": cart.reference, "offers": offers or []}
        quote: dict[str, Any] = self._ask("POST", "/v1/quotes", json={**cart.job, "order": order}).json()
        total = Decimal(quote["quantities"]["totals"]["gross"])
        if cart.shown is not None and total != cart.shown:
            self.say(f"{cart.reference}: the price has changed from {cart.shown} to {total}: ask before it is ordered")
        cart.shown, cart.token = total, quote["token"]
        self.say(f"{cart.reference}: {total} {quote['quantities']['totals']['currency']}{self._may_be_ordered(quote)}")
        return quote

    def _may_be_ordered(self, quote: dict[str, Any]) -> str:
        """The service says when something must be settled first; a shop that ignores it sells a floor that fails."""
        if quote["quantities"]["orderable"]:
            return ""
        return "; not to be ordered: " + " ".join(blocker["text"] for blocker in quote["quantities"]["blockers"])

    def reopen(self, token: str, form: str = "application/json") -> bytes:
        """A quote as it was made, however long ago and whatever the prices are now."""
        return self._ask("GET", f"/v1/quotes/{token}", headers={"Accept": form}).content

    def _ask(self, method: str, path: str, **sent: Any) -> requests.Response:
        headers = {"Accept": "application/json", **sent.pop("headers", {})}
        if self.key:
            headers["Authorization"] = f"Bearer {self.key}"
        tried = 0
        while True:
            tried += 1
            try:
                answer = self.wire.request(method, self.address + path, headers=headers, timeout=TIMEOUT, **sent)
            except BROKE:
                self._pause("no answer", float(tried), last=tried == MOST_TRIES)
                continue
            if answer.status_code not in SOON:
                return self._judged(answer)
            seconds = _seconds(answer.headers.get("Retry-After", ""), otherwise=float(tried))
            self._pause(str(answer.status_code), seconds, last=tried == MOST_TRIES)

    def _pause(self, why: str, seconds: float, *, last: bool) -> None:
        if last or seconds > PATIENCE_SECONDS:
            raise TryLater(f"{why}: again in {seconds:.0f} s")
        self.say(f"{why}: again in {seconds:.0f} s")
        self.wait(seconds)

    def _judged(self, answer: requests.Response) -> requests.Response:
        if answer.ok:
            return answer
        if "problem+json" not in answer.headers.get("Content-Type", ""):
            raise Misled(f"{answer.status_code} {answer.reason}: not from the service, but from something before it")
        problem = answer.json()
        if answer.status_code == 422 and all(error["pointer"] is not None for error in problem["errors"]):
            raise ToMend(problem["errors"])
        raise Misled(f"{problem['status']} {problem['code']}: {problem['detail']} ({problem['request_id']})")


def _seconds(told: str, *, otherwise: float) -> float:
    """What ``Retry-After`` asks for: the service tells seconds, a proxy before it may tell an instant."""
    if told.isdecimal():
        return float(told)
    try:
        return max(0.0, parsedate_to_datetime(told).timestamp() - time.time())
    except ValueError:
        return otherwise
