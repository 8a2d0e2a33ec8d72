"""Schemas of the job as OpenAPI components: apispec walks them, and each strict field describes itself."""

from __future__ import annotations

from inspect import cleandoc
from typing import Any

from apispec import APISpec
from apispec.ext.marshmallow import MarshmallowPlugin
from apispec.ext.marshmallow.openapi import OpenAPIConverter
from marshmallow.fields import Field

from gaugerake.web.describe.alternatives import alternatives, with_named_measures
from gaugerake.web.json_in.document import Document, Either, Items, Object, OneOrSeveral
from gaugerake.web.json_in.fields import Strict

Form = dict[str, Any]


def component_name(schema: type[Document] | Document) -> str:
    """The name of a schema's component: the job's parts are told from the answers' by their first word."""
    kind = schema if isinstance(schema, type) else type(schema)
    stem = kind.__name__.removesuffix("Schema")
    return stem if stem.endswith("Job") else f"Job{stem}"


def job_components(*schemas: Document) -> dict[str, Form]:
    """The component schemas of some documents and of all that they hold."""
    plugin = MarshmallowPlugin(schema_name_resolver=component_name)  # type: ignore[arg-type]
    spec = APISpec(title="", version="", openapi_version="3.1.0", plugins=[plugin])
    assert plugin.converter is not None
    plugin.converter.add_attribute_function(own_form)  # type: ignore[no-untyped-call]
    for schema in schemas:
        plugin.converter.resolve_nested_schema(schema)  # type: ignore[no-untyped-call]
    components: dict[str, Form] = spec.to_dict()["components"]["schemas"]
    for key, *_ in list(plugin.converter.refs):
        name = component_name(key)
        _complete(components[name], key)
        if key.only_one:
            components |= alternatives(name, components[name], key.only_one)
    return with_named_measures(components)


def own_form(converter: OpenAPIConverter, field: Field[Any], ret: Form) -> Form:
    """What a strict field adds to what apispec knows of it."""
    if not isinstance(field, Strict):
        return {}
    form = _form(converter, field, ret)
    ranged = form.pop("x-range", "")
    about = " ".join(part for part in (field.about, ranged) if part)
    if about:
        form["description"] = about
    if not field.required and not isinstance(field.parent, Items):
        _let_be_null(form, ret)
    return form


def _form(converter: OpenAPIConverter, field: Strict, ret: Form) -> Form:
    if isinstance(field, Items):
        return {"minItems": field.least, "maxItems": field.most}
    if isinstance(field, Object):
        return {}
    if isinstance(field, Either):
        form = field.measure.form()
        inner = (field.inner, *field.keyed.values())
        form["oneOf"] += [converter.resolve_nested_schema(one.schema) for one in inner]  # type: ignore[no-untyped-call]
        return form
    if isinstance(field, OneOrSeveral):
        items = field.items
        listed = converter.resolve_nested_schema(field.inner.schema)  # type: ignore[no-untyped-call]
        array = {"type": "array", "minItems": items.least, "maxItems": items.most, "items": listed}
        return {"oneOf": [field.alone.form(), array]}
    return field.form()


def _let_be_null(form: Form, ret: Form) -> None:
    """A field that was left empty may be sent as null."""
    if "oneOf" in form:
        form["oneOf"].append({"type": "null"})
    elif "$ref" in ret:
        form["anyOf"] = [{"$ref": ret.pop("$ref")}, {"type": "null"}]
    else:
        form["type"] = [form.get("type") or ret["type"], "null"]
    if "enum" in form:
        form["enum"] = [*form["enum"], None]


def _complete(component: Form, kind: type[Document]) -> None:
    component["description"] = cleandoc(kind.__doc__ or "")
    component["additionalProperties"] = False
