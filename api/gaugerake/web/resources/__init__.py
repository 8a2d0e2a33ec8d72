"""One blueprint for each resource."""

from gaugerake.web.operations import Resource
from gaugerake.web.resources import service, units

RESOURCES: tuple[Resource, ...] = (units.resource, service.resource)
