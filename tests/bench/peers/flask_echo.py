"""The bare peer: Flask reads a body and sends back bytes that it holds. Nothing can be served by Flask for less.

``BENCH_ANSWER`` names the file of those bytes: an answer of the service to such a job.
"""

import os
from pathlib import Path

from flask import Flask, Response, request

ANSWER = Path(os.environ["BENCH_ANSWER"]).read_bytes()

app = Flask(__name__, static_folder=None)


@app.post("/v1/quotes")
def echo() -> Response:
    """The same bytes to everyone."""
    request.get_data(cache=False)
    return Response(ANSWER, content_type="application/json")
