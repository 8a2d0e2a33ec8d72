"""docker/README.md says when to wake somebody; each figure that it looks at is one that the service tells."""

import re
from pathlib import Path

from tests.builders import client_of, example

from gaugerake.catalogue.store.demo import demo_snapshot

README = (Path(__file__).parents[2] / "docker" / "README.md").read_text("utf-8")
ALERTS = README.partition("## When to wake somebody")[2].partition("\n## ")[0]


def told() -> str:
    """The service's figures, once it has answered a quote."""
    client = client_of(demo_snapshot())
    assert client.post("/v1/quotes", json=example("least")).status_code == 200
    return client.get("/metrics").get_data(as_text=True)


def test_each_figure_is_told_with_the_labels_that_are_asked_for() -> None:
    series = {re.split(r"[{ ]", line)[0] for line in told().splitlines() if not line.startswith("#")}
    named = set(re.findall(r"gaugerake_\w+", ALERTS))
    assert len(named) >= 5
    assert named - series == set()


def test_the_labels_that_are_picked_are_there() -> None:
    figures = told()
    (status,) = set(re.findall(r'status="(\dxx)"', ALERTS))
    assert re.search(rf'gaugerake_requests_total{{.*status="{status.replace("5", "2")}"', figures)
    assert re.findall(r'route="([^"]+)"', ALERTS) == ["/v1/quotes"]
    assert 'gaugerake_request_seconds_bucket{le="0.5",route="/v1/quotes"}' in figures
    for label, name in re.findall(r"by \((\w+)\) \((gaugerake_\w+)\)", ALERTS):
        assert re.search(rf"^{name}{{.*{label}=", figures, re.M), name
