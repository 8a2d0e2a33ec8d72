"""A request as a program: in curl, in Python (requests) and in TypeScript (fetch)."""

from __future__ import annotations

import json
from shlex import quote
from urllib.parse import urlencode

from gaugerake.web.describe.samples.requests import Request, Sample

ADDRESS = "http://127.0.0.1:8080"
"""Where ``./api/serve`` serves; the pages put the address of their service for it."""
_JSON, _LINES = "application/json", "application/x-ndjson"
_WIDEST = 90


def document(value: object, indent: str = "") -> str:
    """JSON as a person writes it: what fits stands in one line.

    >>> print(document({"system": "level-clear", "rooms": ["R" * 50, "S" * 50]}))
    {
      "system": "level-clear",
      "rooms": [
        "RRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRR",
        "SSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSSS"
      ]
    }
    """
    flat = json.dumps(value, ensure_ascii=False)
    if len(indent) + len(flat) <= _WIDEST or not isinstance(value, dict | list):
        return flat
    inner = indent + "  "
    if isinstance(value, list):
        parts, ends = [document(one, inner) for one in value], "[]"
    else:
        parts, ends = [f"{json.dumps(name)}: {document(one, inner)}" for name, one in value.items()], "{}"
    return f"{ends[0]}\n" + ",\n".join(inner + part for part in parts) + f"\n{indent}{ends[1]}"


def curl(request: Request) -> str:
    """The command; the token of a quote is taken out of it first."""
    if request.quoted is not None:
        first = curl(Request(path="/v1/quotes", body=request.quoted)).rstrip()
        reads = "python3 -c 'import json, sys; print(json.load(sys.stdin)[\"token\"])'"
        return f"token=$({first} |\n  {reads})\ncurl -s {ADDRESS}{request.path.replace('{token}', '$token')}\n"
    address = quote(_address(request)) if request.query else _address(request)
    if request.lines:
        lines = "\n".join(json.dumps(line) for line in request.lines)
        return f"curl -s {address} -H 'content-type: {_LINES}' --data-binary {quote(lines)}\n"
    if request.body is None:
        return f"curl -s {address}\n"
    return f"curl -s {address} -H 'content-type: {_JSON}' -d {quote(document(request.body))}\n"


def _address(request: Request) -> str:
    return f"{ADDRESS}{request.path}" + (f"?{urlencode(request.query)}" if request.query else "")


def python(sample: Sample) -> str:
    """The program; it prints one thing of the answer, or what is wrong."""
    request = sample.good
    lines = ["import json\n\nimport requests\n" if request.lines else "import requests\n"]
    address = f'"{_address(request)}"'
    if request.quoted is not None:
        lines += [
            f"job = {document(request.quoted)}",
            f'quote = requests.post("{ADDRESS}/v1/quotes", json=job, timeout=30).json()',
        ]
        address = "f" + address.replace("{token}", "{quote['token']}")
    if request.lines:
        lines += [f"jobs = {document(list(request.lines))}", 'lines = "\\n".join(map(json.dumps, jobs))']
        lines.append(f'headers = {{"content-type": "{_LINES}"}}')
        sent = f"requests.post({address}, data=lines, headers=headers, timeout=30)"
    elif request.body is not None:
        lines.append(f"body = {document(request.body)}")
        sent = f"requests.post({address}, json=body, timeout=30)"
    else:
        sent = f"requests.get({address}, timeout=30)"
    lines += [f"response = {sent}", "if response.ok:", *_read_python(sample), "else:", *_TOLD_PYTHON]
    return "\n".join(lines) + "\n"


_TOLD_PYTHON = (
    "    problem = response.json()",
    '    print(problem["code"], [(error["pointer"], error["hint"]) for error in problem["errors"]])',
)


def _read_python(sample: Sample) -> list[str]:
    if sample.good.lines:
        return ["    answer = [json.loads(line) for line in response.text.splitlines()]", "    print(len(answer))"]
    if not sample.prints:
        return ["    answer = response.text", "    print(len(answer))"]
    steps = sample.prints.replace("?", "").replace("[", ".").replace("]", "").split(".")
    path = "".join(f"[{step}]" if step.isdigit() else f'["{step}"]' for step in steps)
    return ["    answer = response.json()", f"    print(answer{path})"]


def typescript(sample: Sample, *, asked: str, answered: str) -> str:
    """The program; ``asked`` and ``answered`` are the types of body and answer."""
    request = sample.good
    lines = ['import type { components } from "./description.js";\n']
    address = f'"{_address(request)}"'
    if request.quoted is not None:
        lines += [
            f'const job: components["schemas"]["Job"] = {document(request.quoted)};',
            f'const made = await fetch("{ADDRESS}/v1/quotes", {_posted("JSON.stringify(job)")});',
            'const quote = (await made.json()) as components["schemas"]["QuoteAnswer"];',
        ]
        address = "`" + address[1:-1].replace("{token}", "${quote.token}") + "`"
    if request.lines:
        lines.append(f'const jobs: components["schemas"]["Job"][] = {document(list(request.lines))};')
        lines.append('const lines = jobs.map((job) => JSON.stringify(job)).join("\\n");')
        sent = f"fetch({address}, {_posted('lines', media_type=_LINES)})"
    elif request.body is not None:
        lines.append(f"const body: {asked} = {document(request.body)};")
        sent = f"fetch({address}, {_posted('JSON.stringify(body)')})"
    else:
        sent = f"fetch({address})"
    lines += [f"const response = await {sent};", *_TOLD_TYPESCRIPT, *_read_typescript(sample, answered)]
    return "\n".join(lines) + "\n"


_TOLD_TYPESCRIPT = (
    "if (!response.ok) {",
    '  const problem = (await response.json()) as components["schemas"]["Problem"];',
    "  const faults = problem.errors.map((error) => `${error.pointer}: ${error.hint}`);",
    '  throw new Error([problem.detail, ...faults].join("\\n"));',
    "}",
)


def _posted(body: str, *, media_type: str = _JSON) -> str:
    headers = f'headers: {{ "content-type": "{media_type}" }}'
    return f'{{\n  method: "POST",\n  {headers},\n  body: {body},\n}}'


def _read_typescript(sample: Sample, answered: str) -> list[str]:
    if sample.good.lines:
        read = 'const read = (await response.text()).trimEnd().split("\\n");'
        typed = f"const answer = read.map((line) => JSON.parse(line) as {answered});"
        return [read, typed, "console.log(answer.length);"]
    if not sample.prints:
        return ["const answer = await response.text();", "console.log(answer.length);"]
    return [f"const answer = (await response.json()) as {answered};", f"console.log(answer.{sample.prints});"]
