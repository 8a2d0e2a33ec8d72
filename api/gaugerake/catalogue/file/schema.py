"""The form of a catalogue file as a JSON Schema (2020-12), for editors: they complete keys and mark slips while typing.

It is made from the same tables of keys, ranges and words that the reader uses; a test holds each table of keys that is
read to one here. An editor sees the form alone: whether a unit, a rule between layers or a sku is right, ``gaugerake
catalogue check`` tells.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from gaugerake.catalogue.file import format as whole
from gaugerake.catalogue.file import layers, packs, products, ranges, systems
from gaugerake.catalogue.file.codes import MINOR_UNITS, UNIT_CODES
from gaugerake.catalogue.file.ranges import AllowedRange
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.keys import (
    Form,
    Group,
    Key,
    Measure,
    Number,
    ProductCode,
    Ranged,
    Ready,
    Times,
    Whole,
    Word,
)
from gaugerake.floor.layers.kinds import KINDS
from gaugerake.floor.product import CountedIn, Hazard
from gaugerake.floor.values.figure import Kind
from gaugerake.floor.values.name import LANGUAGES
from gaugerake.measure.dimension import EXAMPLES, Dimension

Schema = dict[str, Any]

_WORDS: Schema = {"type": ["string", "number"], "minLength": 1, "maxLength": 200}
_LONG: Schema = {"type": "string", "minLength": 1, "maxLength": 2000}
_CODE: Schema = {"type": ["string", "number"], "pattern": "^[A-Za-z0-9][A-Za-z0-9._-]{0,39}$"}
_SKU: Schema = {"type": ["string", "number"], "pattern": "^[!-~]{1,64}$"}
_TRUTH: Schema = {"type": "boolean"}
_MONEY: Schema = {
    "type": ["string", "number"],
    "pattern": "^[0-9]{1,9}(\\.[0-9]{1,6})?$",
    "description": 'An amount in figures alone, best in quotes: "84.00".',
}


def catalogue_schema() -> Schema:
    """The schema of a whole catalogue.

    Examples
    --------
    >>> catalogue_schema()["required"][:2]
    ['catalogue', 'invented']
    """
    made = _table(
        {
            "catalogue": _or_both(_WORDS),
            "invented": {**_TRUTH, "description": "true where products, figures or prices are made up."},
            "currency": {"enum": sorted(MINOR_UNITS), "description": "ISO 4217."},
            "valid_days": {**_whole(1, 3660), "description": "How long a quote holds."},
            "products": _list({"oneOf": [_product(kind) for kind in CountedIn]}),
            "systems": _list(_system()),
        },
        whole._REQUIRED,
    )
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A catalogue of seamless resinous floors",
        "description": "Products, the systems that they make, and list prices.",
        **made,
        "$defs": {
            "pack": _pack(),
            "kit": _kit(),
            "part": _part(),
            "unit_code": _unit_code(),
            "cure": _times(ranges.CURE),
            "working_time": _times(ranges.MINUTES),
        },
    }


def _or_both(words: Schema) -> Schema:
    """Words, or the same in each language that names are given in."""
    return {"oneOf": [words, _table(dict.fromkeys(LANGUAGES, words), LANGUAGES)]}


def _ref(name: str) -> Schema:
    return {"$ref": f"#/$defs/{name}"}


def _product(kind: CountedIn) -> Schema:
    """A product that is counted so; what is for others alone is not known in it."""
    forms = {
        "code": _CODE,
        "name": _or_both(_WORDS),
        "counted_in": {"const": kind.value},
        "packs": _list({"oneOf": [_ref("pack"), _ref("kit")]}),
        "mixing": _table({"minutes": _number(0, 120, above=True), "note": _or_both(_LONG)}),
        "temperatures": _limits(_measure(ranges.TEMPERATURE)),
        "humidity": _limits(_number(0, 100)),
        "store": _table(
            {
                "low": _measure(ranges.TEMPERATURE),
                "high": _measure(ranges.TEMPERATURE),
                "condition": _measure(ranges.STORAGE),
                "shelf_life": _measure(ranges.STORAGE),
            }
        ),
        "hazards": {"type": "array", "items": {"enum": [hazard.value for hazard in Hazard]}},
        "open_time": _ref("working_time"),
        "pot_life": _ref("working_time"),
        "pour_within": _measure(ranges.MINUTES),
        "roll_within": _measure(ranges.MINUTES),
        "yield": _yield(),
        "volume_solids_percent": _number(0, 100, above=True),
        "wet_film": _limits(_measure(ranges.FILM)),
        "smallest_batch": _measure(ranges.BATCH),
    }
    known = {*products._REQUIRED, *products._ANY, *products._OWN_KEYS[kind]}
    return _table({key: form for key, form in forms.items() if key in known}, products._REQUIRED)


def _sold(named: Iterable[str]) -> Schema:
    """Those of the keys of a pack or part that are named."""
    break_ = _table({"from": _whole(2, 1_000_000), "price": _MONEY}, ("from", "price"))
    forms = {
        "sku": _SKU,
        "contents": {**_text_of(Dimension.MIX, Dimension.VOLUME, Dimension.MASS, Dimension.PIECE)},
        "unit_code": _ref("unit_code"),
        "weight": _measure(ranges.WEIGHT),
        "price": _MONEY,
        "breaks": _list(break_),
        "colour": {**_WORDS, "maxLength": 40},
        "description": _or_both(_WORDS),
        "parts": {**_list(_ref("part")), "minItems": 2, "maxItems": packs.MOST_PARTS},
    }
    return {key: forms[key] for key in named}


def _unit_code() -> Schema:
    codes = [{"const": code, "description": words} for code, words in UNIT_CODES.items()]
    return {"oneOf": codes, "description": "UN/ECE Recommendation 20 or, with X, 21."}


def _pack() -> Schema:
    return _table(_sold((*packs._PACK, *packs._PACK_MAY)), packs._PACK)


def _kit() -> Schema:
    return _table(_sold((*packs._KIT, *packs._KIT_MAY)), packs._KIT)


def _part() -> Schema:
    return _table(_sold((*packs._PART, *packs._PART_MAY)), packs._PART)


def _yield() -> Schema:
    covered = _table({"area": _measure(ranges.COVERED), "at": _measure(ranges.FLOOR)}, ("area", "at"))
    return _range_of({"oneOf": [_measure(ranges.YIELD), covered]}, alone=(_measure(ranges.YIELD), covered))


def _system() -> Schema:
    depths = {"type": "object", "additionalProperties": False, "minProperties": 1}
    rising = {key: _measure(ranges.FLOOR) for key in ("low", "usual", "high")}
    chase = {key: _measure(ranges.CHASE) for key in ("width", "depth")}
    forms = {
        "code": _CODE,
        "name": _or_both(_WORDS),
        "description": _or_both(_LONG),
        "reference_temperature": _measure(ranges.TEMPERATURE),
        "layers": _list({"oneOf": [_layer(kind) for kind in KINDS.values()]}),
        "thickness": _table(rising, tuple(rising)),
        "thickness_sd_percent": _number(0, 30),
        "keyway": _table(
            {"offset": _measure(ranges.KEYWAY_OFFSET), "ratio": _number(0, 10, above=True)}, ("offset", "ratio")
        ),
        "profile_allowance": {
            **depths,
            "properties": {str(csp): _measure(ranges.PROFILE_DEPTH) for csp in range(1, 11)},
        },
        "crack_chase": _table(chase, tuple(chase)),
        "slab_limits": _slab_limits(),
        "air_limits": _air_limits(),
        "returns": _list(_table({"traffic": _CODE, "after": _ref("cure")}, ("traffic", "after"))),
    }
    return _table(forms, systems._REQUIRED)


def _slab_limits() -> Schema:
    strength = _measure(ranges.STRENGTH)
    return _table(
        {
            "age": _measure(ranges.AGE),
            "compressive_strength": strength,
            "pull_off": strength,
            "profile_csp": _limits(_whole(1, 10)),
            "moisture_emission": _measure(ranges.EMISSION),
            "relative_humidity": _number(0, 100),
            "ph": _limits(_number(0, 14)),
            "slope_percent": _number(0, 100),
            "temperature": _limits(_measure(ranges.TEMPERATURE)),
        }
    )


def _air_limits() -> Schema:
    percent = _number(0, 100)
    return _table(
        {
            "temperature": _limits(_measure(ranges.TEMPERATURE)),
            "humidity": {"oneOf": [percent, _limits(percent)]},
            "dew_point_spread": _measure(ranges.SPREAD),
        }
    )


def _layer(kind: type[Layer]) -> Schema:
    """A layer of one kind, with the keys that the kind itself says."""
    own = {key.name: _form(key.form) for key in kind.keys}
    cure = _ref("cure")
    common = {"id": _CODE, "name": _or_both(_WORDS), "optional": _TRUTH, "cure": cure, "recoat_closes": cure}
    forms = {"layer": {"const": kind.kind}, "product": _CODE, **{key: common[key] for key in layers._COMMON}, **own}
    return _table(forms, ("layer", "product", *(key.name for key in kind.keys if key.required)))


def _form(form: Form) -> Schema:
    """The schema of a form in which a kind's key has its value."""
    match form:
        case Measure():
            return _measure_of(form)
        case Ranged():
            return _range_of(_measure_of(form.each))
        case Number():
            return _number(form.low, form.high, above=form.above)
        case Whole():
            return _whole(form.low, form.high)
        case Times():
            return _ref("working_time" if form.figure == Kind.MINUTES else "cure")
        case Word():
            return {"enum": [word.value for word in form.words]}
        case ProductCode():
            return _CODE
        case Group():
            return _group(form.keys)
        case Ready():
            raise TypeError("a value that is made ready to be shown is never read")


