"""The slab's surface: what it is, what lies on it, how rough it is, and what mends it.

What a substrate or a contaminant is called is free text, so words are known in English and in Spanish, whatever the
language of the answer: "pintura" may hold lead as "paint" does, and a "concreto" that is not known would stop a job.
An accent makes no difference. Which words people use on sites is from memory.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping
from enum import StrEnum
from typing import TypeVar

from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Limits

K = TypeVar("K")


class Substrate(StrEnum):
    """What a floor is laid on. The limits of the checks are made for concrete and hold for no other."""

    CONCRETE = "concrete"
    WOOD = "wood"
    GYPSUM = "gypsum"
    LIGHTWEIGHT = "lightweight"
    ASPHALT = "asphalt"
    METAL = "metal"
    TILE = "tile"
    COATING = "coating"
    MASONRY = "masonry"


_SUBSTRATE_WORDS: Mapping[Substrate, str] = {
    Substrate.CONCRETE: "concrete|concrete slab|cast concrete|structural concrete|concrete slab on grade",
    Substrate.WOOD: "wood|wooden|timber|plywood|osb|particle board|chipboard",
    Substrate.GYPSUM: "gypsum|gypsum underlayment|gypsum screed|anhydrite|anhydrite screed|calcium sulfate screed",
    Substrate.LIGHTWEIGHT: "lightweight concrete|lightweight|aerated concrete|insulating concrete|foamed concrete",
    Substrate.ASPHALT: "asphalt|bitumen|blacktop|tarmac|mastic asphalt",
    Substrate.METAL: "metal|steel|steel plate|checker plate|aluminum|aluminium",
    Substrate.TILE: "tile|ceramic tile|quarry tile|porcelain tile|vinyl tile|terrazzo|stone",
    Substrate.COATING: "coating|old coating|epoxy|painted concrete|resin floor|existing resin floor|polyurethane",
    Substrate.MASONRY: "masonry|brick|block|pavers",
}
_SPANISH_SUBSTRATES: Mapping[Substrate, str] = {
    Substrate.CONCRETE: "concreto|losa de concreto|concreto estructural|firme de concreto|hormigon|losa de hormigon",
    Substrate.WOOD: "madera|triplay|contrachapado|tablero de madera|aglomerado",
    Substrate.GYPSUM: "yeso|anhidrita|autonivelante de yeso|sulfato de calcio",
    Substrate.LIGHTWEIGHT: "concreto ligero|concreto celular|concreto aligerado|hormigon ligero|hormigon celular",
    Substrate.ASPHALT: "asfalto|carpeta asfaltica|mastico asfaltico|betun|chapopote",
    Substrate.METAL: "acero|placa de acero|lamina de acero|aluminio",
    Substrate.TILE: "loseta|loseta ceramica|loseta vinilica|azulejo|mosaico|ceramica|porcelanato|terrazo|piedra",
    Substrate.COATING: "recubrimiento|recubrimiento viejo|epoxico|concreto pintado|piso de resina|poliuretano|pintura",
    Substrate.MASONRY: "mamposteria|ladrillo|tabique|bloque|adoquin|adoquines",
}


class Contaminant(StrEnum):
    """What keeps a floor from the concrete."""

    LAITANCE = "laitance"
    CURING_COMPOUND = "curing-compound"
    SEALER = "sealer"
    ADHESIVE = "adhesive"
    TILE = "tile"
    PAINT = "paint"
    OIL_AND_GREASE = "oil-and-grease"
    DUST = "dust"


_CONTAMINANT_WORDS: Mapping[Contaminant, str] = {
    Contaminant.LAITANCE: "laitance|cement skin|weak skin",
    Contaminant.CURING_COMPOUND: "curing compound|cure|curing agent|curing membrane|cure and seal|cure & seal",
    Contaminant.SEALER: "sealer|sealant|concrete sealer|hardener|densifier|wax|silicone",
    Contaminant.ADHESIVE: "adhesive|glue|mastic|cutback|carpet glue|tile adhesive|flooring adhesive|black mastic",
    Contaminant.TILE: "tile|vinyl tile|floor tile|ceramic tile|vinyl|linoleum|sheet vinyl|vct|vat",
    Contaminant.PAINT: "paint|coating|old coating|epoxy|old paint|line marking|marking paint",
    Contaminant.OIL_AND_GREASE: "oil and grease|oil & grease|oil|grease|fat|fats and oils|grease and oil|fuel",
    Contaminant.DUST: "dust|dirt|loose dust|debris|dust and dirt|dirt and dust",
}
_SPANISH_CONTAMINANTS: Mapping[Contaminant, str] = {
    Contaminant.LAITANCE: "lechada superficial|lechada|nata de cemento|piel de cemento",
    Contaminant.CURING_COMPOUND: "membrana de curado|compuesto de curado|agente de curado|curador|curado y sellado",
    Contaminant.SEALER: "sellador|selladores|sellador de superficie|endurecedor|densificador|cera|silicon|silicona",
    Contaminant.ADHESIVE: "adhesivo|pegamento|pega|mastique|mastico|brea|chapopote|pegamento negro",
    Contaminant.TILE: "loseta|azulejo|mosaico|ceramica|vinilo|vinil|loseta vinilica|linoleo",
    Contaminant.PAINT: "pintura|recubrimiento|epoxico|esmalte|barniz|pintura vieja|pintura de trafico",
    Contaminant.OIL_AND_GREASE: "aceite y grasa|grasa y aceite|aceite|grasa|combustible",
    Contaminant.DUST: "polvo|polvo suelto|tierra|suciedad|mugre|escombro",
}
COVERINGS = frozenset({Contaminant.ADHESIVE, Contaminant.TILE, Contaminant.PAINT})
"""What may hold asbestos or lead, and is tested before anybody grinds it."""
COVERING_SUBSTRATES = frozenset({Substrate.TILE, Substrate.COATING})
"""The same, where it is named as what the floor would go on: whoever takes it up meets what is in and under it."""


def _by_word(*tables: Mapping[K, str]) -> Iterator[tuple[str, K]]:
    """Each word of some tables with its kind."""
    for table in tables:
        for kind, listed in table.items():
            yield from ((word, kind) for word in listed.split("|"))


_SUBSTRATES = dict(_by_word(_SUBSTRATE_WORDS, _SPANISH_SUBSTRATES))
_CONTAMINANTS = dict(_by_word(_CONTAMINANT_WORDS, _SPANISH_CONTAMINANTS))


def _folded(words: str) -> str:
    """A phrase as it stands in the tables, without accents."""
    plain = "".join(sign for sign in unicodedata.normalize("NFD", words) if not unicodedata.combining(sign))
    return " ".join(plain.casefold().replace("_", " ").replace("-", " ").split())


def _inside(phrase: str) -> Contaminant | None:
    """The contaminant whose word stands somewhere in a phrase; what may hold asbestos or lead goes before the rest."""
    padded = f" {phrase} "
    found = [kind for word, kind in _CONTAMINANTS.items() if f" {word} " in padded or f" {word}s " in padded]
    return min(found, key=lambda kind: kind not in COVERINGS, default=None)


def substrate(words: str) -> Substrate | None:
    """Which substrate a person means.

    Parameters
    ----------
    words : str
        As written, in English or Spanish; case, accents, hyphens and a plural make no difference.

    Returns
    -------
    Substrate or None
        None for a word that is not known.

    Examples
    --------
    >>> substrate("Steel-plate"), substrate("Hormigón"), substrate("marshmallow")
    (<Substrate.METAL: 'metal'>, <Substrate.CONCRETE: 'concrete'>, None)
    """
    phrase = _folded(words)
    return _SUBSTRATES.get(phrase) or _SUBSTRATES.get(phrase.removesuffix("s"))


def contaminant(words: str) -> Contaminant | None:
    """Which contaminant a person means.

    Parameters
    ----------
    words : str
        As written, in English or Spanish; case, accents, hyphens and a plural make no difference, and a known word
        within a phrase is found.

    Returns
    -------
    Contaminant or None
        None for a word that is not known: what it is must be found out before anything else.

    Examples
    --------
    >>> contaminant("Curing-Compound"), contaminant("oil under old floor tiles"), contaminant("black goo")
    (<Contaminant.CURING_COMPOUND: 'curing-compound'>, <Contaminant.TILE: 'tile'>, None)
    """
    phrase = _folded(words)
    return _CONTAMINANTS.get(phrase) or _inside(phrase)


class Preparation(StrEnum):
    """What brings a surface to a profile."""

    GRIND = "grind"
    BLAST = "blast"
    BLAST_OR_SCARIFY = "blast-or-scarify"
    MILL = "mill"
    SKIM = "skim"
    REPAIR = "repair"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Method:
    preparation: Preparation
    low_csp: int
    high_csp: int


# Gentlest first. After the method table of ICRI 310.2R, from memory, each range drawn in to where its methods agree:
# grinding CSP 1-3, shot blasting 2-8, scarifying 4-8, scabbling and milling 8-10.
_METHODS = (
    _Method(preparation=Preparation.GRIND, low_csp=1, high_csp=2),
    _Method(preparation=Preparation.BLAST, low_csp=3, high_csp=3),
    _Method(preparation=Preparation.BLAST_OR_SCARIFY, low_csp=4, high_csp=8),
    _Method(preparation=Preparation.MILL, low_csp=9, high_csp=10),
)
SKIM_STEPS = 2
"""A surface up to this many CSP too rough can be skimmed; a rougher one is repaired."""


def preparation(*, csp: int, limits: Limits) -> Preparation | None:
    """What brings a surface from one profile to those that a system asks.

    Parameters
    ----------
    csp : int
        Concrete surface profile, ICRI 310.2R, 1 to 10.
    limits : Limits
        The profiles that the system asks.

    Returns
    -------
    Preparation or None
        Too smooth: the gentlest method that reaches the least profile asked. Too rough: skim, or repair when it is
        rougher by more than two. None when the profile will do.

    Examples
    --------
    >>> preparation(csp=1, limits=Limits(low=3, high=5)), preparation(csp=9, limits=Limits(low=3, high=5))
    (<Preparation.BLAST: 'blast'>, <Preparation.REPAIR: 'repair'>)

    References
    ----------
    ICRI 310.2R, Selecting and Specifying Concrete Surface Preparation for Sealers, Coatings, Polymer
    Overlays, and Concrete Repair (its method table from memory).
    """
    if limits.low is not None and csp < limits.low:
        low = limits.low
        return next(method.preparation for method in _METHODS if low <= method.high_csp)
    if limits.high is not None and csp > limits.high:
        return Preparation.SKIM if csp - limits.high <= SKIM_STEPS else Preparation.REPAIR
    return None
