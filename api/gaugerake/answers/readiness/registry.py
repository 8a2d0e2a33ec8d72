"""Every check, in the order in which a person would do them, which is their order in an answer.

An entry holds all that is particular to its check (see ``CheckEntry``); nothing else lists them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from gaugerake.answers.job.sources import LIMITS, PRACTICE, both
from gaugerake.answers.readiness.checks import climate, concrete, layout, moisture, surface
from gaugerake.answers.readiness.entry import CheckEntry, roomed
from gaugerake.answers.readiness.explain_air import air_humidity_from, air_temperature_from, floor_from, spread_from
from gaugerake.answers.readiness.moisture_tests import EMISSION, HUMIDITY
from gaugerake.floor.job import PullOffFailure
from gaugerake.floor.slab.surface import Contaminant, Preparation, Substrate
from gaugerake.floor.values.note import OpenWord, Say

CHECKS = (
    CheckEntry(
        name="substrate",
        source=LIMITS,
        judge=concrete.substrate_check,
        because=("untested", *Substrate, "unknown"),
        do=("untested", "other"),
        stops=True,
        remarks=concrete.substrate_remarks,
    ),
    CheckEntry(
        name=concrete.AGE,
        source=LIMITS,
        judge=concrete.age_check,
        because=("untested", "within", "below"),
        do=("untested", "below", "until"),
        remarks=concrete.age_remarks,
        measured_from=concrete.age_from,
    ),
    CheckEntry(
        name="strength",
        source=both(LIMITS, Say(code="source-strength-test")),
        judge=concrete.strength_check,
        because=("untested", "within", "below"),
        do=("untested", "young", "below"),
        stops=True,
        remarks=concrete.age_remarks,
    ),
    CheckEntry(
        name="damp",
        source="ASTM D4263",
        judge=moisture.damp_check,
        because=("untested", "no", "yes"),
        do=("untested", "yes"),
        warmed=("yes",),
    ),
    CheckEntry(
        name=EMISSION,
        source=both(LIMITS, moisture.DISH_TEST),
        judge=moisture.emission_check,
        because=("untested", *roomed("within", "above", "raised", "exposure")),
        do=("untested", "exposure", "raised", "above"),
        stops=True,
        remarks=moisture.emission_remarks,
        measured_from=moisture.wettest_emission,
        reading_from=moisture.emission_from,
        limit_from=moisture.emission_limit_from,
    ),
    CheckEntry(
        name=HUMIDITY,
        source=both(LIMITS, moisture.PROBE_TEST),
        judge=moisture.humidity_check,
        because=("untested", *roomed("within", "above", "raised", "shallow")),
        do=("untested", "shallow", "raised", "above"),
        stops=True,
        remarks=moisture.humidity_remarks,
        measured_from=moisture.wettest_humidity,
        limit_from=moisture.humidity_limit_from,
    ),
    CheckEntry(
        name="probe-depth",
        source=moisture.PROBE_TEST,
        judge=moisture.probe_depth_check,
        because=("untested", "thickness", "unsaid", "within", "below"),
        do=("untested", "below"),
        measured_from=moisture.shallowest,
        limit_from=moisture.depth_limit_from,
    ),
    CheckEntry(
        name="test-count",
        source=both(moisture.DISH_TEST, moisture.PROBE_TEST),
        judge=moisture.test_count_check,
        because=("within", "below", "area", "either"),
        do=("below", "area", "either"),
        measured_from=moisture.most_tests,
        limit_from=moisture.count_limit_from,
    ),
    CheckEntry(
        name="contaminants",
        source=both("ASTM F710", PRACTICE),
        judge=surface.contaminants_check,
        because=("untested", "none", "found", "unknown", "part-known"),
        do=("untested", "unknown", *Contaminant),
        ground=True,
        measured_from=surface.contaminants_from,
        limit_from=surface.no_contaminants,
    ),
    CheckEntry(
        name="absorption",
        source=both("ASTM F710", PRACTICE),
        judge=surface.absorption_check,
        because=("untested", "yes", "no"),
        do=("untested", "no"),
        ground=True,
    ),
    CheckEntry(
        name="ph",
        source=both(LIMITS, "ASTM F710"),
        judge=surface.ph_check,
        because=roomed("untested", "within", "above", "below"),
        do=("untested", "above", "below"),
        measured_from=surface.ph_from,
    ),
    CheckEntry(
        name="profile",
        source=both(LIMITS, "ICRI 310.2R"),
        judge=surface.profile_check,
        because=roomed("untested", "within", "below", "above"),
        do=("untested", *Preparation),
        ground=True,
        measured_from=surface.profile_from,
    ),
    CheckEntry(
        name=surface.PULL_OFF,
        source=both(LIMITS, surface.PULL_OFF_TEST),
        judge=surface.pull_off_check,
        because=("untested", "within", *roomed("below", "weakest", "one-over", "one-under", "one-glue")),
        do=("untested", *PullOffFailure, "unsaid"),
        ground=True,
        remarks=surface.pull_off_remarks,
        measured_from=surface.pull_off_from,
    ),
    CheckEntry(
        name="slope",
        source=LIMITS,
        judge=layout.slope_check,
        because=("untested", "within", "above"),
        do=("untested", "above"),
        measured_from=layout.steepest,
    ),
    CheckEntry(
        name=layout.JOINTS,
        source=PRACTICE,
        judge=layout.joints_check,
        because=("untested", "none", "within"),
        do=("untested",),
        remarks=layout.joints_remarks,
        measured_from=layout.joints_from,
    ),
    CheckEntry(
        name="thickness",
        source=LIMITS,
        judge=layout.thickness_check,
        because=("within", "below", "above"),
        do=("below", "above"),
        measured_from=layout.thickness_from,
    ),
    CheckEntry(
        name="slab-temperature",
        source=LIMITS,
        judge=climate.slab_temperature_check,
        because=("untested", "within", "below", "above"),
        do=("untested", "below", "above"),
        warmed=("below",),
        remarks=climate.floor_remarks,
        measured_from=floor_from,
    ),
    CheckEntry(
        name="air-temperature",
        source=LIMITS,
        judge=climate.air_temperature_check,
        because=("untested", "within", "below", "above"),
        do=("untested", "below", "above"),
        remarks=climate.air_remarks,
        measured_from=air_temperature_from,
        warmed=("below",),
    ),
    CheckEntry(
        name="air-humidity",
        source=LIMITS,
        judge=climate.air_humidity_check,
        because=("untested", "within", "below", "above"),
        do=("untested", "below", "above"),
        remarks=climate.air_remarks,
        measured_from=air_humidity_from,
    ),
    CheckEntry(
        name="dew-point-spread",
        source=both(LIMITS, "ISO 8502-4"),
        judge=climate.spread_check,
        because=("untested", "assumed", "within", "below", "colder"),
        do=("untested", "below"),
        warmed=("below", "colder"),
        remarks=climate.spread_remarks,
        measured_from=spread_from,
    ),
)

if TYPE_CHECKING:
    CheckName = OpenWord  # mypy reads no enumeration that is made from a list
else:
    CheckName = OpenWord(
        "CheckName", [(entry.name.upper().replace("-", "_"), entry.name) for entry in CHECKS], module=__name__
    )
