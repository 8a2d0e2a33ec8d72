"""One quote in its forms: each says the same, and says what must not be missed."""

import csv
import io
import re
from base64 import b64encode
from html.parser import HTMLParser
from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import given
from hypothesis import strategies as st

from gaugerake.answers.show.words import templates
from gaugerake.exchange.lines import COLUMNS, harmless

from .conftest import Quote, Show, unpriced

INVENTED = "The catalogue is invented"
STOPPED = "order nothing before the product's maker has answered"
FORMS = ["application/json", "text/html", "text/csv", "application/xml"]


def rows(body: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(body.decode(), newline=""), strict=True))


def all_on_hand(quote: dict[str, Any]) -> list[dict[str, Any]]:
    return [{"sku": line["sku"], "packs": 10_000} for line in quote["quantities"]["order_lines"]]


# JSON


@pytest.mark.parametrize("units", ["us", "si"])
def test_json_is_the_first_answer_again_byte_for_byte(client: FlaskClient, job: dict[str, Any], units: str) -> None:
    first = client.post("/v1/quotes", json=job, query_string={"units": units})
    again = client.get(f"/v1/quotes/{first.get_json()['token']}")
    assert again.data == first.data
    assert again.content_type == "application/json"


def test_what_was_shown_besides_is_not_part_of_the_quote(
    client: FlaskClient, quote: Quote, job: dict[str, Any]
) -> None:
    shown = quote(job, echo="true", working="true")
    plain = quote(job)
    assert shown["token"] == plain["token"]
    assert client.get(f"/v1/quotes/{shown['token']}").get_json() == plain


# CSV


def test_csv_has_a_row_for_each_line_of_the_order(quote: Quote, show: Show, job: dict[str, Any]) -> None:
    first = quote(job)
    response = show(first["token"], "text/csv")
    lines = first["quantities"]["order_lines"]
    assert response.content_type == "text/csv; charset=utf-8; header=present"
    assert [
        (row["line"], row["sku"], row["description"], row["packs"], row["unit_code"]) for row in rows(response.data)
    ] == [(line["id"], line["sku"], line["description"], str(line["packs"]), line["unit_code"]) for line in lines]
    assert [(row["unit_price"], row["amount"], row["currency"]) for row in rows(response.data)] == [
        (line["unit_price"], line["amount"], "USD") for line in lines
    ]
    assert [(float(row["contents"]), row["contents_unit"]) for row in rows(response.data)] == [
        (line["contents"]["value"], line["contents"]["unit"]) for line in lines
    ]


def test_csv_is_that_of_rfc_4180(quote: Quote, show: Show, job: dict[str, Any]) -> None:
    job["order"]["reference"] = 'Bay 2, "north" wall'
    body = show(quote(job)["token"], "text/csv").data
    assert body.endswith(b"\r\n")
    assert body.count(b"\n") == body.count(b"\r\n")
    assert b'"Bay 2, ""north"" wall"' in body
    assert {row["reference"] for row in rows(body)} == {'Bay 2, "north" wall'}


@pytest.mark.parametrize("text", ["=1+2", "+1", "-1", "@SUM(A1)", " =cmd", "＝1", '"=1'])
def test_csv_has_no_cell_that_a_spreadsheet_runs(text: str) -> None:
    assert harmless(text) == f"'{text}"


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("PO;=1+2;", "PO;'=1+2;"),
        ("PO; =1;-2", "PO;' =1;'-2"),
        ('PO;"=1+2"', 'PO;\'"=1+2"'),
        ("PO\t@SUM(A1)", "PO\t'@SUM(A1)"),
        ("A; B; 2-3", "A; B; 2-3"),
    ],
)
def test_no_part_of_a_cell_is_run_where_other_marks_part_cells(text: str, written: str) -> None:
    assert harmless(text) == written


@given(st.text(st.sampled_from('=+-@;,"\t a1'), max_size=12), st.sampled_from(";\t,"))
def test_whatever_parts_the_cells_of_a_row_none_of_them_is_run(text: str, parting: str) -> None:
    target = io.StringIO(newline="")
    csv.writer(target).writerow(["Q-1", harmless(text), harmless(text), "notes"])
    cells = next(csv.reader([target.getvalue()], delimiter=parting))
    assert not [cell for cell in cells if cell.lstrip(' "').startswith(("=", "+", "-", "@"))]


def test_a_reference_that_is_a_formula_is_made_harmless(quote: Quote, show: Show, job: dict[str, Any]) -> None:
    job["order"]["reference"] = '=HYPERLINK("x")'
    found = rows(show(quote(job)["token"], "text/csv").data)
    assert {row["reference"] for row in found} == {'\'=HYPERLINK("x")'}
    assert not any(cell[:1] in "=+-@" for row in found for cell in row.values() if cell)


