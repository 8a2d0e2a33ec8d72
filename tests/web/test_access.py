"""Keys, origins and rates, as the Bearer scheme (RFC 6750), the Fetch standard's CORS and RFC 6585 have them."""

import logging
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from tests.builders import document

from gaugerake.catalogue.keys.key import Access, Key, new_key
from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.web.api.resources import RESOURCES
from gaugerake.web.server.app import create_app
from gaugerake.web.server.edge import BadSetting

SHOP, OTHER = "https://shop.example", "https://other.example"
JOB = document()
Read = Callable[[Any], dict[str, Any]]
GUARDED = [
    operation
    for resource in RESOURCES
    for operation in resource.operations
    if operation.path.startswith("/v1/") and not operation.keyless
]


class Keyed:
    """A source of a service with keys, and the keys."""

    stale_since = None

    def __init__(self, snapshot: Snapshot) -> None:
        self.texts: dict[str, str] = {}
        self.keys: list[Key] = []
        north = replace(
            snapshot.list_book,
            code="north",
            prices={
                sku: replace(price, price=price.price + Decimal(1)) for sku, price in snapshot.list_book.prices.items()
            },
        )
        self.snapshot = replace(
            snapshot, books={**snapshot.books, "north": north}, book_ids={**snapshot.book_ids, "north": "f" * 64}
        )

    def make(self, holder: str, **details: Any) -> str:
        """A key of this holder."""
        text, prefix, digest = new_key()
        self.keys.append(Key(prefix=prefix, digest=digest, holder=holder, **details))
        return text

    @property
    def current(self) -> Snapshot:
        """With the keys that there are now."""
        return replace(self.snapshot, access=Access.of(self.keys))

    def revision(self, revision: str) -> Snapshot:
        """The only one."""
        return self.snapshot

    def book(self, book_id: str) -> Any:
        """The only one."""
        return self.snapshot.books["north"]


@pytest.fixture
def source() -> Keyed:
    return Keyed(demo_snapshot())


@pytest.fixture
def keyed(source: Keyed) -> FlaskClient:
    return create_app(source, secrets=lambda: ["a secret that is long enough to sign with 0123456789"]).test_client()


def bearer(key: str, **headers: str) -> dict[str, str]:
    return {"Authorization": f"Bearer {key}", **headers}


@pytest.mark.parametrize("operation", GUARDED, ids=lambda operation: operation.id)
def test_every_operation_under_v1_needs_a_key(keyed: FlaskClient, problem: Read, operation: Any) -> None:
    for method in {operation.method, "QUERY" if operation.method == "POST" else operation.method}:
        response = keyed.open(operation.path.replace("{code}", "level-clear"), method=method, json=JOB)
        assert (response.status_code, problem(response)["code"]) == (401, "key-needed")
        assert response.headers["WWW-Authenticate"] == 'Bearer realm="gaugerake"'


@pytest.mark.parametrize("path", ["/", "/healthz", "/readyz", "/openapi.json", "/docs", "/problems/key-needed"])
def test_what_is_not_under_v1_needs_none(keyed: FlaskClient, path: str) -> None:
    assert keyed.get(path).status_code == 200


def test_an_address_that_is_not_there_needs_one_too(keyed: FlaskClient) -> None:
    assert keyed.get("/v1/nothing").status_code == 401


@pytest.mark.parametrize("given", ["Bearer", "Bearer ", "Basic dXNlcjpwYXNz", "gr_aaaaaaaa_" + "a" * 32, "Bearer\ta"])
def test_what_is_no_bearer_key_is_as_none(keyed: FlaskClient, given: str) -> None:
    response = keyed.get("/v1/units", headers={"Authorization": given})
    assert response.status_code == 401
    assert response.headers["WWW-Authenticate"].startswith('Bearer realm="gaugerake"')


