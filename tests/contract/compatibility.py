"""What would break a client of an earlier release: two descriptions compared, in the way that each part travels.

What a client sends must go on being taken: no path, field, value or type may go, nothing may be asked for that was not.
What it reads must go on being what it was told: no field may go or become optional, and no new type or value may come
where the list was closed. Fields of answers may be added, and so may codes where the description says that others may
come. Words are not compared, but for the range of a measure, which stands in its field's description.

Decisions:

* The comparison is our own: ``api-smart-diff`` (npm) finds 1,441 breaking changes between this description and itself,
  and what PyPI has is young. The client's own job in an answer (``?echo=true``) counts as sent. Of 1,512 single changes
  (each field gone, optional or of another type, each value of a list gone) it found all 1,476 that break, and let pass
  the 36 by which a job's field need no longer be given (by hand; a test takes every 29th).
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from gaugerake.measure.dimension import Dimension
from gaugerake.measure.grammar import read

Form = Mapping[str, Any]
METHODS = ("get", "put", "post", "delete", "options", "head", "patch", "trace")
LEAST = ("minimum", "exclusiveMinimum", "minLength", "minItems", "minProperties")
MOST = ("maximum", "exclusiveMaximum", "maxLength", "maxItems", "maxProperties")
SHAPES = ("pattern", "format", "const", "multipleOf", "uniqueItems", "propertyNames", "not")
RANGE = re.compile(r"(-?[\d.,]+ \S+) to (-?[\d.,]+ \S+?)[.;,]?(?:\s|$)")
NAMED = "#/components/schemas/"


def breaking(old: Form, new: Form) -> list[str]:
    """Every place at which a client of the old description would fail with the new one."""
    return list(dict.fromkeys(Comparison(old, new).found()))


@dataclass
class Comparison:
    """Two descriptions, and the pairs of schemas that were compared already."""

    old: Form
    new: Form
    met: set[tuple[bool, str, str]] = field(default_factory=set)

    def found(self) -> Iterator[str]:
        """The places, path by path."""
        for path, item in self.old["paths"].items():
            for method in (method for method in METHODS if method in item):
                there = self.new["paths"].get(path, {}).get(method)
                place = f"{method.upper()} {path}"
                yield from [f"{place}: gone"] if there is None else self._operation(place, item[method], there)

    def _operation(self, place: str, old: Form, new: Form) -> Iterator[str]:
        if old.get("operationId") != new.get("operationId"):
            yield f"{place}: has another operationId"
        if _open(self.old, old) and not _open(self.new, new):
            yield f"{place}: asks for a key"
        yield from self._parameters(place, old, new)
        yield from self._body(place, old.get("requestBody"), new.get("requestBody"))
        for status, answer in old["responses"].items():
            if status in new["responses"]:
                yield from self._answer(f"{place} {status}", answer, new["responses"][status])
            elif status < "400":
                yield f"{place} {status}: gone"

    def _parameters(self, place: str, old: Form, new: Form) -> Iterator[str]:
        before, after = (
            {(one["in"], one["name"]): one for one in map(root.resolved, operation.get("parameters", ()))}
            for root, operation in ((Root(self.old), old), (Root(self.new), new))
        )
        for key, parameter in before.items():
            at = f"{place} ?{key[1]}"
            if key not in after:
                yield f"{at}: gone"
                continue
            if after[key].get("required") and not parameter.get("required"):
                yield f"{at}: must be given"
            yield from self._sent(at, parameter.get("schema", {}), after[key].get("schema", {}))
        yield from (
            f"{place} ?{key[1]}: must be given" for key in after.keys() - before.keys() if after[key].get("required")
        )

    def _body(self, place: str, old: Form | None, new: Form | None) -> Iterator[str]:
        if old is None:
            if new is not None and new.get("required"):
                yield f"{place}: must have a body"
            return
        if new is None:
            yield f"{place}: takes no body"
            return
        if new.get("required") and not old.get("required"):
            yield f"{place}: must have a body"
        yield from self._content(place, old, new, self._sent)

    def _answer(self, place: str, old: Form, new: Form) -> Iterator[str]:
        old, new = Root(self.old).resolved(old), Root(self.new).resolved(new)
        yield from (f"{place} {name}: gone" for name in old.get("headers", {}) if name not in new.get("headers", {}))
        yield from self._content(place, old, new, self._told)

    def _content(self, place: str, old: Form, new: Form, compare: Any) -> Iterator[str]:
        for media_type, form in old.get("content", {}).items():
            if media_type not in new.get("content", {}):
                yield f"{place} {media_type}: gone"
            else:
                yield from compare(place, form.get("schema", {}), new["content"][media_type].get("schema", {}))

    def _sent(self, place: str, old: Any, new: Any) -> Iterator[str]:
        """What a client sends: whatever was taken is taken still."""
        for one in self._pairs(place, old, new, sent=True):
            yield from one

    def _told(self, place: str, old: Any, new: Any) -> Iterator[str]:
        """What a client reads: nothing comes that it was not told of, and what it waits for comes still."""
        for one in self._pairs(place, old, new, sent=False):
            yield from one

    def _pairs(self, place: str, old: Any, new: Any, *, sent: bool) -> Iterator[Iterator[str]]:
        """Each kind of value that must find its like on the other side, with the nearest that there is."""
        names = (old.get("$ref", ""), new.get("$ref", ""))
        if all(names):
            if (sent, *names) in self.met:
                return
            self.met.add((sent, *names))
        before, after = list(Root(self.old).kinds(old)), list(Root(self.new).kinds(new))
        yield _lost_values(place, before, after)
        seeking, offered = (before, after) if sent else (after, before)
        for one in seeking:
            best: list[str] | None = None
            for other in offered:
                kept = set(self.met)
                faults = list(self._kind(place, *((one, other) if sent else (other, one)), sent=sent))
                if best is None or len(faults) < len(best):
                    best = faults
                if not faults:
                    break
                self.met = kept
            yield iter(best if best is not None else [f"{place}: nothing is taken"])

    def _kind(self, place: str, old: Form, new: Form, *, sent: bool) -> Iterator[str]:
        narrow, wide = (new, old) if sent else (old, new)
        if "type" in narrow and wide.get("type") != narrow["type"] and not _whole_for_any(narrow, wide):
            yield f"{place}: {old.get('type', 'anything')} has become {new.get('type', 'anything')}"
            return
        if "enum" in narrow and not set(wide.get("enum", [_ANY])) <= set(narrow["enum"]):
            yield f"{place}: the list of values is another"
        yield from _bounds(place, old, new, sent=sent)
        yield from self._fields(place, old, new, sent=sent)
        if "items" in old or (sent and "items" in new):
            compare = self._sent if sent else self._told
            yield from compare(f"{place}[]", old.get("items", {}), new.get("items", {}))
        if sent and "oneOf" in new and any(one not in new["oneOf"] for one in old.get("oneOf", [_ANY])):
            yield f"{place}: a choice is gone"

    def _fields(self, place: str, old: Form, new: Form, *, sent: bool) -> Iterator[str]:
        before, after = old.get("properties", {}), new.get("properties", {})
        compare = self._sent if sent else self._told
        for name, form in before.items():
            if name not in after:
                yield f"{place}.{name}: gone"
            elif not self._is_echo(form, sent=sent):
                yield from compare(f"{place}.{name}", form, after[name])
        asked, asked_before = set(new.get("required", ())), set(old.get("required", ()))
        if sent:
            yield from (f"{place}.{name}: must be given" for name in sorted(asked - asked_before))
            if new.get("additionalProperties") is False and old.get("additionalProperties") is not False:
                yield f"{place}: takes no other fields"
        else:
            yield from (f"{place}.{name}: may be left out" for name in sorted(asked_before - asked))

    def _is_echo(self, form: Form, *, sent: bool) -> bool:
        """Whether it is the client's own job that comes back: as a job it is compared where it is sent."""
        return not sent and form.get("$ref", "").removeprefix(NAMED) in ("Job", "SlabJob")


