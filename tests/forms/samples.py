"""Forms of every kind for the laws, and how their dimensions act."""

from __future__ import annotations

from hypothesis import assume
from hypothesis import strategies as st

from coach.forms import Form, kinds
from coach.forms.holes import SHAPES
from coach.forms.row_of_holes import COUNTS
from tests.made import make


def hole_dimension(form: Form, dimension: str) -> bool:
    """True for a dimension that takes metal away as it grows."""
    if form.KIND == "ring":
        return dimension == "inner_diameter"
    # Of a longer turn of a twist less is swollen; a wider eye and turns further apart leave less of a scroll,
    # and a wider bevel less of its bar.
    return "hole" in dimension or dimension in ("turn", "eye", "pitch", "reach")


_size = st.floats(2.0, 300.0)
_share = st.floats(0.15, 0.9)
_near_one = st.floats(0.85, 1.15)


@st.composite
def eyed_forms(draw: st.DrawFn, tapered: bool = True) -> Form:
    """An eyed zone with walls, of any hole."""
    shape = draw(st.sampled_from(SHAPES))
    through = draw(st.sampled_from(("thickness", "width")))
    width, thickness, length = draw(_size), draw(_size), draw(_size)
    across = width if through == "thickness" else thickness
    hole_length, hole_width = length * draw(_share) * 0.85, across * draw(_share) * 0.85
    if shape == "round":
        hole_length = hole_width = min(hole_length, hole_width)
    if shape == "teardrop":
        hole_width = min(hole_width, hole_length / 1.4)
    grow = draw(_near_one) if tapered else 1.0
    sizes = {
        "width": width,
        "thickness": thickness,
        "length": length,
        "hole_length": hole_length,
        "hole_width": hole_width,
        "far_hole_length": hole_length * grow,
        "far_hole_width": hole_width * (grow if shape == "round" or not tapered else draw(_near_one)),
    }
    flips = (hole_length - hole_width) * (sizes["far_hole_length"] - sizes["far_hole_width"])
    assume(shape != "slot" or flips > 0)
    assume(shape != "teardrop" or sizes["far_hole_length"] > sizes["far_hole_width"])
    return make("eyed", sizes, {"hole": shape, "through": through})


@st.composite
def profiles(draw: st.DrawFn) -> Form:
    """A profile of two to six stations."""
    count = draw(st.integers(2, 6))
    stations = []
    for place in range(count):
        width, thickness = draw(st.floats(0.1, 1.0)), draw(st.floats(0.1, 1.0))
        stations.append((place / (count - 1), 1.0 if place == 0 else width, 1.0 if place == 1 else thickness))
    sizes = {"length": draw(_size), "width": draw(_size), "thickness": draw(_size)}
    return make("profile", sizes, stations=stations)


@st.composite
def pierced_bars(draw: st.DrawFn) -> Form:
    """A bar with room beside its holes and between them."""
    number, width, length = draw(st.integers(2, 12)), draw(_size), draw(_size)
    sizes = {"width": width, "thickness": draw(_size), "length": length}
    sizes["hole_diameter"] = min(width, length / number) * draw(_share)
    return make("pierced bar", sizes, {"holes": COUNTS[number - 2]})


@st.composite
def slotted_bars(draw: st.DrawFn) -> Form:
    """The same with oblong holes."""
    number, width, length = draw(st.integers(2, 12)), draw(_size), draw(_size)
    sizes = {"width": width, "thickness": draw(_size), "length": length}
    sizes["hole_length"] = length / number * draw(_share)
    sizes["hole_width"] = width * draw(_share)
    shape = draw(st.sampled_from(("rectangle", "slot", "oval")))
    return make("slotted bar", sizes, {"holes": COUNTS[number - 2], "hole": shape})


@st.composite
def bowls(draw: st.DrawFn) -> Form:
    """No more than half of a hollow ball."""
    across = draw(st.floats(10.0, 300.0))
    high = across / 2 * draw(_share)
    wall = high * draw(_share)
    return make("bowl", {"across": across, "depth": high - wall, "wall": wall})


@st.composite
def scrolls(draw: st.DrawFn, kind: str) -> Form:
    """A bar curled more than once round."""
    thick = draw(st.floats(2.0, 20.0))
    pitch = thick * draw(st.floats(1.1, 4.0))
    eye = pitch * draw(st.floats(0.7, 3.0))
    across = eye + 2 * pitch * draw(st.floats(1.2, 6.0)) + 2 * thick - pitch
    sizes = {"across": across, "eye": eye, "pitch": pitch}
    bar = {"diameter": thick} if kind == "round scroll" else {"width": draw(_size), "thickness": thick}
    return make(kind, {**sizes, **bar})


@st.composite
def coils(draw: st.DrawFn) -> Form:
    """A bar wound more than once round."""
    bar, inside = draw(st.floats(2.0, 20.0)), draw(_size)
    pitch = bar * draw(st.floats(1.1, 4.0))
    long = bar + pitch * draw(st.floats(1.2, 12.0))
    return make("coil", {"inside": inside, "pitch": pitch, "diameter": bar, "wound_length": long})


@st.composite
def forms(draw: st.DrawFn) -> Form:
    """A form of any kind there is, whose sizes go together."""
    kind = draw(st.sampled_from(sorted(kinds())))
    if kind == "eyed":
        return draw(eyed_forms())
    if kind == "pierced bar":
        return draw(pierced_bars())
    if kind == "slotted bar":
        return draw(slotted_bars())
    if kind == "bowl":
        return draw(bowls())
    if kind == "coil":
        return draw(coils())
    if kind == "profile":
        return draw(profiles())
    if "scroll" in kind:
        return draw(scrolls(kind))
    sizes = {dimension: draw(_size) for dimension in kinds()[kind].DIMENSIONS}
    if kind == "side bevel":
        sizes["edge"], sizes["reach"] = sizes["thickness"] * draw(_share), sizes["width"] * draw(_share)
        return make(kind, sizes, {"sides": draw(st.sampled_from(("both", "one")))})
    if kind == "rivet":
        sizes["head_diameter"] = sizes["diameter"] / draw(_share)
        return make(kind, sizes, {"heads": draw(st.sampled_from(("two", "one")))})
    if kind == "link":
        sizes["inner_width"] = sizes["inner_length"] * draw(_share)
    if kind == "ring":
        sizes["inner_diameter"] = sizes["outer_diameter"] * draw(_share)
    if kind == "uneven fork":
        sizes["other_length"] = sizes["length"] * draw(_share)
    if kind == "socket":
        sizes["wall"] = min(sizes["mouth_diameter"], sizes["end_diameter"]) / 2 * draw(_share)
    return make(kind, sizes)
