"""A short search for what is dear. It draws a seed and tells it, so that each run looks elsewhere.

For hours, and with a seed of one's own: ``tests/bench/seek``.
"""

from __future__ import annotations

import random

from tests.contract.seek_catalogues import MOST_S_PER_MB, check, dearest
from tests.contract.seeking import Search

REQUESTS = 400
FILES = 20


def test_no_request_that_a_search_finds_is_too_dear_or_too_long() -> None:
    seed = random.SystemRandom().randrange(10**6)
    search = Search(seed)
    for _ in range(REQUESTS):
        search.step()
    assert [one.lines() for one in search.dear] == [], f"seed {seed}"
    assert max(one.weighed.least_quotes for one in search.best[0]) > 5, "nothing dear was tried"


def test_no_catalogue_file_that_a_search_finds_takes_too_long_for_its_length() -> None:
    seed = random.SystemRandom().randrange(10**6)
    worst = dearest(seed, FILES)[0]
    again = min(check(worst.text).s_per_mb for _ in range(3))
    assert again <= MOST_S_PER_MB, f"seed {seed}: {worst.text[:200]}"
