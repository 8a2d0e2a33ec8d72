"""What a room takes of a poured layer, at each place of its floor."""

from __future__ import annotations

from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.takeoff import BuildUp
from gaugerake.floor.layers.volumes import body_volume
from gaugerake.floor.room.keyway import keyway_volume
from gaugerake.floor.room.sweep import Fill
from gaugerake.floor.room.takeoff import RoomTakeoff


def fill_of(*, build: BuildUp, layer: Layer, room: RoomTakeoff) -> Fill:
    """Give what a room takes of a poured layer over its area, and along its keyways.

    Parameters
    ----------
    build : BuildUp
        The rooms as measured, and the layers that take part.
    layer : Layer
        One of them that is poured.
    room : RoomTakeoff
        One of the rooms.

    Returns
    -------
    Fill
        The layer's share of the thickness; of the first pour the profile's depth and the keyways too. Over the whole
        room it comes to what the layer's own measure says.

    Raises
    ------
    ValueError
        When the layer is not poured.

    Examples
    --------
    Half of 6 mm on a slab whose texture takes 0.4 mm; its keyways are twice the thickness wide and deep.

    >>> from gaugerake.floor.layers.body import BodyLayer
    >>> from gaugerake.floor.layers.volumes import ProfileAllowance
    >>> from gaugerake.floor.product import CountedIn, Product
    >>> from gaugerake.floor.room.keyway import Keyway
    >>> body = BodyLayer(id="body", name="Body", share_fraction=0.5,
    ...                  product=Product(code="body", name="Body", counted_in=CountedIn.MIX, packs=()))
    >>> room = RoomTakeoff(
    ...     index=0, name="Hall", gross_area_m2=40.0, area_m2=40.0, perimeter_m=28.0, shorter_side_m=4.0,
    ...     thickness_m=0.006, csp=4, keyway_length_m=27.0, moving_joint_length_m=0.0, sealant_volume_m3=0.0,
    ...     repair_volume_m3=0.0, cove_length_m=0.0, cove_height_m=0.0, outline_m=(), inset_m=())
    >>> build = BuildUp(rooms=(room,), layers=(body,), waste_fraction=0.05, keyway=Keyway(offset_m=0.1, ratio=2.0),
    ...                 profile_allowance=(ProfileAllowance(csp=4, depth_m=0.0004),))
    >>> fill_of(build=build, layer=body, room=room)
    Fill(depth_m=0.0034, section_m2=0.000144)
    """
    if layer.pour is None:
        raise ValueError(f"{layer.id} is not poured")
    thickness_m = room.thickness_m or 0.0
    depth_m = body_volume(area_m2=1.0, thickness_m=thickness_m, share_fraction=layer.pour.share_fraction)
    if not build.is_first_pour(layer):
        return Fill(depth_m=depth_m, section_m2=0.0)
    ratio = 0.0 if build.keyway is None else build.keyway.ratio
    return Fill(
        depth_m=depth_m + build.profile_depth_m(room),
        section_m2=keyway_volume(length_m=1.0, ratio=ratio, thickness_m=thickness_m),
    )
