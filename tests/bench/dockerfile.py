"""Follow a Dockerfile without an engine: its instructions run in folders that stand for the images.

Only what the project's own file uses is read; anything else ends the run, so nothing is passed over in silence.
"""

from __future__ import annotations

import json
import re
import shlex
import shutil
import subprocess
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

SPOKEN_OF = {"LABEL", "EXPOSE", "STOPSIGNAL"}  # these say something and change nothing in the files
USUAL_PATH = "/usr/local/bin:/usr/local/sbin:/usr/sbin:/usr/bin:/sbin:/bin"
STARTED_WITH = {"ENTRYPOINT", "CMD"}


@dataclass(slots=True, kw_only=True)
class Stage:
    """One image while it is made: its root, and how it is to be run."""

    root: Path
    environment: dict[str, str] = field(default_factory=lambda: {"PATH": USUAL_PATH})
    folder: str = "/"
    user: str = "0:0"
    started_with: dict[str, list[str]] = field(default_factory=dict)
    health: list[str] = field(default_factory=list)

    def inside(self, path: str) -> Path:
        """Where a path of the image is on this machine, from its working folder."""
        return self.root / str(Path(self.folder) / path).lstrip("/")


def instructions(text: str) -> Iterator[tuple[str, str]]:
    """Each instruction and what it says, its lines joined and comments left out.

    >>> list(instructions("# why\\nRUN a \\\\\\n    && b\\n"))
    [('RUN', 'a      && b')]
    """
    lines = "\n".join(line for line in text.splitlines() if not line.startswith("#"))
    for line in lines.replace("\\\n", " ").splitlines():
        if line.strip():
            name, _, rest = line.strip().partition(" ")
            yield name.upper(), rest.strip()


def allowed(ignore: str) -> set[str]:
    """The paths that an ignore file lets in: all others are out.

    >>> sorted(allowed("*\\n!client\\n**/__pycache__"))
    ['client']
    """
    assert "*" in ignore.splitlines()
    return {line[1:] for line in ignore.splitlines() if line.startswith("!")}


@dataclass(slots=True, kw_only=True)
class Builder:
    """Makes the stages. ``run`` runs a shell's line in a stage; ``base`` is copied for every FROM."""

    base: Path
    work: Path
    context: Path
    let_in: set[str]
    run: Callable[[Stage, str], None]
    stages: dict[str, Stage] = field(default_factory=dict)

    def build(self, text: str) -> Stage:
        """The last stage of a Dockerfile."""
        stage: Stage | None = None
        for name, said in instructions(text):
            print(f"  {name} {said}"[:116], flush=True)
            if name == "FROM":
                stage = self._begin(said)
            elif name != "ARG":
                assert stage is not None, "an instruction before FROM"
                self._follow(stage, name, said)
        assert stage is not None, "no FROM"
        return stage

    def _begin(self, said: str) -> Stage:
        found = re.fullmatch(r"\$\{PYTHON\}(?: AS (\w+))?", said)
        assert found, f"FROM {said}"
        name = found[1] or "last"
        subprocess.run(["cp", "-a", self.base, self.work / name], check=True)
        self.stages[name] = Stage(root=self.work / name)
        return self.stages[name]

    def _follow(self, stage: Stage, name: str, said: str) -> None:
        if name == "RUN":
            self.run(stage, said)
        elif name == "COPY":
            self._copy(stage, said.split())
        elif name == "ENV":
            settings = dict(part.split("=", 1) for part in shlex.split(said))
            stage.environment |= {key: value.replace("$PATH", stage.environment["PATH"])
                                  for key, value in settings.items()}  # fmt: skip
        elif name == "WORKDIR":
            stage.folder = said
            stage.inside("").mkdir(parents=True, exist_ok=True)
        elif name == "USER":
            stage.user = said
        elif name in STARTED_WITH:
            stage.started_with[name] = json.loads(said)
        elif name == "HEALTHCHECK":
            stage.health = json.loads(said.partition(" CMD ")[2])
        else:
            assert name in SPOKEN_OF, f"{name} is not followed here"

    def _copy(self, stage: Stage, words: list[str]) -> None:
        """As root, whole folders by their contents, as COPY does."""
        source = self.context
        own = words[0].startswith("--from=")
        if own:
            source = self.stages[words.pop(0).removeprefix("--from=")].root
        *files, target = words
        for file in files:
            assert own or file in self.let_in, f"{file} is ignored by Dockerfile.dockerignore"
            whole, there = source / file.lstrip("/"), stage.inside(target)
            if whole.is_dir():
                ignored = None if own else shutil.ignore_patterns("__pycache__")
                shutil.copytree(whole, there, symlinks=True, dirs_exist_ok=True, ignore=ignored)
            else:
                there = there / whole.name if target.endswith("/") else there
                there.parent.mkdir(parents=True, exist_ok=True)
                shutil.copy2(whole, there)