def test_a_wrong_key_and_a_revoked_one_are_told_alike(source: Keyed, keyed: FlaskClient, problem: Read) -> None:
    key = source.make("Shop")
    assert keyed.get("/v1/units", headers=bearer(key)).status_code == 200
    source.keys.clear()
    revoked, wrong = (keyed.get("/v1/units", headers=bearer(text)) for text in (key, "gr_aaaaaaaa_" + "a" * 32))
    for response in (revoked, wrong):
        assert (response.status_code, problem(response)["code"]) == (401, "key-unknown")
        assert response.headers["WWW-Authenticate"] == 'Bearer realm="gaugerake", error="invalid_token"'
    assert problem(revoked)["detail"] == problem(wrong)["detail"]


def test_the_scheme_is_read_in_any_case(source: Keyed, keyed: FlaskClient) -> None:
    assert keyed.get("/v1/units", headers={"Authorization": f"bEARER {source.make('Shop')}"}).status_code == 200


def test_a_key_has_the_prices_of_its_book(source: Keyed, keyed: FlaskClient) -> None:
    listed, north = source.make("Shop"), source.make("North", book="north")
    prices = [
        [line["unit_price"] for line in body["quantities"]["order_lines"]]
        for key in (listed, north)
        for body in [keyed.post("/v1/quotes", json=JOB, headers=bearer(key)).get_json()]
    ]
    assert all(Decimal(high) - Decimal(low) == 1 for low, high in zip(*prices, strict=True))
    shown = [keyed.get("/v1/systems/level-clear", headers=bearer(key)) for key in (listed, north)]
    assert shown[0].get_json() != shown[1].get_json()
    assert shown[0].headers["ETag"] != shown[1].headers["ETag"]
    assert all(response.cache_control.private and "Authorization" in response.vary for response in shown)


def test_a_key_can_name_its_own_book_and_no_other(source: Keyed, keyed: FlaskClient, problem: Read) -> None:
    own, listed = source.make("North", book="north"), source.make("Shop")
    for key, book, status in ((own, "north", 200), (own, "list", 403), (own, "no such", 403), (listed, "list", 200)):
        job = {**JOB, "order": {"price_book": book}}
        assert keyed.post("/v1/quotes", json=job, headers=bearer(key)).status_code == status
    response = keyed.post("/v1/quotes", json={**JOB, "order": {"price_book": "north"}}, headers=bearer(listed))
    assert (response.status_code, problem(response)["code"]) == (403, "other-price-book")
    assert problem(response)["errors"][0]["pointer"] == "/order/price_book"


def test_the_page_of_a_quote_needs_its_token_alone(source: Keyed, keyed: FlaskClient) -> None:
    made = keyed.post("/v1/quotes", json=JOB, headers=bearer(source.make("North", book="north")))
    token = made.get_json()["token"]
    again = keyed.get(f"/v1/quotes/{token}")
    assert (again.status_code, again.data) == (200, made.data)
    assert keyed.get(f"/v1/quotes/{token}/qr.svg").status_code == 200
    assert keyed.get(f"/v1/quotes/{token[:-3]}abc").status_code == 404


def test_an_open_service_looks_at_no_key(client: FlaskClient) -> None:
    response = client.get("/v1/units", headers=bearer("nonsense"))
    assert response.status_code == 200
    assert "RateLimit" not in response.headers


# pages of other origins


def preflight(client: FlaskClient, origin: str) -> Any:
    asked = {"Access-Control-Request-Method": "POST", "Access-Control-Request-Headers": "authorization,content-type"}
    return client.options("/v1/quotes", headers={"Origin": origin, **asked})


def test_a_preflight_passes_any_keys_origin_and_no_other(source: Keyed, keyed: FlaskClient) -> None:
    source.make("Shop", origins=(SHOP,))
    source.make("Other", origins=(OTHER,))
    for origin in (SHOP, OTHER):
        response = preflight(keyed, origin)
        assert (response.status_code, response.data) == (204, b"")
        assert response.headers["Access-Control-Allow-Origin"] == origin
        assert {"POST", "QUERY"} <= set(response.headers["Access-Control-Allow-Methods"].split(", "))
        allowed = response.headers["Access-Control-Allow-Headers"].lower().split(", ")
        assert {"authorization", "content-type", "if-none-match"} <= set(allowed)
        assert "Origin" in response.vary
    foreign = preflight(keyed, "https://foreign.example")
    assert not [name for name, _ in foreign.headers if name.startswith("Access-Control-")]
    assert "Origin" in foreign.vary


