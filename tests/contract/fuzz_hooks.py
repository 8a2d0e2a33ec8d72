"""What random jobs are drawn from, so that many of them are answered and not only refused. Loaded by the fuzzer.

Where ``FUZZ_LENGTHS`` is set, texts of the lengths at each bound are among them: where there is none, the fuzzer
searches a quarter of a second for one, for each field. Fields are filled with examples of the description all the same.
"""

import os
from pathlib import Path
from typing import Any

import schemathesis
from hypothesis import strategies as st

EXAMPLES = Path(__file__).parents[2] / "openapi" / "examples"
MEASURES = {
    "length": ["12 ft", "28' 6\"", "3.5 m", "0 m", "9 in", "2 km"],
    "small-length": ["3/16 in", "1/4 in", "6 mm", "5.5 mm", "1/2 in", "8 in", "2 in", "150 mil"],
    "area": ["1,200 sq ft", "80 m2", "3 ft2"],
    "small-area": ["64.06 in2", "410 cm2"],
    "small-mass": ["3 g", "0 g", "5.2 g"],
    "pressure": ["4200 psi", "30 MPa", "210 psi", "0 psi"],
    "temperature": ["60 °F", "21 degC", "4 degC", "-5 degC", "95 degF"],
    "duration": ["6 h", "0 h", "2 d", "90 min"],
    "days": ["45 d", "3 wk", "20 yr"],
    "moisture-emission": ["3 lb/1000ft2/24h", "15 g/m2/24h", "0 g/m2/24h"],
    "area-rate": ["900 ft2/h", "40 m2/h", "0.2 m2/h"],
    "length-rate": ["40 ft/h", "12 m/h", "0.5 m/h"],
    "mass-rate": ["900 lb/h", "400 kg/h"],
}
SYSTEMS = ["level-clear", "double-quartz", "trowelled-mortar"]
ZONES = ["America/Chicago", "Europe/Berlin", "UTC", "Asia/Kolkata"]


def drawn_from(texts: list[str], longest: int) -> st.SearchStrategy[str]:
    """One of these; where that is asked for, one of 1, of 2, of the most characters and of one less, too."""
    if "FUZZ_LENGTHS" not in os.environ:
        return st.sampled_from(texts)
    lengths = {1, 2, longest - 1, longest} - set(map(len, texts))
    whole = next((one for one in texts if one.partition(" ")[0].isdecimal()), texts[0])
    return st.sampled_from([*texts, *(_of_length(length, whole) for length in sorted(lengths))])


def _of_length(length: int, text: str) -> str:
    """A measure with decimals up to that length, or a name that goes on; where both are longer, no measure."""
    number, blank, unit = text.partition(" ")
    long = (f"{number}." if blank else number).ljust(length - len(blank + unit), "0") + blank + unit
    return long if len(long) == length else "9m"[:length]


for kind, measures in MEASURES.items():
    schemathesis.openapi.format(f"measure-{kind}", drawn_from(measures, 32))
schemathesis.openapi.format("unit-of-length", drawn_from(["ft", "m", "in", "cm"], 32))
schemathesis.openapi.format("iana-zone", drawn_from(ZONES, 64))
LINES = [
    *(job.read_bytes().replace(b"\n", b" ") for job in sorted(EXAMPLES.glob("*.json"))),
    *(b"{}", b"[]", b"", b"not JSON", b'{"system": "x", "system": "y"}', b"\xff", b"\x00", b"[" * 500),
]
schemathesis.openapi.media_type("application/x-ndjson", st.lists(st.sampled_from(LINES), max_size=4).map(b"\n".join))


@schemathesis.hook
def before_load_schema(context: Any, raw_schema: dict[str, Any]) -> None:
    """Without the example of a batch, which is a text: what is drawn for it here is bytes, and both are not taken."""
    raw_schema["paths"]["/v1/batches"]["post"]["requestBody"]["content"]["application/x-ndjson"].pop("example")


@schemathesis.hook
def map_body(context: Any, body: Any) -> Any:
    """Mostly a system that there is, where one could be; what was made unsound on purpose stays so."""
    job = body.get("job", body) if isinstance(body, dict) else None
    if isinstance(job, dict) and _is_sound(job.get("system")):
        job["system"] = SYSTEMS[len(job["system"]) % 3]
    return body


@schemathesis.hook
def map_path_parameters(context: Any, path_parameters: Any) -> Any:
    """The same for what is named in the address."""
    if isinstance(path_parameters, dict) and _is_sound(path_parameters.get("code")):
        path_parameters["code"] = SYSTEMS[len(path_parameters["code"]) % 3]
    return path_parameters


def _is_sound(name: Any) -> bool:
    return isinstance(name, str) and len(name) % 7 > 0 and len(name) <= 64 and bool(name.strip()) and name.isprintable()
