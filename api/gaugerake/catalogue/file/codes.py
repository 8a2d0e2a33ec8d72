"""Codes of trade that a catalogue may use.

Currencies and their minor units are those of ISO 4217 (list one, active), from memory. Unit codes are the part of
UN/ECE Recommendation 20 and, with X, Recommendation 21 that floor products are sold in.
"""

from __future__ import annotations

_TWO = """AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE CHF CHW
CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR
IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN
NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB
TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XCD XCG YER ZAR ZMW ZWG"""
_NONE = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"
_THREE = "BHD IQD JOD KWD LYD OMR TND"
_FOUR = "CLF UYW"

MINOR_UNITS = {
    **dict.fromkeys(_TWO.split(), 2),
    **dict.fromkeys(_NONE.split(), 0),
    **dict.fromkeys(_THREE.split(), 3),
    **dict.fromkeys(_FOUR.split(), 4),
}
"""How many decimals an amount has, by currency."""

UNIT_CODES = {
    "EA": "each",
    "H87": "piece",
    "KT": "kit",
    "SET": "set",
    "PR": "pair",
    "GLL": "US gallon",
    "QTL": "US quart",
    "PTL": "US pint",
    "OZA": "US fluid ounce",
    "GLI": "imperial gallon",
    "LTR": "litre",
    "MLT": "millilitre",
    "MTQ": "cubic metre",
    "FTQ": "cubic foot",
    "LBR": "pound",
    "ONZ": "ounce",
    "KGM": "kilogram",
    "GRM": "gram",
    "TNE": "tonne",
    "FOT": "foot",
    "MTR": "metre",
    "FTK": "square foot",
    "MTK": "square metre",
    "XBG": "bag",
    "XPL": "pail",
    "XBJ": "bucket",
    "XDR": "drum",
    "XBX": "box",
    "XCT": "carton",
    "XCS": "case",
    "XCA": "can, rectangular",
    "XCX": "can, cylindrical",
    "XJR": "jar",
    "XJC": "jerrican, rectangular",
    "XJY": "jerrican, cylindrical",
    "XTU": "tube",
    "XRO": "roll",
    "XPK": "package",
    "XPX": "pallet",
    "XTN": "tin",
    "XBO": "bottle",
    "XCQ": "cartridge",
    "XSA": "sack",
    "XSH": "sachet",
}
"""What a pack may be counted in on an order."""

DELETED = {
    code: f"X{code}" for code in ("BG", "PL", "DR", "BX", "BJ", "CT", "CS", "CA", "JR", "TU", "PK", "TN", "BO", "SA")
}
"""Codes that Recommendation 20 no longer has, and what stands for them since."""
