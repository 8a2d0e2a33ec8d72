"""Spoiled requests: whatever is done to the bytes of a sound job, the answer is an answer or a problem."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest
from tests.builders import client_of
from tests.contract.mangling import mangled

from gaugerake.catalogue.store.demo import demo_snapshot

CLIENT = client_of(demo_snapshot())


@pytest.mark.parametrize("first", range(0, 2500, 500))
def test_a_spoiled_job_is_answered_or_refused_and_breaks_nothing(first: int) -> None:
    seen: Counter[int] = Counter()
    for seed in range(first, first + 500):
        path, body = mangled(seed)
        response = CLIENT.post(path, data=body, content_type="application/json")
        seen[response.status_code] += 1
        assert response.status_code in (200, 400, 413, 422), (seed, path, body)
        if response.status_code == 200:
            assert response.content_type == "application/json"
        else:
            _is_a_problem(response)
    assert min(seen[200], seen[400], seen[422]) > 20, seen


def _is_a_problem(response: Any) -> None:
    assert response.content_type == "application/problem+json"
    problem = response.get_json(force=True)
    assert problem["status"] == response.status_code
    assert problem["detail"]
    assert problem["code"] in ("invalid-job", "refused-job") or response.status_code != 422
    assert all(error["detail"] and error["hint"] for error in problem["errors"] if response.status_code == 422)
