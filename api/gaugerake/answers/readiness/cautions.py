"""What to beware of when a slab is tested and made ready."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from gaugerake.answers.job.context import Context
from gaugerake.answers.readiness.base import CheckName, say
from gaugerake.answers.readiness.climate import caution_products
from gaugerake.answers.readiness.layout import caution_drains
from gaugerake.floor.slab.surface import COVERINGS, contaminant
from gaugerake.floor.slab.verdict import Verdict

if TYPE_CHECKING:
    from gaugerake.answers.readiness.answer import Readiness

# what is mended by taking concrete off
_GROUND = frozenset({CheckName.PROFILE, CheckName.CONTAMINANTS, CheckName.PULL_OFF, CheckName.ABSORPTION})
_COLD = frozenset({"check-slab-temperature-below", "check-air-temperature-below", "check-dew-point-spread-below"})


def caution_readiness(context: Context, answer: Readiness) -> None:
    """Note what can hurt people or the slab on the way to a slab that is ready, and what each check leaves unsaid."""
    record = context.record
    for index, word in enumerate(context.job.slab.contaminants or ()):
        if contaminant(word) in COVERINGS:
            record.caution("old-coverings", f"/slab/contaminants/{index}", word)
    _caution_work(context, answer)
    if answer.condensation:
        first = answer.condensation[0]
        record.caution(
            "condensation-ahead",
            "/work/temperatures",
            count=len(answer.condensation),
            begins=_clock(first.from_),
            ends=_clock(first.until),
        )
    caution_drains(context)
    caution_products(context)
    for check in answer.checks:
        # of joints left unsaid the layout says more
        if check.verdict is Verdict.UNTESTED and check.check is not CheckName.JOINTS:
            record.lack("check-untested", check.pointer, name=say(f"name-{check.check}"))


def _caution_work(context: Context, answer: Readiness) -> None:
    """What the preparation does to people: sawing, dust, heat."""
    to_mend = [check for check in answer.checks if check.verdict is Verdict.FIX]
    saws = context.system.keyway is not None
    if saws:
        context.record.caution("before-sawing")
    if saws or any(check.check in _GROUND for check in to_mend):
        context.record.caution("concrete-dust")
    if any(check.because.code in _COLD or check.check is CheckName.DAMP for check in to_mend):
        context.record.caution("indirect-heat")


def _clock(instant: datetime) -> str:
    return instant.strftime("%Y-%m-%d %H:%M")
