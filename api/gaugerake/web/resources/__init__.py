"""One blueprint for each resource."""

from gaugerake.web.operations import Resource
from gaugerake.web.resources import readiness, service, systems, units

RESOURCES: tuple[Resource, ...] = (systems.resource, units.resource, readiness.resource, service.resource)
