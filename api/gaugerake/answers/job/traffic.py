"""Classes of traffic as sentences name them: the trade's usual ones in words of ours, a catalogue's own as it is."""

from __future__ import annotations

from gaugerake.floor.values.note import Say, Words

USUAL = ("foot", "carts", "vehicle", "forklift", "washdown")


def traffic_words(traffic: str) -> Words:
    """A class of traffic in a sentence.

    >>> traffic_words("foot").code, traffic_words("pallet jacks")
    ('open-to-foot', 'pallet jacks')
    """
    return Say(code=f"open-to-{traffic}") if traffic in USUAL else traffic
