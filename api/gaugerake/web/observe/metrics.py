"""``/metrics`` for Prometheus: what all workers of this service have answered, and what each of them serves.

Each worker writes into files of its own, named by its slot and not by its process: a worker that takes the place of
one that died goes on with its figures, so that no count falls and no file is left over. The gauges of a dead worker
are dropped. Without workers (in a test, say) the figures are those of the one process.
"""

from __future__ import annotations

import os
import time
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from flask import Flask, Response, current_app, g, request
from prometheus_client import CollectorRegistry, Counter, Gauge, Histogram, generate_latest, values
from prometheus_client.multiprocess import MultiProcessCollector, mark_process_dead

from gaugerake import __version__
from gaugerake.catalogue.errors import CatalogueError
from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.web.snapshots import EXTENSION as SOURCE

EXTENSION = "gaugerake.metrics"
DIRECTORY = "PROMETHEUS_MULTIPROC_DIR"  # the library's own name for it
MEDIA_TYPE = "text/plain; version=0.0.4; charset=utf-8"
METHODS = frozenset({"GET", "HEAD", "POST", "QUERY", "OPTIONS", "PUT", "PATCH", "DELETE"})
BUCKETS = (0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0)


def take_slot(slot: int) -> None:
    """Write the metrics that are made from now on under this slot: once in each worker, before its app is made."""
    values.ValueClass = values.MultiProcessValue(lambda: slot)


def drop_slot(slot: int) -> None:
    """Forget what a worker that is gone was serving; what it answered stays counted."""
    mark_process_dead(slot, os.environ[DIRECTORY])


class Metrics:
    """The figures of one app."""

    def __init__(self) -> None:
        registry = self.registry = CollectorRegistry()
        self.requests = Counter(
            "gaugerake_requests", "Requests answered.", ["route", "method", "status"], registry=registry
        )
        self.seconds = Histogram(
            "gaugerake_request_seconds",
            "Time from the first header to the answer.",
            ["route"],
            registry=registry,
            buckets=BUCKETS,
        )
        self.version = _gauge(registry, "gaugerake_version", "Workers of this version.", "livesum", ["version"])
        self.serving = _gauge(
            registry, "gaugerake_catalogue_workers", "Workers that serve this revision.", "livesum", ["revision"]
        )
        self.age = _gauge(
            registry, "gaugerake_catalogue_age_seconds", "Time since the revision in use was loaded.", "livemax"
        )
        self.stale = _gauge(
            registry,
            "gaugerake_catalogue_stale_seconds",
            "Time since the store could last be asked for another revision; 0 while it answers.",
            "livemax",
        )
        self.version.labels(__version__).set(1)
        self.revision: str | None = None


def _gauge(
    registry: CollectorRegistry, name: str, about: str, mode: Any, labels: tuple[str, ...] | list[str] = ()
) -> Gauge:
    return Gauge(name, about, labels, registry=registry, multiprocess_mode=mode)


def measure(app: Flask) -> None:
    """Count what the app answers, and serve the figures."""
    app.extensions[EXTENSION] = Metrics()
    app.after_request(_count)
    app.add_url_rule("/metrics", "metrics", _exposition)


def observe(app: Flask) -> None:
    """Note which revision this worker serves, how old it is and how stale it may be."""
    metrics: Metrics = app.extensions[EXTENSION]
    source = app.extensions[SOURCE]
    try:
        snapshot = source.current
    except (CatalogueError, FileRefused):
        return
    if snapshot.revision != metrics.revision:
        if metrics.revision is not None:
            metrics.serving.labels(metrics.revision[:12]).set(0)
        metrics.serving.labels(snapshot.revision[:12]).set(1)
        metrics.revision = snapshot.revision
    metrics.age.set(seconds_since(snapshot.loaded_at))
    metrics.stale.set(seconds_since(source.stale_since))


def seconds_since(instant: datetime | None) -> float:
    """How long ago that was; 0 for never."""
    return 0.0 if instant is None else max(0.0, round((datetime.now(UTC) - instant).total_seconds(), 1))


def _count(response: Response) -> Response:
    metrics: Metrics = _here()
    # the route and not the path, and no method that a client made up: each label has few values
    route = request.url_rule.rule if request.url_rule else "none"
    method = request.method if request.method in METHODS else "other"
    metrics.requests.labels(route, method, f"{response.status_code // 100}xx").inc()
    metrics.seconds.labels(route).observe(time.perf_counter() - g.began)
    return response


def _exposition() -> Response:
    observe(current_app)
    directory = os.environ.get(DIRECTORY)
    registry = _here().registry
    if directory and Path(directory).is_dir():
        registry = CollectorRegistry()
        MultiProcessCollector(registry, path=directory)
    return Response(generate_latest(registry), content_type=MEDIA_TYPE)


def _here() -> Metrics:
    found: Metrics = current_app.extensions[EXTENSION]
    return found
