"""Heats, times, hardness and tests are read and written as a smith does, and refused in one sentence."""

from __future__ import annotations

from contextlib import suppress
from fractions import Fraction
from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.metals.quenches import QUENCHES
from coach.operations import operations
from coach.operations.measures import KINDS, PASSED, figure_of, limits_text, read_kind_limits, wanted_of
from coach.operations.shop_test import Result
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import Figure, Limits, Shown, SizeError, Wanted
from coach.quantities.figure import Kind as FigureKind
from coach.quantities.units import convert
from coach.telling.figures import write_wanted


@pytest.mark.parametrize(
    ("typed", "word"),
    [
        ("1", "pass"), ("p", "pass"), ("PASS ", "pass"), ("yes", "pass"),
        ("2", "doubt"), ("?", "doubt"), ("doubtful", "doubt"),
        ("3", "fail"), ("f", "fail"), ("no", "fail"),
    ],
)  # fmt: skip
def test_an_outcome_is_one_key_or_its_word(typed: str, word: str) -> None:
    assert Result.read(typed).value == word


@pytest.mark.parametrize("typed", ["", "4", "perhaps", "31.5", "x" * 500])
def test_what_is_no_outcome_is_refused_with_what_to_type(typed: str) -> None:
    with pytest.raises(SizeError, match="type pass, doubt or fail, or 1, 2 or 3") as refusal:
        Result.read(typed)
    assert len(str(refusal.value)) < 150


@pytest.mark.parametrize(
    ("kind", "written", "shown"),
    [
        ("temperature", "815", "800 to 830 °C"),
        ("temperature", "800 to 830 °C", "800 to 830 °C"),
        ("temperature", "at most 860 °C", "at most 860 °C"),
        ("minutes", "12", "9 to 15 min"),
        ("minutes", "at least 1 h", "at least 1 h"),
        ("minutes", "10 to 15 min", "10 to 15 min"),
        ("hardness", "55", "53 to 57 HRC"),
        ("hardness", "at least 60 HRC", "at least 60 HRC"),
        ("angle", "25", "25 ±2°"),
        ("angle", "20 to 31°", "25.5 ±5.5°"),
        ("gap", "1", "at most 1 mm"),
        ("gap", "none", "at most 0.2 mm"),
    ],
)
def test_limits_are_shown_as_they_are_written(kind: str, written: str, shown: str) -> None:
    assert limits_text(read_kind_limits(KINDS[kind], written, "mm"), kind, Shown()) == shown


def test_a_heat_is_shown_in_fahrenheit_where_sizes_are_in_inches() -> None:
    limits = Limits(815.0, 800.0, 830.0, stated=True)
    low, high = (round(float(convert(Fraction(c), "degC", "degF"))) for c in (800, 830))
    assert limits_text(limits, "temperature", Shown("in")) == f"{low} to {high} °F"


def test_what_is_wanted_of_a_test_is_that_it_passes() -> None:
    assert limits_text(Limits(1.0, 1.0, inf, stated=True), "test", Shown()) == "pass"


@given(st.text(max_size=60))
def test_no_text_at_all_breaks_a_reader(text: str) -> None:
    for kind in KINDS.values():
        with suppress(SizeError):
            kind.read(text, "mm")


def test_every_kind_that_an_operation_measures_is_known() -> None:
    for todo in operations().values():
        for name, kind in todo.EXTRAS.items():
            assert kind in KINDS, (todo.NAME, name)
            assert name not in SHOP_TESTS


def test_every_operation_takes_every_test_of_the_shop() -> None:
    for todo in operations().values():
        assert all(todo.kind_of(name) == "test" for name in SHOP_TESTS)
        assert todo.kind_of("no such thing") is None


def test_what_must_not_be_left_says_why() -> None:
    for todo in operations().values():
        assert bool(todo.UNSAFE_UNTIL) == bool(todo.UNSAFE_WHY)


def test_every_quench_has_its_caution() -> None:
    assert "flare" in QUENCHES["oil"]
    assert "flare" in QUENCHES["fast oil"]
    assert "burst" in QUENCHES["water"]
    assert "explodes" in QUENCHES["salt"]
    assert all(QUENCHES.values())


def test_a_soak_of_minutes_is_a_figure_in_seconds_and_a_test_is_to_pass() -> None:
    assert figure_of(90.0, "minutes") == Figure(5400.0, FigureKind.TIME)
    assert wanted_of(read_kind_limits(KINDS["minutes"], "at least 2 h", "mm"), "minutes") == Wanted(
        Limits(7200.0, 7200.0, inf, stated=True), FigureKind.TIME
    )
    assert write_wanted(wanted_of(PASSED, "test")) == "pass"
    assert figure_of(31.5, "length", 0.2) == Figure(31.5, FigureKind.LENGTH, 0.2)
