"""The secrets that sign quotes are changed one for the other: a link opens as long as its secret is listed."""

from pathlib import Path

import requests
from tests.builders import document
from tests.service import running

JOB = document()
OLD, NEW = "the secret of last spring", "the secret of this autumn"


def opened(address: str, token: str) -> requests.Response:
    return requests.get(f"{address}/v1/quotes/{token}", timeout=30)


def test_a_secret_is_changed_without_ending_a_link_before_its_time(tmp_path: Path) -> None:
    with running(tmp_path, GAUGERAKE_SECRETS=OLD) as address:
        made = requests.post(f"{address}/v1/quotes", json=JOB, timeout=30)
    token = made.json()["token"]
    with running(tmp_path, GAUGERAKE_SECRETS=f"{NEW},{OLD}") as address:
        assert opened(address, token).content == made.content
        newer = requests.post(f"{address}/v1/quotes", json=JOB, timeout=30).json()["token"]
        assert newer != token
    with running(tmp_path, GAUGERAKE_SECRETS=NEW) as address:
        assert opened(address, newer).status_code == 200
        gone = opened(address, token)
        assert (gone.status_code, gone.json()["code"]) == (404, "no-such-quote")
        nonsense = opened(address, "nonsense")
        assert gone.json()["detail"] == nonsense.json()["detail"], "a link of another's is told as any text is"
