"""The service in a process of its own, asked in JSON: nothing of ours comes into the tests but what it answers."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

SCRIPT = """
import json, sys
from gaugerake.catalogue.store.demo import demo_text
from gaugerake.catalogue.store.snapshot import snapshot_of
from gaugerake.web.server.app import create_app

class Source:
    stale_since = None
    def __init__(self, text):
        self.current = snapshot_of(text)
    def revision(self, revision):
        return self.current

text = open(sys.argv[1], encoding="utf-8").read() if sys.argv[1:] else demo_text()
client = create_app(Source(text), secrets=lambda: ["a secret for tests, of enough letters"]).test_client()
for line in sys.stdin:
    asked = json.loads(line)
    answer = client.post(asked["path"], json=asked["job"])
    print(json.dumps({"status": answer.status_code, "body": answer.get_json()}), flush=True)
"""


class Service:
    """Answers until it is closed; ``catalogue`` is a file, else the demonstration."""

    def __init__(self, catalogue: Path | None = None) -> None:
        command = [sys.executable, "-c", SCRIPT, *([] if catalogue is None else [str(catalogue)])]
        self._process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
        self._known: dict[str, dict[str, Any]] = {}

    def ask(self, path: str, job: dict[str, Any], *, units: str = "us", working: bool = True) -> dict[str, Any]:
        """The answer of ``/v1/<path>`` to a job; the same question is asked once."""
        query = f"units={units}&working=true" if working else f"units={units}"
        line = json.dumps({"path": f"/v1/{path}?{query}", "job": job})
        if line not in self._known:
            self._known[line] = self._answer(line)
        return self._known[line]

    def _answer(self, line: str) -> dict[str, Any]:
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        self._process.stdin.write(f"{line}\n")
        self._process.stdin.flush()
        answer = json.loads(self._process.stdout.readline())
        assert answer["status"] == 200, answer["body"]
        body: dict[str, Any] = answer["body"]
        return body

    def close(self) -> None:
        """End the process."""
        self._process.communicate(timeout=30)
