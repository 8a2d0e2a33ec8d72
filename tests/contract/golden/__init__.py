"""Jobs and their answers as each release gave them.

Decisions:

* ``.venv/bin/python -m tests.contract.golden.record`` records a release once, when it is made. Never record one again
  without an entry under "Changed results" in DEVELOPERS.md. Its description is kept the same way: ``gaugerake openapi >
  openapi/released/VERSION.yaml``.
"""