_ANY = object()


@dataclass(frozen=True)
class Root:
    """A description, to look names up in."""

    whole: Form

    def resolved(self, form: Form) -> Form:
        """What a reference refers to."""
        while "$ref" in form:
            found: Any = self.whole
            for name in form["$ref"].removeprefix("#/").split("/"):
                found = found[name.replace("~1", "/").replace("~0", "~")]
            form = {**found, **{name: value for name, value in form.items() if name != "$ref"}}
        return form

    def kinds(self, form: Any) -> Iterator[Form]:
        """The kinds of value that a schema allows, one type each."""
        form = self.resolved(form)
        if "anyOf" in form or ("oneOf" in form and "type" not in form):
            rest = {name: value for name, value in form.items() if name not in ("anyOf", "oneOf")}
            for one in form.get("anyOf", form.get("oneOf", ())):
                for kind in self.kinds(one):
                    yield {**rest, **kind, "description": rest.get("description", kind.get("description", ""))}
        elif isinstance(form.get("type"), list):
            for kind in form["type"]:
                yield {**form, "type": kind}
        else:
            yield form


def _open(root: Form, operation: Form) -> bool:
    """Whether it is answered without a key, at least in a service that has none."""
    security = operation.get("security", root.get("security", ()))
    return not security or {} in security


def _lost_values(place: str, old: list[Form], new: list[Form]) -> Iterator[str]:
    lists = [_listed(kind) for kind in new if _listed(kind)]
    if any(map(_listed, old)) and (lists or not new):
        told = {value for one in lists for value in one}
        yield from (
            f"{place}: {value!r} is no longer listed" for kind in old for value in _listed(kind) if value not in told
        )


def _listed(kind: Form) -> list[Any]:
    """The words of a closed list, or of one to which others may come."""
    found: list[Any] = kind.get("enum") or kind.get("x-extensible-enum", [])
    return found


def _whole_for_any(narrow: Form, wide: Form) -> bool:
    return narrow["type"] == "number" and wide.get("type") == "integer"


def _bounds(place: str, old: Form, new: Form, *, sent: bool) -> Iterator[str]:
    stricter = new if sent else old
    yield from (
        f"{place}: has another {name}" for name in SHAPES if name in stricter and old.get(name) != new.get(name)
    )
    if not sent:
        return
    for names, sign in ((LEAST, 1), (MOST, -1)):
        for name in names:
            if name in new and (name not in old or sign * new[name] > sign * old[name]):
                yield f"{place}: {name} is now {new[name]}"
    before, after = _said(old), _said(new)
    if before and after and (after[0] > before[0] or after[1] < before[1]):
        yield f"{place}: the range is narrower"


def _said(form: Form) -> tuple[float, float] | None:
    """The range of a measure as its description says it."""
    kind = str(form.get("format", "")).removeprefix("measure-").removeprefix("small-")
    said = RANGE.search(str(form.get("description", "")))
    if said is None or "measure-" not in form.get("format", ""):
        return None
    low, high = (read(text, Dimension("duration" if kind == "days" else kind)) for text in said.groups())
    return low, high
