"""What the web edge itself refuses. The tree, which holds data and no status codes::

Refusal
├── Unreadable        a body that is not the JSON that is read here
│   ├── EmptyBody
│   ├── NotUtf8       another encoding, or a byte order mark
│   ├── NotJson       broken, or a number or text that JSON does not have
│   ├── BadNumber     NaN, Infinity, more digits than are read
│   ├── TooDeep
│   └── DoubledField  a member that stands twice in one object
├── TooLarge
├── WrongMediaType    no media type, or not JSON's
├── WrongBatchType    no media type, or not that of lines of JSON
├── BatchTooLarge     more jobs, or more bytes of them, than one batch may have
├── BatchCutShort     a batch that ended before it was whole
├── EncodedBody       a content coding
├── HeaderTooLong     ``name`` has more characters than are read, ``most``
├── NotAcceptable     asks for a form that is not made here
├── BadParameter      an unknown query parameter, or a value that it cannot have
├── NotNamed          a resource that is not there
├── KeyNeeded         no key, where the service asks for one
├── KeyUnknown        a key that is none, or no longer
├── OriginNotAllowed  a page of an origin that the key is not for
├── OtherPriceBook    another price book than the key's
├── TooManyExplained  working for more rooms than are explained; ``most``
├── TooManyCompared   more entries in all choices than are compared; ``most``
├── QuoteGone         a quote of ours whose catalogue or prices are no longer kept
└── Unavailable       no catalogue to answer from
"""

from __future__ import annotations

from collections.abc import Mapping

from gaugerake.floor.values.note import Value
from gaugerake.web.errors.finding import LocatedFinding

MOST_BYTES = 256 * 1024
"""The longest body, and the longest line of a batch."""


class Refusal(Exception):
    """Something that a client asked and that is not done; ``params`` fill the sentence, ``places`` say where."""

    def __init__(self, *places: LocatedFinding, **params: Value) -> None:
        super().__init__(type(self).__name__)
        self.places = places
        self.params: Mapping[str, Value] = params


class Unreadable(Refusal):
    """A body that is not the JSON that is read here."""


class EmptyBody(Unreadable):
    """No body at all."""


class NotUtf8(Unreadable):
    """Another encoding than UTF-8, or a byte order mark."""


class NotJson(Unreadable):
    """Broken JSON; ``line``, ``column`` and ``what`` say where and how."""


class BadNumber(Unreadable):
    """NaN, Infinity, or a number with more digits than are read."""


class TooDeep(Unreadable):
    """Nested deeper than anything that is understood."""


class DoubledField(Unreadable):
    """A member that stands twice in one object."""


class TooLarge(Refusal):
    """More bytes than are read."""


class WrongMediaType(Refusal):
    """No media type, or not that of JSON."""


class WrongBatchType(Refusal):
    """No media type, or not that of lines of JSON."""


class BatchTooLarge(Refusal):
    """More jobs, or more bytes of them, than one batch may have."""


class BatchCutShort(Refusal):
    """A batch whose body ended before it was whole."""


class EncodedBody(Refusal):
    """A body with a content coding."""


class HeaderTooLong(Refusal):
    """A header with more characters than are read; ``name`` and ``most`` say which and how many."""


class NotAcceptable(Refusal):
    """The client accepts none of the forms in which the answer is made."""


class BadParameter(Refusal):
    """A query parameter that is unknown or cannot have its value."""


class QuoteGone(Refusal):
    """A quote of ours whose catalogue revision or price list is no longer kept."""


class NotNamed(Refusal):
    """A resource that is not there; ``name`` is what was asked for."""


class KeyNeeded(Refusal):
    """No key, where the service asks for one."""


class KeyUnknown(Refusal):
    """A key that is none, or no longer; which of them is not told."""


class OriginNotAllowed(Refusal):
    """A page of an origin that the key is not for; ``origin`` is that of the page."""


class OtherPriceBook(Refusal):
    """Another price book than the key's."""


class TooManyExplained(Refusal):
    """Working asked for more rooms than are explained; ``most`` is how many are."""


class TooManyCompared(Refusal):
    """The choices of a comparison have more entries in their lists than are compared; ``most`` is how many are."""
