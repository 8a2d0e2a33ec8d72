"""The language of an answer: what is asked, what a browser likes, what a token carries; it changes no figure."""

from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import client_of, document, measured

from gaugerake.answers.show.words import templates
from gaugerake.catalogue.store.demo import demo_snapshot

JOB = document(measured())
SPANISH, ENGLISH = templates("es"), templates("en")
INVENTED = "invented-data"


@pytest.fixture(scope="module")
def sealing() -> FlaskClient:
    """A service that makes tokens."""
    return client_of(demo_snapshot(), secrets=lambda: ("a secret of sixteen",))


def said(response: Any) -> str:
    """The sentence of the one caution that every answer from the demonstration has."""
    return next(note["text"] for note in response.get_json()["cautions"] if note["code"] == INVENTED)


def asked(client: FlaskClient, path: str = "/v1/quotes", likes: str | None = None, job: Any = JOB) -> Any:
    return client.post(path, json=job, headers={"Accept-Language": likes} if likes else {})


@pytest.mark.parametrize(
    ("query", "likes", "language"),
    [
        ("", None, "en"),
        ("", "es", "es"),
        ("", "ES-mx, en;q=0.9", "es"),
        ("", "es-419", "es"),
        ("", "en-US, es;q=0.9", "en"),
        ("", "fr, de;q=0.9", "en"),
        ("", "fr, es;q=0.2, en;q=0.1", "es"),
        ("", "*", "en"),
        ("", "es, en", "es"),
        ("", "en, es", "en"),
        ("", "es;q=0.5, en;q=0.5", "es"),
        ("", "en;q=0, *", "es"),
        ("", "en;q=0", "en"),
        ("", "es;q=0", "en"),
        ("", "", "en"),
        ("", ";;;q=x,,=", "en"),
        ("", "es;q=zwei", "en"),
        ("", "es," * 3000, "en"),  # longer than a header that is read
        ("?lang=es", None, "es"),
        ("?lang=es", "en", "es"),
        ("?lang=en", "es", "en"),
    ],
)
def test_an_answer_is_in_the_language_that_is_asked_for_or_liked(
    client: FlaskClient, query: str, likes: str | None, language: str
) -> None:
    response = asked(client, f"/v1/quotes{query}", likes)
    assert response.status_code == 200
    assert response.headers["Content-Language"] == language
    assert "Accept-Language" in response.vary
    assert said(response) == templates("es" if language == "es" else "en")[INVENTED]


def test_an_unknown_language_is_refused_with_the_list(client: FlaskClient, problem: Any) -> None:
    found = problem(asked(client, "/v1/quotes?lang=fr"))
    assert (found["status"], found["code"]) == (422, "bad-parameter")
    (error,) = found["errors"]
    assert (error["parameter"], error["code"], error["seen"]) == ("lang", "unknown-word", "fr")
    assert error["hint"] == "Known here: en, es."


def test_a_kind_of_spanish_is_no_word_of_the_parameter(client: FlaskClient, problem: Any) -> None:
    (error,) = problem(asked(client, "/v1/quotes?lang=es-MX"))["errors"]
    assert (error["code"], error["hint"]) == ("unknown-word", "Do you mean es? Known here: en, es.")


@pytest.mark.parametrize(
    ("path", "job", "code"),
    [
        ("/v1/quotes?lang=es", JOB | {"system": "no-such"}, "refused-job"),
        ("/v1/quotes?lang=es&units=ells", JOB, "bad-parameter"),
        ("/v1/quotes?lang=es", {"rooms": 1}, "invalid-job"),
        ("/v1/nothing?lang=es", JOB, "not-found"),
        ("/healthz?lang=es", JOB, "method-not-allowed"),
    ],
)
def test_a_problem_is_in_the_language_of_its_request(
    client: FlaskClient, problem: Any, path: str, job: Any, code: str
) -> None:
    response = asked(client, path, job=job)
    found = problem(response)
    assert (found["code"], found["title"]) == (code, SPANISH[f"title-{code}"])
    assert response.headers["Content-Language"] == "es"
    in_english = problem(asked(client, path.replace("lang=es", "lang=en"), job=job))
    assert [one["code"] for one in found["errors"]] == [one["code"] for one in in_english["errors"]]
    assert found["detail"] != in_english["detail"]


def test_a_request_that_is_refused_at_the_door_is_refused_in_its_language(client: FlaskClient, problem: Any) -> None:
    response = client.get("/v1/systems", headers={"Accept-Language": "es", "If-None-Match": "x" * 5000})
    assert problem(response)["title"] == SPANISH["title-header-too-long"]