def test_an_order_of_nothing_has_one_row_that_says_so(quote: Quote, show: Show, job: dict[str, Any]) -> None:
    job["order"]["on_hand"] = all_on_hand(quote(job))
    found = rows(show(quote(job)["token"], "text/csv").data)
    assert len(found) == 1
    assert list(found[0]) == list(COLUMNS)
    assert (found[0]["line"], found[0]["sku"]) == ("", "")
    assert INVENTED in found[0]["notes"]


# print


class Seen(HTMLParser):
    """The words of a page and what it would fetch."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.text = ""
        self.fetched: list[str] = []
        self.tags: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attributes: Any) -> None:
        self.tags.append(tag)
        self.fetched += [value for name, value in attributes if name in ("src", "href", "srcset", "action", "style")]

    def handle_data(self, data: str) -> None:
        self.text += data


def test_the_page_shows_the_order_and_its_sum(quote: Quote, show: Show, job: dict[str, Any]) -> None:
    first = quote(job)
    response = show(first["token"], "text/html")
    text = Seen(response.text).text
    assert response.content_type == "text/html; charset=utf-8"
    for line in first["quantities"]["order_lines"]:
        assert line["sku"] in text
        assert line["amount"] in text
    assert first["quantities"]["totals"]["gross"] in text
    assert first["fingerprint"][:4] in text
    assert first["readiness"]["summary"] in text
    for one in first["return_times"]["returns"]:
        assert one["latest"][:10] in text


@pytest.mark.parametrize("language", ["en", "es"])
def test_traffic_is_named_in_words(quote: Quote, show: Show, job: dict[str, Any], language: str) -> None:
    first = quote(job, lang=language)  # which the token carries
    words = templates(language)  # type: ignore[arg-type]
    page = show(first["token"], "text/html").text
    for one in first["return_times"]["returns"]:
        assert f'<th scope="row">{words["open-to-" + one["traffic"]]}</th>' in page
    (assumed,) = [note for note in first["assumptions"] if note["code"] == "traffic-last"]
    assert words[f"open-to-{assumed['value']}"] in assumed["text"]
    assert assumed["text"] in Seen(page).text


def test_the_page_holds_its_qr_code_and_fetches_nothing(
    client: FlaskClient, quote: Quote, show: Show, job: dict[str, Any]
) -> None:
    token = quote(job)["token"]
    response = show(token, "text/html")
    page = Seen(response.text)
    drawn = b64encode(client.get(f"/v1/quotes/{token}/qr.svg").data).decode()
    assert page.fetched == [f"data:image/svg+xml;base64,{drawn}"]
    assert "script" not in page.tags
    policy = response.headers["Content-Security-Policy"]
    assert policy.startswith("default-src 'none'; style-src 'sha256-")
    assert "unsafe" not in policy


def test_words_of_a_customer_are_words_in_the_page(quote: Quote, show: Show, job: dict[str, Any]) -> None:
    job["order"]["reference"] = "<script>alert(1)</script>"
    job["rooms"][0]["name"] = '"><img src=x onerror=alert(1)>'
    page = show(quote(job)["token"], "text/html").text
    assert "<script>" not in page
    assert "<img src=x" not in page
    assert Seen(page).tags.count("img") == 1


def test_without_a_start_the_page_counts_hours(quote: Quote, show: Show, job: dict[str, Any]) -> None:
    del job["work"]["start"], job["work"]["reopen_by"]
    text = Seen(show(quote(job)["token"], "text/html").text).text
    assert "from the start" in text
    assert "UTC" not in text


@pytest.mark.parametrize(
    ("minutes", "needed", "open_time"), [(4.5, "15.5 min", "15 min"), (4.311, "15.1 min", "15 min")]
)
def test_what_an_edge_needs_never_reads_as_what_there_is(
    quote: Quote, show: Show, minutes: float, needed: str, open_time: str
) -> None:
    """A mix of 0.55 ft³ at 7/32 in covers 30.171 ft², placed at 600 ft²/h in 3.017 min.

    1,200 ft² twice as long as wide are 24.495 ft across, 24 ft 5.9 in: a lane 3 ft deep takes 73.485 / 30.171 = 2.4356
    mixes. At 4.5 min, poured within 1.5, 10.960 + 3.017 + 1.5 = 15.477 min, at 4.311 min 10.500 + 4.517 = 15.017; the
    material stays open for 15. What waits too long is told up to a tenth, 15.5 and 15.1, as its caution says.
    """
    crew = {"mixing_stations": 1, "minutes_per_mix": minutes, "placing_rate": "600 ft2/h", "lane_depth": "3 ft"}
    rooms = [{"shape": {"measured": {"area": "1200 sq ft"}}, "joints": []}]
    job = {"system": "level-clear", "rooms": rooms, "work": {"crew": crew, "material_temperature": "68 degF"}}
    text = Seen(show(quote(job)["token"], "text/html").text).text
    assert f"{needed}\n{open_time}" in text
    assert "The room is assumed to be 24 ft 5.9 in across" in text
    waits = re.search(r"the wet edge waits (\S+ min) for the next lane, .* for 15 min at least", text)
    assert waits is not None
    assert waits[1] == {4.5: "15.5 min", 4.311: "15.1 min"}[minutes]  # what is needed is told up


# what every form says


def shown(response: Any) -> str:
    """What a form says, as text."""
    assert response.status_code == 200, response.get_json()
    return Seen(response.text).text if response.mimetype == "text/html" else response.text


@pytest.mark.parametrize("form", FORMS)
def test_every_form_says_that_the_catalogue_is_invented(
    quote: Quote, show: Show, job: dict[str, Any], form: str
) -> None:
    assert INVENTED in shown(show(quote(job)["token"], form))


@pytest.mark.parametrize("form", FORMS)
def test_every_form_says_what_keeps_the_order_from_being_placed(
    quote: Quote, show: Show, job: dict[str, Any], form: str
) -> None:
    job["slab"]["substrate"] = "wood"
    first = quote(job)
    assert first["quantities"]["orderable"] is False
    text = shown(show(first["token"], form))
    for blocker in first["quantities"]["blockers"]:
        assert blocker["text"] in text
    said = {
        "application/json": '"orderable":false',
        "text/html": "Do not place this order",
        "text/csv": ",no,",
        "application/xml": "Do not place this order",
    }
    assert said[form] in text


@pytest.mark.parametrize("form", FORMS)
def test_every_form_says_what_the_totals_leave_out(
    quote: Quote, show: Show, source: Any, job: dict[str, Any], form: str
) -> None:
    left_out = "there is no price for NS-55, so the totals leave it out. Ask for the price before this is ordered."
    assert left_out not in shown(show(quote(job)["token"], form))
    unpriced(source, "NS-55")
    assert left_out in shown(show(quote(job)["token"], form))


@pytest.mark.parametrize("form", FORMS)
def test_every_form_has_the_number_and_the_last_day_of_the_prices(
    quote: Quote, show: Show, job: dict[str, Any], form: str
) -> None:
    first = quote(job)
    digits = first["fingerprint"]
    text = shown(show(first["token"], form))
    number = digits if form == "application/json" else "-".join((digits[:4], digits[4:8], digits[8:12]))
    assert number in text
    assert first["valid_until"] in text


# which form


@pytest.mark.parametrize(
    ("accept", "form"),
    [
        (None, "application/json"),
        ("*/*", "application/json"),
        ("text/*", "text/html"),
        ("text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8", "text/html"),
        ("text/csv;q=0.4, application/xml;q=0.5", "application/xml"),
        ("text/csv, */*;q=0.1", "text/csv"),
        ("text/html;q=0, text/*;q=0.5", "text/csv"),
        ("application/json;q=0.2, text/csv;q=0.3, image/png", "text/csv"),
        ("TEXT/CSV", "text/csv"),
        ("text/csv; charset=utf-8", "text/csv"),
        ("application/xml;charset=utf-8;q=0.4, text/html;level=1;q=0.6", "text/html"),
    ],
)
def test_the_form_is_the_one_liked_best(
    client: FlaskClient, quote: Quote, job: dict[str, Any], accept: str | None, form: str
) -> None:
    headers = {} if accept is None else {"Accept": accept}
    response = client.get(f"/v1/quotes/{quote(job)['token']}", headers=headers)
    assert response.mimetype == form
    assert "Accept" in response.headers["Vary"]


@pytest.mark.parametrize(
    "accept", ["image/png", "application/pdf, text/plain", "text/html;q=0", "text/html;level=1;q=0"]
)
def test_a_form_that_is_not_made_is_a_406(quote: Quote, show: Show, job: dict[str, Any], accept: str) -> None:
    response = show(quote(job)["token"], accept)
    assert (response.status_code, response.get_json()["code"]) == (406, "not-acceptable")
    assert "text/csv" in response.get_json()["detail"]


def test_ubl_without_a_day_of_issue_is_a_406_that_says_so(quote: Quote, show: Show, job: dict[str, Any]) -> None:
    del job["order"]["issued"]
    token = quote(job)["token"]
    response = show(token, "application/xml")
    assert (response.status_code, response.get_json()["code"]) == (406, "quote-not-issued")
    assert "order.issued" in response.get_json()["detail"]
    assert show(token, "application/xml, text/csv;q=0.5").mimetype == "text/csv"


def test_ubl_without_a_line_is_a_406_that_says_so(quote: Quote, show: Show, job: dict[str, Any]) -> None:
    job["order"]["on_hand"] = all_on_hand(quote(job))
    response = show(quote(job)["token"], "application/xml")
    assert (response.status_code, response.get_json()["code"]) == (406, "nothing-ordered")
