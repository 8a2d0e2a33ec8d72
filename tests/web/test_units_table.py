"""The factors of ``GET /v1/units`` in all their digits, by the definitions of the units (NIST SP 811, appendix B)."""

import pytest
from flask.testing import FlaskClient


@pytest.mark.parametrize(
    ("dimension", "unit", "factor"),
    [
        ("length", "ft", 0.3048),
        ("area", "ft2", 0.09290304),  # 0.3048², exactly
        ("volume", "gal", 0.003785411784),  # 231 in³, exactly
        ("mass", "lb", 0.45359237),
        ("temperature", "degF", 5 / 9),
    ],
)
def test_a_factor_is_shown_in_all_its_digits(client: FlaskClient, dimension: str, unit: str, factor: float) -> None:
    dimensions = client.get("/v1/units").get_json()["dimensions"]
    [units] = [one["units"] for one in dimensions if one["dimension"] == dimension]
    assert [one["factor"] for one in units if one["unit"] == unit] == [factor]


def test_the_language_of_an_opened_quote_is_described_as_it_is_chosen(client: FlaskClient) -> None:
    paths = client.get("/openapi.json").get_json()["paths"]
    for path in ("/v1/quotes/{token}", "/v1/quotes/{token}/day-sheet"):
        [about] = [one["description"] for one in paths[path]["get"]["parameters"] if one["name"] == "lang"]
        assert "the `lang` that the quote was asked for with" in about
        assert "Content-Language" in paths[path]["get"]["responses"]["200"]["headers"]
