"""Seeds for tests that search at random: each commit searches elsewhere, and a run of one commit can be repeated."""

import subprocess
from hashlib import sha256
from pathlib import Path

SEEDS = 10**6


def seed_for(search: str) -> int:
    """The seed of a search by this commit; away from a repository it is the same each time."""
    asked = subprocess.run(["git", "rev-parse", "HEAD"], cwd=Path(__file__).parent, capture_output=True, check=False)
    return int.from_bytes(sha256(asked.stdout + search.encode()).digest()[:8], "big") % SEEDS
