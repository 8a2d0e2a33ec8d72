"""A client of openapi-generator for Python: jobs of its types, and what it reads of the answers."""

import json
import sys
from pathlib import Path

import floors
from floors.models import AreaMeasure, Job, JobMeasured, JobRoom, JobShape, JobShapeMeasured, Problem

url, file = sys.argv[1:]
document = json.loads(Path(file).read_text("utf-8"))
quotes = floors.QuotesApi(floors.ApiClient(floors.Configuration(host=url)))
shape = JobShape(JobShapeMeasured(measured=JobMeasured(area=AreaMeasure("1200 sq ft"))))
least = Job(system="level-clear", rooms=[JobRoom(name="Floor", shape=shape)])
answers = [quotes.make_quote(job) for job in (least, Job.from_dict(document))]
for answer in answers:
    assert answer.readiness.checks[0].check
    assert {type(check.measured.actual_instance) for check in answer.readiness.checks if check.measured}
assert quotes.make_quote(least, parts=["order", "readiness"]).order.totals.gross == answers[0].quantities.totals.gross
assert quotes.draw_quote_code(answers[0].token).endswith(b"</svg>")
lines = floors.BatchesApi(quotes.api_client).make_quotes(least.to_json() + "\n")
assert json.loads(lines)["fingerprint"] == answers[0].fingerprint
try:
    quotes.make_quote(Job(system="levle-clear", rooms=least.rooms))
except floors.ApiException as error:
    problem = error.data
assert isinstance(problem, Problem)
found = {
    "gross": [answer.quantities.totals.gross for answer in answers],
    "pointers": [error.pointer for error in problem.errors],
}
sys.stdout.write(json.dumps(found))