def test_a_key_is_for_pages_of_its_own_origins(source: Keyed, keyed: FlaskClient, problem: Read) -> None:
    key = source.make("Shop", origins=(SHOP,))
    source.make("Other", origins=(OTHER,))
    good = keyed.post("/v1/quotes", json=JOB, headers=bearer(key, Origin=SHOP))
    assert good.status_code == 200
    assert good.headers["Access-Control-Allow-Origin"] == SHOP
    shown = {"ETag", "RateLimit", "RateLimit-Policy", "Retry-After", "X-Request-Id"}
    assert shown <= set(good.headers["Access-Control-Expose-Headers"].split(", "))
    assert "Access-Control-Allow-Credentials" not in good.headers
    bad = keyed.post("/v1/quotes", json=JOB, headers=bearer(key, Origin=OTHER))
    assert (bad.status_code, problem(bad)["code"]) == (403, "origin-not-allowed")
    assert "Access-Control-Allow-Origin" not in bad.headers


@pytest.mark.parametrize(
    "origin",
    [
        "null",
        "https://shop.example.evil.example",
        "http://shop.example",
        "https://SHOP",
        "http://",
        "http://[",
        "://",
        "localhost",
        "é",
    ],
)
def test_an_origin_that_is_only_like_one_is_none(source: Keyed, keyed: FlaskClient, origin: str) -> None:
    response = keyed.get("/v1/units", headers=bearer(source.make("Shop", origins=(SHOP,)), Origin=origin))
    assert response.status_code == 403
    assert "Access-Control-Allow-Origin" not in response.headers


def test_a_page_may_read_why_it_was_refused(source: Keyed, keyed: FlaskClient) -> None:
    source.make("Shop", origins=(SHOP,))
    response = keyed.get("/v1/units", headers={"Origin": SHOP})
    assert response.status_code == 401
    assert response.headers["Access-Control-Allow-Origin"] == SHOP


def test_the_services_own_page_is_of_no_other_origin(source: Keyed, keyed: FlaskClient) -> None:
    key = source.make("Counter")
    assert keyed.post("/v1/quotes", json=JOB, headers=bearer(key, Origin="http://localhost")).status_code == 200
    behind = create_app(source, address="https://floors.example/quotes").test_client()
    assert behind.post("/v1/quotes", json=JOB, headers=bearer(key, Origin="https://floors.example")).status_code == 200


@pytest.mark.parametrize(
    ("given", "origin", "answered"),
    [("", SHOP, None), (SHOP, SHOP, SHOP), (f"{OTHER}, {SHOP}", SHOP, SHOP), (SHOP, OTHER, None), ("*", OTHER, "*")],
)
def test_an_open_service_shares_with_the_origins_that_it_is_given(
    app: Flask, monkeypatch: pytest.MonkeyPatch, given: str, origin: str, answered: str | None
) -> None:
    monkeypatch.setenv("GAUGERAKE_ORIGINS", given)
    opened = create_app(app.extensions["gaugerake.snapshots"]).test_client()
    for response in (opened.get("/v1/units", headers={"Origin": origin}), preflight(opened, origin)):
        assert response.status_code in (200, 204)
        assert response.headers.get("Access-Control-Allow-Origin") == answered


# rates


