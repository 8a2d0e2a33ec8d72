"""The description as YAML: keys in their order, each repeated part in full, paragraphs as blocks of lines."""

from __future__ import annotations

from collections.abc import Mapping

import yaml

_WIDTH = 120


def yaml_text(form: Mapping[str, object]) -> str:
    """What a mapping is in YAML.

    >>> print(yaml_text({"title": "Floors", "notes": "One.\\nTwo.\\n"}), end="")
    title: Floors
    notes: |
      One.
      Two.
    """
    written: str = yaml.dump(dict(form), Dumper=_Dumper, sort_keys=False, allow_unicode=True, width=_WIDTH)
    return written


class _Dumper(yaml.SafeDumper):
    def ignore_aliases(self, data: object) -> bool:
        return True


def _text(dumper: yaml.SafeDumper, text: str) -> yaml.ScalarNode:
    return dumper.represent_scalar("tag:yaml.org,2002:str", text, style="|" if "\n" in text else None)


_Dumper.add_representer(str, _text)
