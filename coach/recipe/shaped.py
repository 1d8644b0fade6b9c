"""What the words of a line say of a shape and its sizes, gathered as they are read."""

from __future__ import annotations

from dataclasses import dataclass, field

from coach.recipe.findings import Path
from coach.recipe.line import Line
from coach.recipe.measuring import Size


@dataclass(slots=True)
class Shaped:
    """What a line says of a shape and its sizes, each with its place."""

    form: tuple[str, Path] | None = None
    section: Path | None = None  # two sizes across, said in one: a flat, unless the zone has both anyway
    sizes: dict[str, Size] = field(default_factory=dict)
    options: dict[str, tuple[str, Path]] = field(default_factory=dict)
    stations: list[tuple[Size, Size, Size]] = field(default_factory=list)
    stations_at: Path | None = None
    turns: tuple[float, Path] | None = None  # how often the bar is twisted
    ring: tuple[Path, bool] | None = None  # the bar is closed to a ring; whether it stands on its edge then

    @property
    def says_nothing(self) -> bool:
        """Whether no shape and no size is said."""
        return self.form is None and not (self.sizes or self.stations)

    def put(self, line: Line, name: str, size: Size, at: int) -> None:
        """Take in a size; a second one for the same name is a fault."""
        if name in self.sizes:
            line.fault(f"the {name.replace('_', ' ')} is said twice", at)
        else:
            self.sizes[name] = size
