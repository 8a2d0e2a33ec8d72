"""The rows in which the threads of a worker write what they work on."""

import os
import time

import pytest

from gaugerake.web.watched import ROW, Hand, at_work


@pytest.mark.filterwarnings("ignore:.*fork.*:DeprecationWarning")  # the child only writes and is gone
def test_what_is_worked_on_is_seen_by_another_process() -> None:
    hand = Hand(2)
    child = os.fork()
    if child == 0:
        hand.row(1).begin("one", "POST", "/v1/quotes")
        os._exit(0)
    os.waitpid(child, 0)
    [found] = hand.over(0)
    assert found[:3] == ("one", "POST", "/v1/quotes")
    assert 0 <= time.monotonic() - found.began_s < 60


def test_each_is_told_once_and_only_while_it_lasts() -> None:
    hand = Hand(2)
    row, other = hand.row(0), hand.row(1)
    row.begin("one", "GET", None)
    other.begin("two", "GET", "/v1/units")
    other.end()
    assert [*hand.over(1000)] == []
    assert [found.request_id for found in hand.over(0)] == ["one"]
    assert [*hand.over(0)] == []
    row.begin("three", "GET", None)
    assert [found.request_id for found in hand.over(0)] == ["three"]
    other.begin("four", "GET", None)
    assert [found.request_id for found in hand.over(0)] == ["four"]
    row.end()
    other.end()
    assert [*hand.over(0)] == []


def test_what_is_longer_than_its_place_is_cut() -> None:
    hand = Hand(2)
    hand.row(0).begin("é" * 100, "LONGMETHOD", "/" * 500)
    hand.row(1).begin("two", "GET", "/v1")
    one, two = hand.over(0)
    assert (len(one.request_id), one.method, len(one.route)) == (32, "LONGMETH", 128)
    assert two[:3] == ("two", "GET", "/v1")


def test_a_batch_is_at_work_line_by_line() -> None:
    hand = Hand(1)
    row = hand.row(0)
    row.begin("batch", "POST", "/v1/batches")
    row.end()
    assert [*hand.over(0)] == []
    with at_work({ROW: row}):
        assert [found.request_id for found in hand.over(0)] == ["batch"]
    with pytest.raises(ZeroDivisionError), at_work({ROW: row}):
        raise ZeroDivisionError
    assert [*hand.over(0)] == []
    with at_work({}):  # not under gunicorn
        assert [*hand.over(0)] == []