def _group(keys: tuple[Key, ...]) -> Schema:
    required = [key.name for key in keys if key.required]
    made = _table({key.name: _form(key.form) for key in keys}, required)
    return made if required else {**made, "minProperties": 1}


def _measure_of(form: Measure) -> Schema:
    return {**_text_of(Dimension(form.dimension)), "description": f"From {form.low} to {form.high}."}


def _measure(span: AllowedRange) -> Schema:
    return {**_text_of(span.dimension), "description": f"From {span.low_text} to {span.high_text}."}


def _text_of(*dimensions: Dimension) -> Schema:
    return {"type": "string", "examples": [example for dimension in dimensions for example in EXAMPLES[dimension]]}


def _number(low: float, high: float, *, above: bool = False) -> Schema:
    return {"type": "number", "exclusiveMinimum" if above else "minimum": low, "maximum": high}


def _whole(low: int, high: int) -> Schema:
    return {"type": "integer", "minimum": low, "maximum": high}


def _limits(one: Schema) -> Schema:
    return {**_table({"low": one, "high": one}), "minProperties": 1}


def _range_of(one: Schema, *, alone: tuple[Schema, ...] | None = None) -> Schema:
    """``{low, likely, high}``, or one value that stands for all three."""
    ends = ("low", "likely", "high")
    return {"oneOf": [*(alone or (one,)), _table(dict.fromkeys(ends, one), ends)]}


def _times(span: AllowedRange) -> Schema:
    """A table of times by temperature."""
    columns = {key: _measure(span) for key in ("low", "likely", "high")}
    row = _table({"at": _measure(ranges.TEMPERATURE), **columns}, ("at",))
    return _list({**row, "minProperties": 2})


def _list(one: Schema) -> Schema:
    return {"type": "array", "minItems": 1, "items": one}


def _table(forms: Mapping[str, Schema], required: Iterable[str] = ()) -> Schema:
    made: Schema = {"type": "object", "additionalProperties": False, "properties": dict(forms)}
    needed = list(required)
    return {**made, "required": needed} if needed else made
