"""Zones for the tests of pictures: some by hand, and chains of them by chance."""

from __future__ import annotations

from hypothesis import strategies as st

from coach.drawing.views import Solid
from coach.forms import Form
from coach.forms.holes import SHAPES
from tests.made import make

SIZES = st.floats(min_value=0.5, max_value=400.0)


def bar(width: float, thickness: float, length: float) -> Form:
    return make("flat", {"width": width, "thickness": thickness, "length": length})


def taper(width: float, end_width: float, length: float, thickness: float = 10.0) -> Form:
    sizes = {"width": width, "thickness": thickness, "end width": end_width, "length": length}
    return make("taper", sizes)


def eyed(hole: str = "oval", through: str = "thickness", far_mm: tuple[float, float] | None = None) -> Form:
    along = 20.0 if hole == "round" else 36.0
    sizes = {"width": 40.0, "thickness": 30.0, "length": 60.0, "hole length": along, "hole width": 20.0}
    if far_mm is not None:
        sizes |= {"far hole length": far_mm[0], "far hole width": far_mm[1]}
    return make("eyed", sizes, {"hole": hole, "through": through})


@st.composite
def bars(draw: st.DrawFn) -> Form:
    return bar(draw(SIZES), draw(SIZES), draw(SIZES))


@st.composite
def tapers(draw: st.DrawFn) -> Form:
    return taper(draw(SIZES), draw(SIZES), draw(SIZES), draw(SIZES))


@st.composite
def eyes(draw: st.DrawFn) -> Form:
    shape = draw(st.sampled_from(SHAPES))
    along = draw(st.floats(min_value=2.0, max_value=60.0))
    across = along if shape == "round" else draw(st.floats(min_value=1.0, max_value=along))
    grown = draw(st.floats(min_value=0.8, max_value=1.2))
    sizes = {"hole length": along, "hole width": across}
    sizes |= {"far hole length": along * grown, "far hole width": across * grown}
    block = {name: along * 1.2 + draw(SIZES) for name in ("width", "thickness", "length")}
    through = draw(st.sampled_from(("width", "thickness")))
    return make("eyed", sizes | block, {"hole": shape, "through": through})


@st.composite
def rounds(draw: st.DrawFn) -> Form:
    across, other, length = draw(SIZES), draw(SIZES), draw(SIZES)
    kind = draw(st.sampled_from(("round taper", "octagon", "hexagon", "socket", "ring", "round ring")))
    sizes = {
        "round taper": {"diameter": across, "end diameter": other, "length": length},
        "octagon": {"across flats": across, "length": length},
        "hexagon": {"across flats": across, "length": length},
        "socket": {
            "mouth diameter": across + other,
            "end diameter": across,
            "wall": across * draw(st.floats(min_value=0.05, max_value=0.45)),
            "length": length,
        },
        "ring": {"outer diameter": across + other, "inner diameter": across, "thickness": length},
        "round ring": {"inner diameter": across, "diameter": other},
    }
    return make(kind, sizes[kind])


@st.composite
def chains(draw: st.DrawFn) -> tuple[Solid, ...]:
    forms = draw(st.lists(st.one_of(bars(), tapers(), eyes(), rounds()), min_size=1, max_size=5))
    return tuple(
        Solid(
            f"zone {number}",
            form,
            steel=draw(st.booleans()),
            laid_share=draw(st.floats(min_value=0.0, max_value=1.0)),
            turned=draw(st.booleans()),
        )
        for number, form in enumerate(forms)
    )
