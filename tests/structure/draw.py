"""A drawing of the rooms and their arrows, in Mermaid's text, made from the imports of the code.

``python -m tests.structure.draw`` writes it into DEVELOPERS.md. An arrow that follows from others is left out.
"""

from pathlib import Path

from tests.structure.test_rooms import MODULES, MOST_LEVELS, Arrows, arrows, imported

GUIDE = Path(__file__).parents[2] / "DEVELOPERS.md"
BEGIN, END = "```mermaid\n", "```\n"
Ways = dict[str, set[str]]


def parts() -> Ways:
    """Which parts of the package each part imports from."""
    found: Ways = {}
    for module, path in MODULES.items():
        part = module.split(".")[0]
        if "." in module:
            found.setdefault(part, set()).update(other.split(".")[0] for other in imported(path))
    return {part: others & found.keys() - {part} for part, others in found.items()}


def reached(ways: Ways, name: str) -> set[str]:
    """All that can be reached from a name by one arrow or more."""
    return ways[name].union(*(reached(ways, other) for other in ways[name]))


def shortest(ways: Ways) -> Ways:
    """The arrows without those that follow from others."""
    return {name: others - set[str]().union(*(reached(ways, one) for one in others)) for name, others in ways.items()}


def lines(ways: Ways, prefix: str = "") -> list[str]:
    """One line for each name that has arrows, and one for all that stand alone."""
    found = [
        f"{prefix}{name} --> {' & '.join(prefix + other for other in sorted(others))}"
        for name, others in sorted(shortest(ways).items())
        if others
    ]
    alone = sorted(name for name in ways if not ways[name] and all(name not in others for others in ways.values()))
    return found + [f"{prefix}{name}" for name in alone]


def rooms(part: str) -> Ways:
    """The folders of a part and what they import from each other; modules beside the folders are left out."""
    found: Arrows = arrows(part)
    folders = {name for name in found if f"{part}.{name}" in MODULES and MODULES[f"{part}.{name}"].stem == "__init__"}
    return {name: set(found[name]) & folders for name in folders}


def drawing() -> str:
    """The whole drawing."""
    drawn = ["flowchart TD", *lines(parts())]
    for part in MOST_LEVELS:
        drawn += [f"subgraph {part}", *lines(rooms(part), f"{part[0]}."), "end"]
    return "\n".join(drawn) + "\n"


def drawn_in(guide: str) -> str:
    """The drawing that stands in the guide."""
    return guide.partition(BEGIN)[2].partition(END)[0]


def main() -> None:
    """Write the drawing into the guide, in the place of the one there."""
    guide = GUIDE.read_text("utf-8")
    before, begin, rest = guide.partition(BEGIN)
    GUIDE.write_text(before + begin + drawing() + END + rest.partition(END)[2], "utf-8")


if __name__ == "__main__":
    main()
