"""What every layer of a job needs."""

from __future__ import annotations

from gaugerake.floor.layers.facts import Laid
from gaugerake.floor.layers.takeoff import BuildUp, LayerNeed


def layer_needs(*, build: BuildUp) -> tuple[LayerNeed, ...]:
    """Give the needs of the layers that the job gives something to do, in the order of the work.

    Parameters
    ----------
    build : BuildUp
        The rooms as measured, and the layers that take part.

    Returns
    -------
    tuple of LayerNeed
        What is used up beside the layers comes in its place, though it is worked out last, from what they need.

    Examples
    --------
    >>> layer_needs(build=BuildUp(rooms=(), layers=(), waste_fraction=0.05))
    ()
    """
    beside = [layer.laid is Laid.BESIDE for layer in build.layers]
    laid = [None if by else layer.need(build, ()) for layer, by in zip(build.layers, beside, strict=True)]
    before = [need for need in laid if need is not None]
    needs = [
        layer.need(build, before) if by else need for layer, by, need in zip(build.layers, beside, laid, strict=True)
    ]
    return tuple(need for need in needs if need is not None)
