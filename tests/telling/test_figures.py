"""A figure is told in the units asked for, with no more digits than its doubt allows."""

from __future__ import annotations

import re
from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.quantities import Figure, Kind, Span, Wanted, celsius, grams, mm, read_limits, seconds
from coach.quantities.figure import COVERAGE
from coach.telling.figures import place_of, write_figure, write_span, write_wanted
from coach.telling.writing import Shown

INCHES = Shown("in")


@pytest.mark.parametrize(
    ("doubt", "told"),
    # Examples of the rule: Review of Particle Physics, introduction, section 5.3 (from memory).
    [(0.827, "1/10"), (0.367, "1/10"), (0.119, "1/100"), (0.96, "1/10")],
)
def test_a_doubt_keeps_the_digits_of_the_published_rule(doubt: float, told: str) -> None:
    assert str(place_of(doubt)) == told


@pytest.mark.parametrize(
    ("figure", "how", "told"),
    [
        (mm(186.2, 2.4), "±", "186 ±4 mm"),
        (mm(22.31), "", "22.3 mm"),
        (mm(10.947, 0.21), "±", "10.9 ±0.3 mm"),
        (mm(22.31, 0.9), "", "22.3 mm"),
        (mm(22.31, 4.0), "", "22 mm"),
        (mm(12.36, 0.03), "±", "12.36 ±0.05 mm"),
        # Finer than a rule shows, as its doubt is.
        (mm(183.76, 0.23), "±", "183.8 ±0.4 mm"),
        (mm(104.96, 0.23), "±", "105 ±0.4 mm"),
        (mm(150.04, 0.05), "±", "150 ±0.1 mm"),
        (mm(2.934, 0.0605), "±", "2.9 ±0.1 mm"),
        (celsius(903.2, 0.4), "±", "903 ±1 °C"),
        (seconds(1490.0, 240.0), "±", "25 ±7 min"),
        (mm(778.6), "=", "778.6 mm"),
        (mm(25.4), "in", "1 in"),
        (celsius(900.0), "in", "1652 °F"),
        (Figure(0.875, Kind.CONTENT), "", "0.875 %"),
        (Figure(0.31, Kind.CONTENT), "n", "0.31"),
        (mm(125.5, 24.0), "~", "about 130 mm, 90 to 160 mm"),
        (mm(125.5, 3.0), "~", "about 126 mm"),
        (seconds(71.3, 10.0), "~", "about 70 s"),
        (seconds(48.0, 5.8), "~", "about 50 s"),
        (seconds(16.2, 1.9), "~", "about 16 s"),
        (Figure(43.0, Kind.COUNT, 13.0), "~", "about 40, 20 to 60"),
        (Figure(2.0, Kind.COUNT, 0.6), "~", "about 2, 1 to 3"),
        (mm(3.0), "+", "+3 mm"),
        (mm(-3.0), "+", "\N{MINUS SIGN}3 mm"),
        (mm(3.0), "n", "3"),
        (grams(415.2, 30.0), "±", "420 ±50 g"),
        (grams(103.4895, 1.945), "±", "103 ±3.2 g"),  # rounded once: not to 103.5 and then up
        (grams(103.4895, 0.02), "", "103 g"),
        (grams(1234.6, 1.2), "", "1.23 kg"),
        (celsius(903.0, 12.0), "±", "903 ±20 °C"),
        (seconds(72.0, 12.0), "±", "72 ±20 s"),
        (Figure(0.7512, Kind.FACTOR), "", "0.75"),
        (mm(nan), "", "not known"),
        (mm(inf), "~", "not known"),
    ],
)
def test_a_figure_is_told_as_its_doubt_allows(figure: Figure, how: str, told: str) -> None:
    assert write_figure(figure, how=how) == told


def test_a_temperature_change_has_no_zero_to_shift() -> None:
    # NIST SP 811 (2008), appendix B.9: a difference of 10 °C is one of 18 °F.
    assert write_figure(Figure(10.0, Kind.TEMPERATURE_CHANGE), INCHES) == "18 °F"
    assert write_figure(celsius(900.0), INCHES) == "1652 °F"


def test_the_doubt_of_a_temperature_has_no_zero_to_shift_either() -> None:
    # 1.645 times 10 °C is 16.45 °C, a change of 29.6 °F (NIST SP 811, B.9); 903 °C is 1657.4 °F.
    assert write_figure(celsius(903.0, 10.0), INCHES, "±") == "1657 ±30 °F"


@pytest.mark.parametrize(
    ("figure", "told"),
    [
        # 1.645 × 10 mm is more than there is: no length is less than none, and a change may be.
        (mm(10.0, 10.0), "about 10 mm, 0 to 30 mm"),
        (Figure(-10.0, Kind.TEMPERATURE_CHANGE, 8.0), "about \N{MINUS SIGN}10 °C, \N{MINUS SIGN}20 to 0 °C"),
        (
            Figure(-10.0, Kind.TEMPERATURE_CHANGE, 15.0),
            "about \N{MINUS SIGN}10 °C, \N{MINUS SIGN}30 to 10 °C",
        ),
    ],
)
def test_the_range_of_what_is_only_roughly_known_stops_at_nothing(figure: Figure, told: str) -> None:
    assert write_figure(figure, how="~") == told


