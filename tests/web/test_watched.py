"""The rows in which the threads of a worker write what they work on."""

import os
import time

import pytest

from gaugerake.web.watched import ROW, WorkerRows, at_work


@pytest.mark.filterwarnings("ignore:.*fork.*:DeprecationWarning")  # the child only writes and is gone
def test_what_is_worked_on_is_seen_by_another_process() -> None:
    rows = WorkerRows(2)
    child = os.fork()
    if child == 0:
        rows.row(1).begin("one", "POST", "/v1/quotes")
        os._exit(0)
    os.waitpid(child, 0)
    [found] = rows.over(0)
    assert found[:3] == ("one", "POST", "/v1/quotes")
    assert 0 <= time.monotonic() - found.began_s < 60


def test_each_is_told_once_and_only_while_it_lasts() -> None:
    rows = WorkerRows(2)
    row, other = rows.row(0), rows.row(1)
    row.begin("one", "GET", None)
    other.begin("two", "GET", "/v1/units")
    other.end()
    assert [*rows.over(1000)] == []
    assert [found.request_id for found in rows.over(0)] == ["one"]
    assert [*rows.over(0)] == []
    row.begin("three", "GET", None)
    assert [found.request_id for found in rows.over(0)] == ["three"]
    other.begin("four", "GET", None)
    assert [found.request_id for found in rows.over(0)] == ["four"]
    row.end()
    other.end()
    assert [*rows.over(0)] == []


def test_what_is_longer_than_its_place_is_cut() -> None:
    rows = WorkerRows(2)
    rows.row(0).begin("é" * 100, "LONGMETHOD", "/" * 500)
    rows.row(1).begin("two", "GET", "/v1")
    one, two = rows.over(0)
    assert (len(one.request_id), one.method, len(one.route)) == (32, "LONGMETH", 128)
    assert two[:3] == ("two", "GET", "/v1")


def test_a_batch_is_at_work_line_by_line() -> None:
    rows = WorkerRows(1)
    row = rows.row(0)
    row.begin("batch", "POST", "/v1/batches")
    row.end()
    assert [*rows.over(0)] == []
    with at_work({ROW: row}):
        assert [found.request_id for found in rows.over(0)] == ["batch"]
    with pytest.raises(ZeroDivisionError), at_work({ROW: row}):
        raise ZeroDivisionError
    assert [*rows.over(0)] == []
    with at_work({}):  # not under gunicorn
        assert [*rows.over(0)] == []
