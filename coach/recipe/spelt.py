"""A part of a recipe spelt out, every size under a name of its own, with the place in the file of each."""

from __future__ import annotations

from dataclasses import dataclass, field

from coach.recipe.findings import Findings, Path


@dataclass(slots=True)
class Origins:
    """Where in the file each part of the spelt-out recipe was written."""

    values: dict[Path, Path] = field(default_factory=dict)
    keys: dict[Path, Path] = field(default_factory=dict)

    def of(self, path: Path, *, at_key: bool = False) -> Path:
        """The place in the file's own tree of a spelt-out path, or of the nearest thing around it."""
        for length in range(len(path), 0, -1):
            part = path[:length]
            if at_key and length == len(path) and part in self.keys:
                return self.keys[part]
            if part in self.values:
                return self.values[part]
        return ()


@dataclass(slots=True)
class Spelt:
    """Names with their values, at one place of the spelt-out recipe."""

    path: Path
    origins: Origins
    findings: Findings
    told: dict[str, object] = field(default_factory=dict)

    def put(self, name: str, value: object, place: Path | None, key_place: Path | None) -> None:
        """Say something, and where it was written."""
        self.told[name] = value
        if place is not None:
            self.origins.values[(*self.path, name)] = place
        if key_place is not None:
            self.origins.keys[(*self.path, name)] = key_place

    def place_of(self, name: str | Path, index: int | str, place: Path) -> None:
        """Where an entry of a list or a mapping under a name was written."""
        names = (name,) if isinstance(name, str) else name
        self.origins.values[(*self.path, *names, index)] = place

    def inside(self, name: str) -> Spelt:
        """Names with values under a name; it is part of this from then on."""
        part = Spelt((*self.path, name), self.origins, self.findings)
        self.told[name] = part.told
        return part