@pytest.mark.parametrize(
    ("figure", "told"),
    [
        # Steel weighs 490 lb/ft³, a bar one inch square 3.40 lb a foot (handbook figures, from memory); a
        # foot is 0.3048 m, a pound 453.59237 g.
        (Figure(7.85, Kind.DENSITY), "490 lb/ft³"),
        (Figure(7.85 * 25.4**2, Kind.LINEAR_MASS), "3 lb 6.5 oz per foot"),
        (Figure(100.0, Kind.LINEAR_MASS), "1.1 oz per foot"),
    ],
)
def test_what_a_bar_weighs_is_told_by_the_pound_and_the_foot(figure: Figure, told: str) -> None:
    assert write_figure(figure, INCHES) == told


@pytest.mark.parametrize(
    ("figure", "told"),
    [
        # 25.4 mm to the inch; 6.894757 MPa to the ksi (NIST SP 811, 2008, appendix B.8).
        (Figure(645.16, Kind.AREA), "1.00 in²"),
        (Figure(16387.064, Kind.VOLUME), "1.000 in³"),
        (Figure(1000.0, Kind.STRESS), "145 ksi"),
        # 28.349523 g to the ounce: 1.645 oz of doubt leave tenths, 4.9 oz ounces, 41 oz tens of them.
        (grams(10.27 * 28.349523, 28.349523), "10.3 oz"),
        (grams(10.27 * 28.349523, 3.0 * 28.349523), "10 oz"),
        (grams(44.0 * 28.349523, 25.0 * 28.349523), "2 lb 8 oz"),
    ],
)
def test_each_kind_is_told_in_the_units_of_an_american_shop(figure: Figure, told: str) -> None:
    assert write_figure(figure, INCHES) == told


def test_a_long_time_is_never_told_to_less_than_a_minute() -> None:
    assert write_figure(seconds(1490.0, 10.0), how="±") == "25 ±1 min"


def test_a_doubt_is_never_told_as_nothing() -> None:
    assert write_figure(Figure(0.2565, Kind.FINE, 0.006), INCHES, "±") == "0.0101 ±0.0004 in"


@pytest.mark.parametrize("how", ["", "~", "n", "="])
def test_a_gap_in_inches_is_not_told_as_nothing_for_its_doubt(how: str) -> None:
    # 0.4 mm is 0.016 in (25.4 mm to the inch).
    assert "0.016" in write_figure(Figure(0.4, Kind.GAP, 0.05), INCHES, how)


def test_what_rounds_to_nothing_has_no_sign() -> None:
    for kind in (Kind.VOLUME, Kind.FINE, Kind.FACTOR, Kind.STRESS):
        assert "\N{MINUS SIGN}" not in write_figure(Figure(-1e-9, kind))


def test_inches_round_by_halves() -> None:
    assert write_figure(mm(25.4 * 1.40625, 0.05), INCHES) == "1 13/32 in"
    assert write_figure(mm(25.4 * 1.40625, 2.5), INCHES, "±") == "1 13/32 ±5/32 in"
    assert write_figure(mm(25.4 * 7.40625, 25.4), INCHES, "±") == "7 1/2 ±1 1/2 in"


def test_limits_and_spans_say_their_unit_once() -> None:
    assert write_span(Span(800.0, 830.0, Kind.TEMPERATURE)) == "800 to 830 °C"
    assert write_wanted(Wanted(read_limits("28 ±1"))) == "28 ±1 mm"


@given(
    st.floats(0.5, 5000.0),
    st.floats(1e-4, 200.0),
    st.sampled_from([Shown(), INCHES]),
    st.sampled_from(["", "±"]),
)
def test_no_figure_is_told_finer_than_its_doubt(value: float, doubt: float, shown: Shown, how: str) -> None:
    text = write_figure(mm(value, doubt), shown, how)
    assert "±0 " not in text
    told = re.sub(r" ±.*", "", write_figure(mm(value, doubt), shown, how))
    number = told.removesuffix(" mm").removesuffix(" in")
    whole, *parts = number.split() if " " in number else [number]
    read = sum(_number(part) for part in (whole, *parts)) * (25.4 if shown.system == "in" else 1.0)
    assert abs(read - value) <= max(COVERAGE * doubt, 0.5)


@pytest.mark.parametrize("shown", [Shown(), INCHES])
def test_what_rounds_to_zero_has_no_sign_beside_its_doubt_either(shown: Shown) -> None:
    assert write_figure(Figure(-0.4, Kind.VOLUME, 5.0), shown, "±").startswith("0.000")


def _number(text: str) -> float:
    over, _, under = text.partition("/")
    return float(over) / float(under) if under else float(over)
