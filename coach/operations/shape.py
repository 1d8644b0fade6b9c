"""What solid a zone is, without its sizes."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from math import inf
from types import MappingProxyType
from typing import Any, Final, NamedTuple

from coach.forms import Form, FormError, form_kind, said
from coach.quantities import mm

Stations = tuple[tuple[float, float, float], ...]

#: Bars with one cross size give it to forms that ask for width and thickness, and back.
CROSS_SIZES = ("side", "diameter", "across_flats")
_FLAT: Final = frozenset({"width", "thickness"})
#: A round mouth has one diameter: its width is its length.
_ROUND_MOUTHS = {"hole_width": "hole_length", "far_hole_width": "far_hole_length"}


#: For what has none: a mapping that nobody can change.
NOTHING: Mapping[str, Any] = MappingProxyType({})


class Shape(NamedTuple):
    """A form and its choices, waiting for sizes."""

    kind: str
    options: Mapping[str, str] = NOTHING  # for example {"hole": "oval"}
    stations: Stations = ()  # shares of length, width and thickness, for a profile

    @property
    def dimensions(self) -> tuple[str, ...]:
        """The names of the sizes this shape has."""
        return form_kind(self.kind).DIMENSIONS

    @property
    def usual_free(self) -> str:
        """The dimension that the volume usually settles."""
        return form_kind(self.kind).FREE

    def form(self, sizes_mm: Mapping[str, float]) -> Form:
        """The solid with these sizes, and those that go with them; raises FormError for impossible ones."""
        for name, size_mm in sizes_mm.items():
            if not 0.0 < size_mm < inf:
                raise FormError("the {} must be a size above zero, not {}", said(name), mm(size_mm))
        return self.draft(sizes_mm).checked()

    def follows(self, dimension: str) -> str | None:
        """The dimension that this one goes with when nothing is said of it; None when it stands alone."""
        return form_kind(self.kind).FALLBACKS.get(dimension)

    def one_with(self, dimension: str) -> str | None:
        """The dimension that this one can never differ from; None when it is a size of its own."""
        return _ROUND_MOUTHS.get(dimension) if self.options.get("hole") == "round" else None

    @property
    def own_dimensions(self) -> tuple[str, ...]:
        """The dimensions without those that are one with another."""
        return tuple(name for name in self.dimensions if self.one_with(name) is None)

    def draft(self, sizes_mm: Mapping[str, float]) -> Form:
        """The solid with these sizes, unchecked, for a free dimension that is still to be settled."""
        form = form_kind(self.kind)
        sizes = form.filled(sizes_mm, self.options)
        chosen = (self.options.get(name, allowed[0]) for name, allowed in form.OPTIONS.items())
        drawn = (self.stations,) if form.STATIONS else ()
        return form(*(sizes[name] for name in form.DIMENSIONS), *chosen, *drawn)

    def worked_from(self, dimension: str, size_mm: float, have_mm: Mapping[str, float]) -> str | None:
        """The size there is that work to a new size starts from; None when there is none.

        A flat bar has two sizes across and a square one has one: the work there is to do is then told by the
        one that is farther from the new size. It is closed to a ring on its edge or lying: by that which is
        nearer.
        """
        if form_kind(self.kind).WALL_FROM and dimension == "thickness" and have_mm.keys() >= _FLAT:
            return min(_FLAT, key=lambda name: (abs(have_mm[name] - size_mm), name))
        if dimension in CROSS_SIZES and dimension not in have_mm and have_mm.keys() >= _FLAT:
            return max(("width", "thickness"), key=lambda name: abs(have_mm[name] - size_mm))
        return next((name for name in self.sources(dimension) if name in have_mm), None)

    def sources(self, dimension: str) -> tuple[str, ...]:
        """Where a size may come from when a step does not state it, the best first."""
        return _sources(form_kind(self.kind), dimension)


@cache
def _sources(form: type[Form], dimension: str) -> tuple[str, ...]:
    found = [dimension]
    if dimension in ("width", "thickness"):
        found += CROSS_SIZES
    elif dimension == "wall":
        found += ["thickness"]  # the plate that it is rolled of, or that a ring's bar lies on
    elif dimension in CROSS_SIZES:
        found += [other for other in CROSS_SIZES if other != dimension] + ["thickness"]
    fallback = form.FALLBACKS.get(dimension)
    if fallback is not None and fallback != dimension:
        found += [name for name in _sources(form, fallback) if name not in found]
    return tuple(found)