def test_a_key_is_held_to_its_rate_on_all_addresses_together(source: Keyed, keyed: FlaskClient, problem: Read) -> None:
    key, other = source.make("Shop", rate="3/hour"), source.make("Other", rate="3/hour")
    left = []
    for path in ("/v1/units", "/v1/systems", "/v1/systems/level-clear"):
        response = keyed.get(path, headers=bearer(key))
        assert response.status_code == 200
        assert response.headers["RateLimit-Policy"] == '"key";q=3;w=3600'
        left.append(response.headers["RateLimit"].split(";")[1])
    assert left == ["r=2", "r=1", "r=0"]
    refused = keyed.post("/v1/quotes", json=JOB, headers=bearer(key))
    assert (refused.status_code, problem(refused)["code"]) == (429, "too-many-requests")
    assert 1 <= int(refused.headers["Retry-After"]) <= 3600
    assert refused.headers["RateLimit"].endswith(f"t={refused.headers['Retry-After']}")
    assert keyed.get("/v1/units", headers=bearer(other)).status_code == 200
    assert keyed.get("/healthz").status_code == 200


def test_an_address_is_held_to_the_rate_of_the_environment(
    app: Flask, monkeypatch: pytest.MonkeyPatch, problem: Read
) -> None:
    monkeypatch.setenv("GAUGERAKE_RATE", "4/hour")
    opened = create_app(app.extensions["gaugerake.snapshots"]).test_client()
    statuses = [opened.get("/v1/units").status_code for _ in range(5)]
    assert statuses == [200, 200, 200, 200, 429]
    assert opened.get("/v1/units", environ_base={"REMOTE_ADDR": "192.0.2.7"}).status_code == 200
    assert opened.get("/docs").status_code == 200


def test_who_guesses_keys_is_held_to_the_rate_of_an_address(source: Keyed, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GAUGERAKE_RATE", "2/hour")
    keyed = create_app(source).test_client()
    assert [keyed.get("/v1/units", headers=bearer(f"guess{n}")).status_code for n in range(3)] == [401, 401, 429]
    shop = source.make("Shop")
    assert keyed.get("/v1/units", headers=bearer(shop)).status_code == 200


@pytest.mark.parametrize("address", ["memcached://127.0.0.1", "nonsense", "redis", "mongodb://127.0.0.1"])
def test_counts_are_kept_in_a_redis_or_nowhere(monkeypatch: pytest.MonkeyPatch, app: Flask, address: str) -> None:
    monkeypatch.setenv("GAUGERAKE_LIMITS", address)
    with pytest.raises(BadSetting, match="GAUGERAKE_LIMITS is the address of a Redis: redis://host:6379/0"):
        create_app(app.extensions["gaugerake.snapshots"])


def test_without_the_store_of_counts_everybody_is_answered(
    app: Flask, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    monkeypatch.setenv("GAUGERAKE_RATE", "2/hour")
    opened = create_app(app.extensions["gaugerake.snapshots"])
    limiter = next(iter(opened.extensions["limiter"]))
    monkeypatch.setattr(type(limiter.storage), "incr", lambda *_a, **_k: (_ for _ in ()).throw(OSError("away")))
    assert opened.test_client().get("/v1/units").status_code == 200


def test_a_store_of_counts_that_goes_after_it_has_counted_fails_nobody(
    app: Flask, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("GAUGERAKE_RATE", "1/hour")
    opened = create_app(app.extensions["gaugerake.snapshots"])
    limiter = next(iter(opened.extensions["limiter"]))
    monkeypatch.setattr(
        type(limiter.storage), "get_expiry", lambda *_a, **_k: (_ for _ in ()).throw(TimeoutError("silent"))
    )
    answered, refused = (opened.test_client().get("/v1/units") for _ in range(2))
    assert (answered.status_code, answered.headers.get("RateLimit")) == (200, None)
    assert (refused.status_code, refused.headers["Retry-After"]) == (429, "3600")


def test_no_key_stands_in_any_log(source: Keyed, keyed: FlaskClient, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.DEBUG)
    key = source.make("Shop", rate="2/hour")
    for path in ("/v1/units", "/v1/nothing", "/v1/units"):
        keyed.get(path, headers=bearer(key, Origin=OTHER))
    keyed.get("/v1/units", headers=bearer(key[:-1]))
    assert len(caplog.records) >= 4
    for record in caplog.records:
        assert key.split("_")[2][:-1] not in str(vars(record))
