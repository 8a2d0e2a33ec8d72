"""What an answer holds where a part of it is refused."""

from __future__ import annotations

from typing import Any, NewType

Problem = NewType("Problem", dict[str, Any])
"""A problem (RFC 9457) in plain values, as the edge tells it; no answer looks into it."""
