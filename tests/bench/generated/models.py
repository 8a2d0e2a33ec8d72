"""The models of datamodel-code-generator: jobs of its types, and what it reads of the answers."""

import json
import sys
import urllib.error
import urllib.request
from pathlib import Path

import floors as made

url, file = sys.argv[1:]


def post(job: made.Job) -> bytes:
    """The answer to a job, or the problem with it."""
    body = job.model_dump_json(exclude_unset=True, by_alias=True).encode()
    request = urllib.request.Request(f"{url}/v1/quotes", body, {"Content-Type": "application/json"})
    try:
        with urllib.request.urlopen(request, timeout=60) as response:
            return bytes(response.read())
    except urllib.error.HTTPError as error:
        return error.read()


document = json.loads(Path(file).read_text("utf-8"))
shape = made.JobShape(root=made.JobShapeMeasured(measured=made.JobMeasured(area="1200 sq ft")))
least = made.Job(system="level-clear", rooms=[made.JobRoom(name="Floor", shape=shape)])
full = made.Job.model_validate(document)
assert json.loads(full.model_dump_json(exclude_unset=True, by_alias=True)) == document
answers = []
for job in (least, full):
    body = post(job)
    answers.append(made.QuoteAnswer.model_validate_json(body))
    assert json.loads(answers[-1].model_dump_json(exclude_unset=True, by_alias=True)) == json.loads(body)
problem = made.Problem.model_validate_json(post(made.Job(system="levle-clear", rooms=least.rooms)))
found = {
    "gross": [answer.quantities.totals.gross for answer in answers],
    "pointers": [error.pointer for error in problem.errors],
}
sys.stdout.write(json.dumps(found))
