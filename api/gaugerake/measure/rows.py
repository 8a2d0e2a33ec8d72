"""The closed table as data: every unit that is understood, with its codes and spellings.

UCUM codes are after The Unified Code for Units of Measure 2.2, the codes of trade after UN/ECE Recommendation 20.
A spelling stands here only when it can mean one unit of its dimension and no other: neither ``ton`` (short, long or
metric) nor ``mpa`` (milli or mega), and ``M`` is not a metre.
"""

from dataclasses import dataclass
from fractions import Fraction

from gaugerake.measure.dimension import Dimension


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A unit as the table states it; its factor is not here, Pint is asked for that.

    ``pint`` is our own expression for Pint, times ``scale``. ``words`` are spellings whose case does not matter,
    ``symbols`` those whose case does. ``parts`` are the units that a compound unit is made of.
    """

    dimension: Dimension
    unit: str
    pint: str
    ucum: str | None = None
    rec20: str | None = None
    words: tuple[str, ...] = ()
    symbols: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    scale: Fraction = Fraction(1)


def _split(spellings: str) -> tuple[str, ...]:
    return tuple(spellings.split("|")) if spellings else ()


def _rows(dimension: Dimension, *rows: tuple[str, str, str | None, str | None, str, str]) -> tuple[Row, ...]:
    return tuple(
        Row(
            dimension=dimension,
            unit=unit,
            pint=pint,
            ucum=ucum,
            rec20=rec20,
            words=_split(words),
            symbols=_split(symbols),
        )
        for unit, pint, ucum, rec20, words, symbols in rows
    )


# unit, Pint's name, UCUM, Rec 20, spellings in any case, spellings in this case only
_SIMPLE = (
    *_rows(
        Dimension.LENGTH,
        ("ft", "foot", "[ft_i]", "FOT", "ft|foot|feet|'|lf|lin ft|linear ft|linear foot|linear feet", ""),
        ("in", "inch", "[in_i]", "INH", 'in|ins|inch|inches|"', ""),
        # Pint's own `mil` is an angle
        ("mil", "thou", "[mil_i]", "77", "thou", "mil|mils|MIL|MILS"),
        ("yd", "yard", "[yd_i]", "YRD", "yd|yds|yard|yards", ""),
        ("m", "meter", "m", "MTR", "metre|metres|meter|meters", "m"),
        ("cm", "centimeter", "cm", "CMT", "centimetre|centimetres|centimeter|centimeters", "cm|CM"),
        ("mm", "millimeter", "mm", "MMT", "millimetre|millimetres|millimeter|millimeters", "mm|MM"),
        ("um", "micrometer", "um", "4H", "micron|microns|micrometre|micrometres|micrometer|micrometers", "um"),
        ("km", "kilometer", "km", "KMT", "kilometre|kilometres|kilometer|kilometers", "km|KM"),
    ),
    *_rows(
        Dimension.AREA,
        (
            "ft2",
            "foot ** 2",
            "[ft_i]2",
            "FTK",
            "ft2|ft^2|sqft|sq ft|sq-ft|sq feet|sq foot|square ft|square foot|square feet|sf",
            "",
        ),
        ("in2", "inch ** 2", "[in_i]2", "INK", "in2|in^2|sqin|sq in|sq-in|sq inch|square inch|square inches", ""),
        ("yd2", "yard ** 2", "[yd_i]2", "YDK", "yd2|yd^2|sqyd|sq yd|sq yds|square yard|square yards|sy", ""),
        (
            "m2",
            "meter ** 2",
            "m2",
            "MTK",
            "sqm|sq m|square metre|square metres|square meter|square meters",
            "m2|m^2|M2",
        ),
        (
            "cm2",
            "centimeter ** 2",
            "cm2",
            "CMK",
            "sqcm|sq cm|square centimetre|square centimetres|square centimeter|square centimeters",
            "cm2|cm^2|CM2",
        ),
        (
            "mm2",
            "millimeter ** 2",
            "mm2",
            "MMK",
            "sqmm|sq mm|square millimetre|square millimetres|square millimeter|square millimeters",
            "mm2|mm^2|MM2",
        ),
    ),
    *_rows(
        Dimension.VOLUME,
        ("ft3", "foot ** 3", "[cft_i]", "FTQ", "ft3|ft^3|cuft|cu ft|cu-ft|cubic ft|cubic foot|cubic feet|cf", ""),
        ("in3", "inch ** 3", "[cin_i]", "INQ", "in3|in^3|cuin|cu in|cubic in|cubic inch|cubic inches", ""),
        ("yd3", "yard ** 3", "[cyd_i]", "YDQ", "yd3|yd^3|cuyd|cu yd|cu yds|cubic yard|cubic yards|cy", ""),
        ("gal", "gallon", "[gal_us]", "GLL", "gal|gals|gallon|gallons|us gal|us gallon|us gallons|gal_us", ""),
        (
            "gal_imp",
            "imperial_gallon",
            "[gal_br]",
            "GLI",
            "gal_imp|imp gal|imperial gal|imperial gallon|imperial gallons|uk gal|uk gallon|uk gallons",
            "",
        ),
        ("qt", "quart", "[qt_us]", "QTL", "qt|qts|quart|quarts|us qt|us quart|us quarts", ""),
        ("pt", "pint", "[pt_us]", "PTL", "pt|pts|pint|pints|us pt|us pint|us pints", ""),
        (
            "fl_oz",
            "fluid_ounce",
            "[foz_us]",
            "OZA",
            "fl_oz|fl oz|floz|fluid oz|fluid ounce|fluid ounces|us fl oz",
            "",
        ),
        ("L", "liter", "L", "LTR", "l|ltr|litre|litres|liter|liters", ""),
        ("mL", "milliliter", "mL", "MLT", "millilitre|millilitres|milliliter|milliliters", "mL|ml"),
        ("m3", "meter ** 3", "m3", "MTQ", "cu m|cubic metre|cubic metres|cubic meter|cubic meters", "m3|m^3|M3"),
        (
            "cm3",
            "centimeter ** 3",
            "cm3",
            "CMQ",
            "cc|cu cm|cubic centimetre|cubic centimetres|cubic centimeter|cubic centimeters",
            "cm3|cm^3|CM3",
        ),
    ),
    *_rows(
        Dimension.MASS,
        ("lb", "pound", "[lb_av]", "LBR", "lb|lbs|pound|pounds|lbm", ""),
        ("oz", "ounce", "[oz_av]", "ONZ", "oz|ozs|ounce|ounces", ""),
        ("kg", "kilogram", "kg", "KGM", "kg|kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes", ""),
        ("g", "gram", "g", "GRM", "gram|grams|gramme|grammes|gm|gms", "g"),
        ("t", "tonne", "t", "TNE", "tonne|tonnes|metric ton|metric tons|metric tonne|metric tonnes", "t"),
    ),
    *_rows(
        Dimension.PRESSURE,
        (
            "psi",
            "pound_force_per_square_inch",
            "[psi]",
            "PS",
            "psi|lbf/in2|lbf/sq in|pounds per square inch|pound per square inch",
            "",
        ),
        # UCUM takes no prefix on the psi
        ("ksi", "kilopound_force_per_square_inch", None, None, "ksi|kips per square inch", ""),
        ("Pa", "pascal", "Pa", "PAL", "pascal|pascals", "Pa|pa"),
        ("kPa", "kilopascal", "kPa", "KPA", "kpa|kilopascal|kilopascals", ""),
        ("MPa", "megapascal", "MPa", "MPA", "megapascal|megapascals", "MPa|Mpa"),
        ("N/mm2", "newton / millimeter ** 2", "N/mm2", "C56", "newtons per square millimetre", "N/mm2|N/mm^2|N/sq mm"),
        ("bar", "bar", "bar", "BAR", "bar|bars", ""),
    ),
    *_rows(
        Dimension.TEMPERATURE,
        (
            "degF",
            "degF",
            "[degF]",
            "FAH",
            "degf|deg f|°f|° f|f|℉|degree f|degrees f|fahrenheit|deg fahrenheit|degree fahrenheit|degrees fahrenheit",
            "",
        ),
        (
            "degC",
            "degC",
            "Cel",
            "CEL",
            "degc|deg c|°c|° c|c|℃|degree c|degrees c|celsius|deg celsius|degree celsius|degrees celsius|centigrade",
            "",
        ),
        ("K", "kelvin", "K", "KEL", "k|kelvin|kelvins", ""),
    ),
    # No codes: UCUM and Recommendation 20 have one code for a temperature and for a difference, and we do not mix them.
    *_rows(
        Dimension.TEMPERATURE_DIFFERENCE,
        ("delta_degF", "delta_degF", None, None, "delta_degf|delta degf|delta °f|delta f|Δdegf|Δ degf|Δ°f|Δ °f|Δf", ""),
        ("delta_degC", "delta_degC", None, None, "delta_degc|delta degc|delta °c|delta c|Δdegc|Δ degc|Δ°c|Δ °c|Δc", ""),
        ("delta_K", "kelvin", None, None, "delta_k|delta k|Δk|Δ k|k|kelvin|kelvins", ""),
    ),
    *_rows(
        Dimension.DURATION,
        ("h", "hour", "h", "HUR", "h|hr|hrs|hour|hours", ""),
        ("min", "minute", "min", "MIN", "min|mins|minute|minutes", ""),
        ("s", "second", "s", "SEC", "s|sec|secs|second|seconds", ""),
        ("d", "day", "d", "DAY", "d|day|days", ""),
        ("wk", "week", "wk", "WEE", "wk|wks|week|weeks", ""),
        # the Julian year of 365.25 days and its twelfth, as UCUM has them
        ("mo", "month", "mo", "MON", "mo|mos|month|months", ""),
        ("yr", "year", "a", "ANN", "yr|yrs|year|years", ""),
    ),
    *_rows(Dimension.MIX, ("mix", "count", "{mix}", None, "mix|mixes", "")),
    *_rows(Dimension.PIECE, ("piece", "count", "{piece}", "H87", "piece|pieces|pc|pcs|ea|each", "")),
)


def _compound(
    dimension: Dimension,
    unit: str,
    pint: str,
    ucum: str,
    rec20: str | None,
    words: str,
    parts: tuple[str, ...],
    scale: Fraction = Fraction(1),
) -> Row:
    return Row(
        dimension=dimension,
        unit=unit,
        pint=pint,
        ucum=ucum,
        rec20=rec20,
        words=_split(words),
        symbols=(unit,),
        parts=parts,
        scale=scale,
    )


_COMPOUND = (
    _compound(
        Dimension.SPREADING_RATE,
        "ft2/gal",
        "foot ** 2 / gallon",
        "[ft_i]2/[gal_us]",
        None,
        "sq ft/gal|sf/gal|sq ft per gal|square feet per gallon",
        ("ft2", "gal"),
    ),
    _compound(
        Dimension.SPREADING_RATE,
        "ft2/gal_imp",
        "foot ** 2 / imperial_gallon",
        "[ft_i]2/[gal_br]",
        None,
        "sq ft/imp gal",
        ("ft2", "gal_imp"),
    ),
    _compound(
        Dimension.SPREADING_RATE,
        "m2/L",
        "meter ** 2 / liter",
        "m2/L",
        "E31",
        "sq m/l|m2 per litre|square metres per litre",
        ("m2", "L"),
    ),
    _compound(
        Dimension.AREAL_MASS,
        "lb/ft2",
        "pound / foot ** 2",
        "[lb_av]/[ft_i]2",
        "FP",
        "lb/sq ft|lbs/sq ft|lb/sf|lb per sq ft|pounds per square foot",
        ("lb", "ft2"),
    ),
    _compound(
        Dimension.AREAL_MASS,
        "lb/yd2",
        "pound / yard ** 2",
        "[lb_av]/[yd_i]2",
        None,
        "lb/sq yd|lbs/sq yd|lb/sy|lb per sq yd|pounds per square yard",
        ("lb", "yd2"),
    ),
    _compound(
        Dimension.AREAL_MASS, "oz/ft2", "ounce / foot ** 2", "[oz_av]/[ft_i]2", "37", "oz/sq ft|oz/sf", ("oz", "ft2")
    ),
    _compound(
        Dimension.AREAL_MASS, "oz/yd2", "ounce / yard ** 2", "[oz_av]/[yd_i]2", "ON", "oz/sq yd|oz/sy", ("oz", "yd2")
    ),
    _compound(
        Dimension.AREAL_MASS,
        "kg/m2",
        "kilogram / meter ** 2",
        "kg/m2",
        "28",
        "kg/sq m|kg per m2|kilograms per square metre",
        ("kg", "m2"),
    ),
    _compound(Dimension.AREAL_MASS, "g/m2", "gram / meter ** 2", "g/m2", "GM", "g/sq m|g per m2|gsm", ("g", "m2")),
    _compound(
        Dimension.MOISTURE_EMISSION,
        "lb/1000ft2/24h",
        "pound / foot ** 2 / hour",
        "[lb_av]/1000/[ft_i]2/24/h",
        None,
        "lb/1000 ft2/24 h|lbs/1000 ft2/24 h|lb/1000 sq ft/24 hr|lbs per 1000 sq ft per 24 h",
        ("lb", "1000ft2", "24h"),
        Fraction(1, 24_000),
    ),
    _compound(
        Dimension.MOISTURE_EMISSION,
        "g/m2/24h",
        "gram / meter ** 2 / day",
        "g/m2/d",
        None,
        "g/m2/24 h|g/m2/d|g/m2/day|g/sq m/24 h",
        ("g", "m2", "24h"),
    ),
    _compound(
        Dimension.AREA_RATE,
        "ft2/h",
        "foot ** 2 / hour",
        "[ft_i]2/h",
        "M79",
        "ft2/hr|sq ft/h|sq ft/hr|sf/hr|sq ft per hour|square feet per hour",
        ("ft2", "h"),
    ),
    _compound(
        Dimension.AREA_RATE,
        "m2/h",
        "meter ** 2 / hour",
        "m2/h",
        None,
        "m2/hr|sq m/h|m2 per hour|square metres per hour",
        ("m2", "h"),
    ),
    _compound(
        Dimension.LENGTH_RATE,
        "ft/h",
        "foot / hour",
        "[ft_i]/h",
        "K14",
        "ft/hr|feet/h|ft per hour|feet per hour",
        ("ft", "h"),
    ),
    _compound(
        Dimension.LENGTH_RATE, "m/h", "meter / hour", "m/h", "M60", "m/hr|m per hour|metres per hour", ("m", "h")
    ),
    _compound(
        Dimension.MASS_RATE, "lb/h", "pound / hour", "[lb_av]/h", "4U", "lb/hr|lb per hour|pounds per hour", ("lb", "h")
    ),
    _compound(
        Dimension.MASS_RATE,
        "kg/h",
        "kilogram / hour",
        "kg/h",
        "E93",
        "kg/hr|kg per hour|kilograms per hour",
        ("kg", "h"),
    ),
)

ROWS: tuple[Row, ...] = _SIMPLE + _COMPOUND
