"""Pull-off strength of the surface: what the mean and the weakest of several tests say."""

from __future__ import annotations

from collections.abc import Sequence

from gaugerake.floor.job import PullOff, PullOffFailure
from gaugerake.floor.slab.verdict import Verdict, at_least, worst
from gaugerake.floor.values.frozen import dataclass

TESTS = 3
"""How many make a mean."""
WEAKEST_FRACTION = 0.75
"""No single test may be under this fraction of the limit (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PullOffJudgement:
    """What a set of tests comes to.

    ``verdicts`` is one for each test: a glue failure is untested, as it says nothing of the slab. ``weakest`` is the
    index of the weakest that counts; it and ``mean_pa`` are None when none counts.
    """

    verdict: Verdict
    verdicts: tuple[Verdict, ...]
    mean_pa: float | None
    weakest: int | None
    counted: int


def judge_pull_off(*, tests: Sequence[PullOff], limit_pa: float) -> PullOffJudgement:
    """Judge pull-off tests by their mean and their weakest.

    Parameters
    ----------
    tests : sequence of PullOff
        As given; those that broke in the glue are left out.
    limit_pa : float [Pa]
        The least mean.

    Returns
    -------
    PullOffJudgement
        To be mended when the mean is under the limit or a single test under 75 % of it.

    Examples
    --------
    >>> tests = [PullOff(strength_pa=2.1e6), PullOff(strength_pa=2.0e6), PullOff(strength_pa=0.9e6)]
    >>> judged = judge_pull_off(tests=tests, limit_pa=1.4e6)
    >>> judged.verdict, judged.mean_pa, judged.weakest
    (<Verdict.FIX: 'fix'>, 1666666.7, 2)

    References
    ----------
    ASTM C1583 and ASTM D7234 (the tests); the 75 % is common practice, no source.
    """
    counted = {index: test.strength_pa for index, test in enumerate(tests) if test.failure != PullOffFailure.GLUE}
    if not counted:
        return PullOffJudgement(
            verdict=Verdict.UNTESTED,
            verdicts=tuple(Verdict.UNTESTED for _ in tests),
            mean_pa=None,
            weakest=None,
            counted=0,
        )
    mean = sum(counted.values()) / len(counted)
    # where the mean fails, every test under the limit is at fault; where it holds, only one that is far under it
    floor = WEAKEST_FRACTION * limit_pa if at_least(value=mean, low=limit_pa) else limit_pa
    found = {index: Verdict.GO if at_least(value=pa, low=floor) else Verdict.FIX for index, pa in counted.items()}
    return PullOffJudgement(
        verdict=worst(found.values()),
        verdicts=tuple(found.get(index, Verdict.UNTESTED) for index in range(len(tests))),
        mean_pa=mean,
        weakest=min(counted, key=counted.__getitem__),
        counted=len(counted),
    )
