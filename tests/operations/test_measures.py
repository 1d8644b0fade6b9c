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
from coach.operations.measures import MEASURED, PASSED, read_kind_limits
from coach.operations.shop_test import Result
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import Kind, Limits, SizeError, Wanted
from coach.quantities.units import convert
from coach.telling.figures import write_wanted
from coach.telling.writing import Shown


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
        (Kind.TEMPERATURE, "815", "800 to 830 °C"),
        (Kind.TEMPERATURE, "800 to 830 °C", "800 to 830 °C"),
        (Kind.TEMPERATURE, "at most 860 °C", "at most 860 °C"),
        (Kind.TIME, "12", "9 to 15 min"),
        (Kind.TIME, "at least 1 h", "at least 1 h"),
        (Kind.TIME, "10 to 15 min", "10 to 15 min"),
        (Kind.HARDNESS, "55", "53 to 57 HRC"),
        (Kind.HARDNESS, "at least 60 HRC", "at least 60 HRC"),
        (Kind.ANGLE, "25", "25 ±2°"),
        (Kind.ANGLE, "20 to 31°", "25.5 ±5.5°"),
        (Kind.GAP, "1", "at most 1 mm"),
        (Kind.GAP, "none", "at most 0.2 mm"),
    ],
)
def test_limits_are_shown_as_they_are_written(kind: Kind, written: str, shown: str) -> None:
    assert write_wanted(Wanted(read_kind_limits(kind, written, "mm"), kind)) == shown


def test_a_heat_is_shown_in_fahrenheit_where_sizes_are_in_inches() -> None:
    limits = Limits(815.0, 800.0, 830.0, stated=True)
    low, high = (round(float(convert(Fraction(c), "degC", "degF"))) for c in (800, 830))
    assert write_wanted(Wanted(limits, Kind.TEMPERATURE), Shown("in")) == f"{low} to {high} °F"


def test_what_is_wanted_of_a_test_is_that_it_passes() -> None:
    assert write_wanted(Wanted(Limits(1.0, 1.0, inf, stated=True), Kind.TEST)) == "pass"


@given(st.text(max_size=60))
def test_no_text_at_all_breaks_a_reader(text: str) -> None:
    for measured in MEASURED.values():
        with suppress(SizeError):
            measured.read(text, "mm")


def test_every_kind_that_an_operation_measures_is_known() -> None:
    for todo in operations().values():
        for name, kind in todo.EXTRAS.items():
            assert kind in MEASURED, (todo.NAME, name)
            assert name not in SHOP_TESTS


def test_every_operation_takes_every_test_of_the_shop() -> None:
    for todo in operations().values():
        assert all(todo.kind_of(name) is Kind.TEST for name in SHOP_TESTS)
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


def test_a_soak_is_kept_in_seconds_like_every_time() -> None:
    assert MEASURED[Kind.TIME].read("90", "mm") == 5400.0
    assert read_kind_limits(Kind.TIME, "at least 2 h", "mm") == Limits(7200.0, 7200.0, inf, stated=True)
    assert write_wanted(Wanted(PASSED, Kind.TEST)) == "pass"
