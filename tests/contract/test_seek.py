"""A short search for what is dear. Each commit looks elsewhere, and tells its seed.

For hours, and with a seed of one's own: ``tests/bench/seek``.
"""

from __future__ import annotations

from tests.contract.seek_catalogues import MOST_S_PER_MB, check, dearest
from tests.contract.seeking import Search
from tests.seeds import seed_for

REQUESTS = 400
FILES = 20


def test_no_request_that_a_search_finds_is_too_dear_or_too_long() -> None:
    seed = seed_for("requests")
    search = Search(seed)
    for _ in range(REQUESTS):
        search.step()
    assert [one.told() for one in search.dear] == [], f"seed {seed}"
    assert max(one.weighed.least_quotes for one in search.best[0]) > 5, "nothing dear was tried"


def test_no_catalogue_file_that_a_search_finds_takes_too_long_for_its_length() -> None:
    seed = seed_for("catalogues")
    worst = dearest(seed, FILES)[0]
    again = min(check(worst.text).s_per_mb for _ in range(3))
    assert again <= MOST_S_PER_MB, f"seed {seed}: {worst.text[:200]}"
