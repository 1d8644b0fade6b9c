"""A bar is read as a smith types it, and what is shown of it reads back as the same bar."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.quantities import SizeError
from coach.reckoner.asking.reading import (
    NotReckoned,
    TypedBar,
    read_bar,
    read_difference_c,
    read_heat,
    read_target,
)
from coach.telling.words import write
from coach.telling.writing import Shown

# What a rule shows: halves of a millimetre below 1 m, thirty-seconds of an inch.
HALF_MM = st.integers(2, 400).map(lambda halves: halves / 2)
THIRTY_SECONDS = st.integers(2, 400).map(lambda parts: parts * 25.4 / 32)
ONE_SIZE = st.sampled_from(["square", "round", "octagon", "hexagon"])


@given(ONE_SIZE, HALF_MM)
def test_a_bar_of_one_size_reads_back_as_it_is_shown(kind: str, size_mm: float) -> None:
    bar = TypedBar(kind, (size_mm,))
    assert read_bar(write(bar.words), "mm") == bar


@given(HALF_MM, HALF_MM)
def test_the_greater_size_of_a_flat_is_its_width_however_it_is_typed(one_mm: float, other_mm: float) -> None:
    bar = read_bar(f"{one_mm}x{other_mm}", "mm")
    assert bar == read_bar(f"{other_mm} × {one_mm} mm", "mm")
    assert (bar.width_mm, bar.thickness_mm) == (max(one_mm, other_mm), min(one_mm, other_mm))
    assert bar.area_mm2 == pytest.approx(one_mm * other_mm)
    assert bar.has_four_sides


@given(ONE_SIZE, THIRTY_SECONDS)
def test_inches_read_back_as_they_are_shown(kind: str, size_mm: float) -> None:
    bar = read_bar(write(TypedBar(kind, (size_mm,)).words, Shown("in")), "in")
    assert bar.kind == kind
    assert bar.width_mm == pytest.approx(size_mm)


@given(HALF_MM)
def test_round_and_square_bars_of_one_size_cool_alike(size_mm: float) -> None:
    # Their volume per surface is a quarter of the size (elementary geometry).
    for kind in ("square", "round", "octagon", "hexagon"):
        section = TypedBar(kind, (size_mm,)).cooling_section
        assert section.volume_per_surface_mm == pytest.approx(size_mm / 4)
        assert section.half_thickness_mm == size_mm / 2


@given(st.text(max_size=20))
def test_any_text_is_a_bar_or_refused_in_one_sentence(text: str) -> None:
    try:
        bar = read_bar(text, "mm")
    except SizeError as error:
        refusal = str(error)
    else:
        refusal = ""
        assert min(bar.sizes_mm) > 0
    assert refusal == "" or refusal.endswith(".")
    assert len(refusal.splitlines()) <= 1


@pytest.mark.parametrize(
    ("text", "thickness_mm"),
    [("20", 20), ("20 mm", 20), ("square 20", None), ("20x20", None)],
)
def test_a_bare_size_is_a_thickness_to_forge_to(text: str, thickness_mm: float | None) -> None:
    target = read_target(text, "mm")
    assert target.bar == TypedBar("square", (20.0,))
    assert target.thickness_mm == thickness_mm


def test_a_figure_is_trusted_further_than_a_colour() -> None:
    assert read_heat("941").temperature_c == read_heat("light orange").temperature_c == 941
    assert read_heat("941").doubt_c < read_heat("light orange").doubt_c


@pytest.mark.parametrize("text", ["", "x", "-5", "1e3", "25 K", "nan", "inf"])
def test_what_is_no_difference_of_temperatures_is_refused(text: str) -> None:
    with pytest.raises(NotReckoned, match="45 F"):
        read_difference_c(text)


@pytest.mark.parametrize("text", ["0.4", "508", "40x0.4", "508x10", "round 0.4 mm"])
def test_a_bar_may_be_as_thin_and_as_thick_as_is_said(text: str) -> None:
    assert read_bar(text, "mm").thickness_mm >= 0.4


@pytest.mark.parametrize("text", ["0.39", "508.1", "40x0.39", "508.1x10", "round 0.39 mm"])
def test_each_size_of_a_bar_must_be_one_for_the_anvil(text: str) -> None:
    with pytest.raises(SizeError, match="no bar for the anvil") as refused:
        read_bar(text, "mm")
    assert "from 0.4 mm to 508 mm" in str(refused.value)
