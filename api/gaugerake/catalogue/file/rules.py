"""What the layers of a system must be to one another; each rule tells the place of what breaks it."""

from __future__ import annotations

import math
from itertools import pairwise

from gaugerake.catalogue.file.layers import LayerEntry
from gaugerake.catalogue.file.nodes import Entries, Node
from gaugerake.floor.cure.curve import COLUMNS, TimeCurve, time_at
from gaugerake.floor.layers.facts import Asked, Laid
from gaugerake.floor.system import SlabLimits, Thickness


def check_layers(placed: list[LayerEntry]) -> None:
    """Tell every rule that the layers break."""
    work = [entry for entry in placed if entry.layer.laid is not Laid.BESIDE]
    _cove_first(work)
    _shares(work)
    _broadcasts(work)
    _cures(work)
    _sundries(placed)
    _colours(placed)


def check_thickness(node: Node, placed: list[LayerEntry], thickness: Thickness | None, *, keyway: bool) -> None:
    """Tell when there is a body without a thickness, or a keyway without a body."""
    body = next((entry for entry in placed if entry.layer.pour), None)
    if body and thickness is None:
        node.fault(
            "a body needs the thickness of the system: write thickness: {low: 5/32 in, usual: 3/16 in, high: 3/8 in}"
        )
    if keyway and body is None:
        _at(node, "keyway").fault("there is no body to fill a keyway: leave it out")


def check_raises(placed: list[LayerEntry], limits: SlabLimits) -> None:
    """Tell when a layer raises a moisture limit that the system does not state, or to no more than it states."""
    for node, layer in placed:
        raised, place = layer.raises, _at(node, "raises")
        if raised is None:
            continue
        for name, to, stated in (
            ("relative_humidity", raised.relative_humidity_percent, limits.relative_humidity_percent),
            ("moisture_emission", raised.moisture_emission_kg_m2_s, limits.moisture_emission_kg_m2_s),
        ):
            if to is not None and stated is None:
                _at(place, name).fault(f"slab_limits states no {name} to raise: write it there, or leave this out")
            elif to is not None and stated is not None and to <= stated:
                _at(place, name).fault(f"this is no higher than the {name} of slab_limits: write the higher limit here")


def _at(node: Node, key: str) -> Node:
    return node.entries.get(key, node) if isinstance(node, Entries) else node


def _cove_first(work: list[LayerEntry]) -> None:
    climbs: LayerEntry | None = None
    for entry in work:
        if entry.layer.follows_cove:
            climbs = climbs or entry
        elif Asked.COVE in entry.layer.does and climbs:
            cove, kind, line = entry.layer.kind, climbs.layer.kind, climbs.node.line
            entry.node.fault(f"this {cove} comes after the {kind} on line {line} that climbs it: move it before")


def _shares(work: list[LayerEntry]) -> None:
    for node, layer in work:
        if layer.optional and not layer.may_be_optional:
            _at(node, "optional").fault(f"a {layer.kind} cannot be optional: make it a system of its own")
    pours = [(node, layer.pour) for node, layer in work if layer.pour]
    total = sum(pour.share_fraction for _, pour in pours)
    if not pours or math.isnan(total) or math.isclose(total, 1, abs_tol=1e-6):
        return
    node = _at(pours[-1][0], "share")
    node.fault(f"the shares of the body layers add to {total:.6g}, not to 1: write share for each, such as 0.5 and 0.5")


def _broadcasts(work: list[LayerEntry]) -> None:
    for before, entry in pairwise([None, *work]):
        if entry and entry.layer.laid is Laid.INTO:
            _held(before, entry)
    for entry, after in pairwise([*work, None]):
        if entry and entry.layer.pour:
            followed = after is not None and after.layer.laid is Laid.INTO
            if entry.layer.pour.broadcast_wait and not followed:
                _at(entry.node, "broadcast_wait").fault("no broadcast follows this body: leave broadcast_wait out")


def _held(before: LayerEntry | None, entry: LayerEntry) -> None:
    if before is None or not before.layer.holds_aggregate:
        entry.node.fault("there is nothing wet before this broadcast to hold it: put it after a body, primer or coat")
    elif before.layer.optional and not entry.layer.optional and before.layer.may_be_optional:
        entry.node.fault(
            f"the {before.layer.kind} that holds this broadcast is optional: make both optional or neither"
        )
    elif before.layer.cure:
        _at(before.node, "cure").fault(
            "a broadcast is cast into this layer while wet: give the cure to the broadcast instead"
        )


def _cures(work: list[LayerEntry]) -> None:
    last = len(work) - 1
    for index, entry in enumerate(work):
        node, layer = entry
        follows = work[index + 1].layer if index < last else None
        if layer.cure and layer.recoat_closes:
            _window(node, layer.cure, layer.recoat_closes)
        elif layer.recoat_closes and "cure" not in _keys(node):
            _at(node, "recoat_closes").fault("a recoat that closes needs a cure that opens it: write cure")
        elif follows and not layer.cure and layer.bonds and follows.laid is not Laid.INTO:
            node.caution(f"no cure: the {follows.kind} after this {layer.kind} may go on at once. Is that meant?")


def _keys(node: Node) -> frozenset[str]:
    return frozenset(node.entries) if isinstance(node, Entries) else frozenset()


def _window(node: Node, cure: TimeCurve, closes: TimeCurve) -> None:
    """Tell when the recoat closes before the cure ends, at any temperature that either table names."""
    for temperature_k in sorted({*cure.temperatures_k, *closes.temperatures_k}):
        ends, shuts = _times(cure, temperature_k), _times(closes, temperature_k)
        if any(shut < end * (1 - 1e-9) for end, shut in zip(ends, shuts, strict=True)):
            celsius = temperature_k - 273.15
            _at(node, "recoat_closes").fault(
                f"at {celsius * 1.8 + 32:.4g} degF ({celsius:.4g} degC) the recoat closes before the cure ends"
                f" ({_hours(shuts)} against {_hours(ends)}, low/likely/high)"
            )
            return


def _times(curve: TimeCurve, temperature_k: float) -> tuple[float, ...]:
    return tuple(time_at(curve, temperature_k=temperature_k, column=column) for column in COLUMNS)


def _hours(times_s: tuple[float, ...]) -> str:
    return "/".join(f"{time_s / 3600:.3g}" for time_s in times_s) + " h"


def _sundries(placed: list[LayerEntry]) -> None:
    used = {entry.layer.product.code for entry in placed if entry.layer.laid is not Laid.BESIDE}
    for node, layer in placed:
        counted = layer.per_mix.product if layer.per_mix else ""
        if counted and counted not in used:
            _at(node, "per").fault(f'no layer of this system takes "{counted}", so its mixes cannot be counted')


def _colours(placed: list[LayerEntry]) -> None:
    """Tell when two products of a system come in different colours, as an order names one colour for all."""
    first: tuple[str, set[str]] | None = None
    for node, layer in placed:
        colours = {pack.colour for pack in layer.product.packs if pack.colour}
        if colours and first is None:
            first = (layer.product.code, colours)
        elif colours and first and colours != first[1]:
            differing = ", ".join(sorted(colours ^ first[1]))
            node.caution(f'"{layer.product.code}" and "{first[0]}" do not come in the same colours: {differing}')
            return
