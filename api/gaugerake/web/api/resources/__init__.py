"""One blueprint for each resource."""

from gaugerake.web.api.operations import Resource
from gaugerake.web.api.resources import (
    batches,
    comparisons,
    day_sheets,
    pour_plan,
    pour_progress,
    quantities,
    quotes,
    readiness,
    return_times,
    service,
    start_search,
    systems,
    units,
)

RESOURCES: tuple[Resource, ...] = (
    systems.resource,
    units.resource,
    readiness.resource,
    quantities.resource,
    pour_plan.resource,
    pour_progress.resource,
    return_times.resource,
    quotes.resource,
    day_sheets.resource,
    comparisons.resource,
    start_search.resource,
    batches.resource,
    service.resource,
)

KEYLESS = frozenset(
    operation.endpoint for resource in RESOURCES for operation in resource.operations if operation.keyless
)
"""The endpoints that need no key where others do."""
