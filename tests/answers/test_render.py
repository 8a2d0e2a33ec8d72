"""How answers are shown by several threads at once."""

import pytest

from gaugerake.answers.show import render as module
from gaugerake.answers.show.reader import US_READER
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Inner:
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Outer:
    first: Inner
    second: Inner


def test_of_two_threads_that_write_out_a_class_at_once_the_first_ones_stays(monkeypatch: pytest.MonkeyPatch) -> None:
    """A new worker's first requests come together: what one thread has put down, the other must not replace."""
    overtaken = {Inner: 0, Outer: 0}
    write_out = module._renderer

    def overtake(kind: type) -> module.Renderer:
        made = write_out(kind)
        if overtaken[kind] == 0:
            overtaken[kind] = 1
            firsts.append(module._RENDERERS[kind])  # the other thread, between the making and the putting down
        return made

    firsts: list[module.Renderer] = []
    monkeypatch.setattr(module, "_renderer", overtake)
    assert module._RENDERERS[Outer] is firsts[-1]
    assert module._RENDERERS[Inner] is firsts[0]
    answer = Outer(first=Inner(count=1), second=Inner(count=2))
    assert module.render(answer, US_READER) == {"first": {"count": 1}, "second": {"count": 2}}
