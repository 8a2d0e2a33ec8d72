"""Words for what a slab is and what lies on it, and what mends a profile."""

import pytest

from gaugerake.floor.job import PullOff, PullOffFailure
from gaugerake.floor.slab.pull_off import judge_pull_off
from gaugerake.floor.slab.surface import Contaminant, Preparation, Substrate, contaminant, preparation, substrate
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.range import Limits


@pytest.mark.parametrize("kind", list(Contaminant))
def test_every_kind_is_known_by_its_own_name(kind: Contaminant) -> None:
    assert contaminant(kind.value) is kind
    assert contaminant(kind.value.replace("-", " ").title()) is kind


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        ("Curing_Compound", Contaminant.CURING_COMPOUND),
        ("  oil   &  grease ", Contaminant.OIL_AND_GREASE),
        ("old black mastic residue", Contaminant.ADHESIVE),
        ("line marking paint", Contaminant.PAINT),
        ("paint dust", Contaminant.PAINT),  # what may hold lead goes before what is swept up
        ("adhesives", Contaminant.ADHESIVE),
        ("efflorescence", None),
        ("soiled", None),  # not oil
        ("Membrana de curado", Contaminant.CURING_COMPOUND),
        ("pintura epóxica vieja", Contaminant.PAINT),
        ("losetas vinílicas", Contaminant.TILE),
        ("restos de pegamento y polvo", Contaminant.ADHESIVE),  # what may hold asbestos goes before what is swept up
        ("aceite", Contaminant.OIL_AND_GREASE),
        ("linóleo", Contaminant.TILE),
        ("salitre", None),
        ("", None),
    ],
)
def test_words_for_contaminants(words: str, kind: Contaminant | None) -> None:
    assert contaminant(words) is kind


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        ("Concrete", Substrate.CONCRETE),
        ("concrete slab", Substrate.CONCRETE),
        ("lightweight concrete", Substrate.LIGHTWEIGHT),
        ("Quarry-Tiles", Substrate.TILE),
        ("plywood over concrete", None),
        ("Concreto", Substrate.CONCRETE),
        ("hormigón", Substrate.CONCRETE),
        ("concreto ligero", Substrate.LIGHTWEIGHT),
        ("losetas", Substrate.TILE),
        ("triplay sobre concreto", None),
        ("losa", None),  # of what?
    ],
)
def test_words_for_substrates(words: str, kind: Substrate | None) -> None:
    assert substrate(words) is kind


@pytest.mark.parametrize("low", range(1, 11))
@pytest.mark.parametrize("csp", range(1, 11))
def test_every_profile_has_its_remedy(csp: int, low: int) -> None:
    high = min(10, low + 2)
    method = preparation(csp=csp, limits=Limits(low=low, high=high))
    if csp < low:
        assert method in {Preparation.GRIND, Preparation.BLAST, Preparation.BLAST_OR_SCARIFY, Preparation.MILL}
    elif csp > high:
        assert method is (Preparation.SKIM if csp <= high + 2 else Preparation.REPAIR)
    else:
        assert method is None


def test_a_failure_in_the_glue_is_left_out() -> None:
    tests = [PullOff(strength_pa=1e5, failure=PullOffFailure.GLUE), PullOff(strength_pa=2e6)]
    judged = judge_pull_off(tests=tests, limit_pa=1.4e6)
    assert (judged.verdict, judged.mean_pa, judged.weakest, judged.counted) == (Verdict.GO, 2e6, 1, 1)
    assert judged.verdicts == (Verdict.UNTESTED, Verdict.GO)


@pytest.mark.parametrize("tests", [(), (PullOff(strength_pa=9e6, failure=PullOffFailure.GLUE),)])
def test_nothing_that_counts_is_untested(tests: tuple[PullOff, ...]) -> None:
    judged = judge_pull_off(tests=tests, limit_pa=1.4e6)
    assert (judged.verdict, judged.mean_pa, judged.counted) == (Verdict.UNTESTED, None, 0)


def test_three_quarters_of_the_limit_is_enough_for_one() -> None:
    at = [PullOff(strength_pa=0.75 * 1.4e6), PullOff(strength_pa=2e6), PullOff(strength_pa=2e6)]
    under = [PullOff(strength_pa=0.7499 * 1.4e6), *at[1:]]
    assert judge_pull_off(tests=at, limit_pa=1.4e6).verdict is Verdict.GO
    assert judge_pull_off(tests=under, limit_pa=1.4e6).verdicts == (Verdict.FIX, Verdict.GO, Verdict.GO)