def test_a_page_about_a_problem_is_in_its_language(client: FlaskClient) -> None:
    response = client.get("/problems/too-large", headers={"Accept-Language": "es"})
    assert response.text.startswith(SPANISH["title-too-large"])
    assert response.headers["Content-Language"] == "es"


def test_what_has_no_words_has_no_language(client: FlaskClient) -> None:
    for path in ("/healthz", "/v1/units", "/openapi.json"):
        assert "Content-Language" not in client.get(path, headers={"Accept-Language": "es"}).headers


def test_the_language_changes_no_fingerprint(sealing: FlaskClient) -> None:
    answers = [asked(sealing, f"/v1/quotes?lang={language}").get_json() for language in ("en", "es")]
    assert answers[0]["fingerprint"] == answers[1]["fingerprint"]


def test_each_language_has_its_tag(sealing: FlaskClient) -> None:
    token = asked(sealing).get_json()["token"]
    for path in (f"/v1/quotes/{token}", "/v1/systems", "/v1/systems?view=names", f"/v1/quotes/{token}/qr.svg"):
        english, spanish = (sealing.get(path, headers={"Accept-Language": one}) for one in ("en", "es"))
        assert english.status_code == spanish.status_code == 200
        assert english.headers["ETag"] != spanish.headers["ETag"], path
        again = {"Accept-Language": "es", "If-None-Match": english.headers["ETag"]}
        assert sealing.get(path, headers=again).status_code == 200
        again["If-None-Match"] = spanish.headers["ETag"]
        kept = sealing.get(path, headers=again)
        assert kept.status_code == 304
        assert "Accept-Language" in kept.vary


@pytest.mark.parametrize(
    ("posted", "opened", "likes", "language"),
    [
        ("", "", "es", "es"),  # nothing is carried: each reader has their own
        ("", "", "en", "en"),
        ("?lang=es", "", "en", "es"),
        ("?lang=es", "", None, "es"),
        ("?lang=es", "?lang=en", "es", "en"),
        ("?lang=en", "", "es", "en"),
    ],
)
def test_a_token_carries_the_language_that_was_asked_for(
    sealing: FlaskClient, posted: str, opened: str, likes: str | None, language: str
) -> None:
    made = asked(sealing, f"/v1/quotes{posted}")
    token = made.get_json()["token"]
    again = sealing.get(f"/v1/quotes/{token}{opened}", headers={"Accept-Language": likes} if likes else {})
    assert again.headers["Content-Language"] == language
    if posted == f"?lang={language}":
        assert again.data == made.data


def test_a_line_of_a_batch_is_in_its_language(client: FlaskClient) -> None:
    line = b'{"rooms": 1}\n'
    response = client.post("/v1/batches?lang=es", data=line, content_type="application/x-ndjson")
    assert response.headers["Content-Language"] == "es"
    assert SPANISH["title-invalid-job"] in response.get_data(as_text=True)


@pytest.mark.parametrize(
    ("language", "expected"),
    [
        ("en", "Found: curing-compound, black goo, Oil. It is not known what this is: black goo."),
        ("es", "Se encontró: membrana de curado, black goo, Oil. No se sabe qué es esto: black goo."),
    ],
)
def test_a_contaminant_by_its_code_is_named_in_the_readers_language(
    client: FlaskClient, language: str, expected: str
) -> None:
    job = JOB | {"slab": {"contaminants": ["curing-compound", "black goo", "Oil"]}}
    checks = asked(client, f"/v1/readiness?lang={language}", job=job).get_json()["checks"]
    assert next(one["because"] for one in checks if one["check"] == "contaminants") == expected


@pytest.mark.parametrize(("language", "expected"), [("en", "mon tue"), ("es", "lun mar")])
def test_the_days_of_a_shift_are_named_in_the_readers_language(
    client: FlaskClient, language: str, expected: str
) -> None:
    work = {
        "start": "2027-03-01T08:00",
        "zone": "America/Chicago",
        "shifts": [{"days": ["mon", "tue"], "from": "08:00", "to": "16:00"}],
        "reopen_by": "2027-03-02T08:00",
    }
    answer = asked(client, f"/v1/return-times?lang={language}&working=true", job=JOB | {"work": work}).get_json()
    inputs = [one for entry in answer["working"] for one in entry["inputs"]]
    assert {one["value"] for one in inputs if one["name"] == "shift_1_days"} == {expected}
