"""Forms as tests write them down: by trade name, with blanks in the names of their sizes as they are said."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coach.forms import Form
from coach.operations import Shape
from coach.operations.shape import NOTHING


def make(
    kind: str,
    sizes_mm: Mapping[str, float],
    options: Mapping[str, str] = NOTHING,
    stations: Sequence[tuple[float, float, float]] = (),
) -> Form:
    """A checked form; raises FormError."""
    sizes = {name.replace(" ", "_"): size_mm for name, size_mm in sizes_mm.items()}
    return Shape(kind, options, tuple(stations)).form(sizes)


def options_of(form: Form) -> dict[str, str]:
    """The choices made that are not sizes."""
    return {name: getattr(form, name) for name in form.OPTIONS}
