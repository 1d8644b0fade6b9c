"""How sizes are written, and that what is written can be read back."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from coach.quantities import (
    Limits,
    read_angle_deg,
    read_duration_s,
    read_length_mm,
    read_limits,
    read_mass_g,
    read_share,
    read_temperature_c,
)
from coach.telling.limits import write_limit
from coach.telling.limits import write_limits as limits
from coach.telling.writing import Shown
from coach.telling.writing import write_angle as angle
from coach.telling.writing import write_as_read as as_read
from coach.telling.writing import write_duration as duration
from coach.telling.writing import write_length as length
from coach.telling.writing import write_mass as mass
from coach.telling.writing import write_share as share
from coach.telling.writing import write_temperature as temperature

MM = Shown()
INCHES = Shown("in")
SIXTEENTHS = Shown("in", 16)


@pytest.mark.parametrize(
    ("mm", "text"),
    [
        (31.5, "31.5 mm"),
        (28.0, "28 mm"),
        (31.75, "31.8 mm"),
        (0.25, "0.3 mm"),
        (0.35, "0.4 mm"),
        (0.0, "0 mm"),
        (0.04, "0 mm"),
        (-0.04, "0 mm"),
        (-0.0, "0 mm"),
        (-1.5, "−1.5 mm"),
        (99.94, "99.9 mm"),
        (99.96, "100 mm"),
        (142.3, "142.5 mm"),
        (142.74, "142.5 mm"),
        (142.75, "143 mm"),
        (999.8, "1000 mm"),
        (1234.5, "1235 mm"),
    ],
)
def test_millimetres_are_no_finer_than_a_forge_can_hold(mm: float, text: str) -> None:
    assert length(mm) == text


# 25.4 mm to the inch, exactly (agreement of 1959).
@pytest.mark.parametrize(
    ("inches", "shown", "text"),
    [
        (1.25, INCHES, "1 1/4 in"),
        (0.625, INCHES, "5/8 in"),
        (0.0, INCHES, "0 in"),
        (0.01, INCHES, "0 in"),
        (-1.25, INCHES, "−1 1/4 in"),
        (2.0, INCHES, "2 in"),
        (1 / 32, INCHES, "1/32 in"),
        (1 / 64, INCHES, "1/32 in"),
        (31.4 / 32, INCHES, "31/32 in"),
        (31.6 / 32, INCHES, "1 in"),
        (1 + 31.6 / 32, INCHES, "2 in"),
        (1 + 1 / 32, SIXTEENTHS, "1 1/16 in"),
        (15.4 / 16, SIXTEENTHS, "15/16 in"),
        (15.6 / 16, SIXTEENTHS, "1 in"),
        (48.5, SIXTEENTHS, "48 1/2 in"),
    ],
)
def test_inches_are_written_as_a_reduced_fraction(inches: float, shown: Shown, text: str) -> None:
    assert length(inches * 25.4, shown) == text


def test_the_unit_can_be_left_out_and_nothing_has_no_sign() -> None:
    assert length(31.5, unit=False) == "31.5"
    assert length(31.75, INCHES, unit=False) == "1 1/4"
    assert length(-1.5) == "−1.5 mm"
    assert length(-0.01) == "0 mm"


@pytest.mark.parametrize(
    ("typed", "shown", "text"),
    [
        ("28", MM, "28 mm"),
        ("28 ±1", MM, "28 ±1 mm"),
        ("27 to 29", MM, "28 ±1 mm"),
        ("28 +0 -1", MM, "28 +0 −1 mm"),
        ("28 +0.5 -1", MM, "28 +0.5 −1 mm"),
        # 27.25 and 0.75 do not add up once rounded to 0.1, so the limits stand alone.
        ("27.25 ±0.75", MM, "26.5 to 28 mm"),
        ("at least 40", MM, "at least 40 mm"),
        ("at most 6", MM, "at most 6 mm"),
        ("44, at least 40", MM, "44, at least 40 mm"),
        ("44, at most 48", MM, "44, at most 48 mm"),
        ("1 1/8 ±1/16 in", INCHES, "1 1/8 ±1/16 in"),
        ("1 1/8 +0 -1/16 in", INCHES, "1 1/8 +0 −1/16 in"),
        ("1 1/8, at least 1 in", INCHES, "1 1/8, at least 1 in"),
        # 25.4 mm to the inch. 27 and 29 mm are 34.016 and 36.535 thirty-seconds: 35 to 36 leave 0.4 of it;
        # 68.03 and 73.07 sixty-fourths: 69 and 73, about 71 (28 mm are 70.55).
        ("28 ±1", INCHES, "1 7/64 ±1/32 in"),
        # 17.5 and 19.5 mm are 44.09 and 49.13 sixty-fourths: 45 and 49, about 47 (18.5 mm are 46.61).
        ("18.5 ±1", INCHES, "47/64 ±1/32 in"),
        # 26 and 29 mm are 32.76 and 36.54 thirty-seconds: 33 and 36 leave 0.79; 27.5 mm are 34.65.
        ("27.5 ±1.5", INCHES, "1 1/32 to 1 1/8 in"),
        # 12 and 13.8 mm are 0.47244 and 0.54331 in, 30.24 and 34.77 sixty-fourths: no fraction leaves enough.
        ("12.9 ±0.9", INCHES, "0.508 ±0.035 in"),
        # A twentieth of half an inch is less than a thirty-second: the aim stays a fraction.
        ("1/2 ±0.025 in", INCHES, "1/2 ±0.025 in"),
        # 8.5, 9 and 9.5 mm are 0.33465, 0.35433 and 0.37402 in: 0.335 is 0.019 below 0.354.
        ("9 ±0.5", INCHES, "0.354 ±0.019 in"),
        # 40 mm are 50.39 thirty-seconds.
        ("at least 40", INCHES, "at least 1 19/32 in"),
        # 6 mm are 7.56 thirty-seconds and 15.12 sixty-fourths: 7/32 would take a fourteenth of it.
        ("at most 6", INCHES, "at most 15/64 in"),
        # 2 mm are 0.07874 in, 5.04 sixty-fourths: 6 would be 2.38 mm.
        ("at least 2", INCHES, "at least 0.079 in"),
        # 6.2 and 6 mm are 0.24409 and 0.23622 in: in fractions both would be 1/4.
        ("6.2, at least 6", INCHES, "0.244, at least 0.237 in"),
        # 1.3, 1.6 and 1.9 mm are 0.05118, 0.06299 and 0.07480 in: 0.074 is 0.011 above 0.063.
        ("1.6 ±0.3", INCHES, "0.063 ±0.011 in"),
        # 1 1/8 and 1/16 in are 28.575 and 1.5875 mm: 26.9875 to 30.1625, and 30.1 is 1.5 over 28.6.
        ("1 1/8 ±1/16 in", MM, "28.6 ±1.5 mm"),
        # A rule in half millimetres has none of 119.6 to 120.4 but 120.
        ("120 ±0.4", MM, "120 ±0.4 mm"),
        ("2 ±0.04", MM, "2.00 ±0.04 mm"),
        ("2 +0.04 -0.5", MM, "2.00 +0.04 −0.50 mm"),
    ],
)
def test_limits_are_written_as_a_smith_writes_them(typed: str, shown: Shown, text: str) -> None:
    assert limits(read_limits(typed), shown) == text


def test_a_size_with_both_limits_open_is_written_alone() -> None:
    assert limits(Limits(28, -math.inf, math.inf, stated=True)) == "28 mm"


# An ounce is 28.349523125 g (agreement of 1959).
@pytest.mark.parametrize(
    ("g", "shown", "text"),
    [
        (0, MM, "0 g"),
        (8.44, MM, "8.4 g"),
        (99.97, MM, "100 g"),
        (415.2, MM, "415 g"),
        (999.6, MM, "1 kg"),
        (1243, MM, "1.24 kg"),
        (-20, MM, "−20 g"),
        (28.349523125 * 14.62, INCHES, "14.6 oz"),
        (28.349523125 * 15.97, INCHES, "1 lb"),
        (28.349523125 * 20, INCHES, "1 lb 4 oz"),
        (28.349523125 * 31.8, INCHES, "2 lb"),
        (-28.349523125 * 20, INCHES, "−1 lb 4 oz"),
    ],
)
def test_a_mass_is_written_to_what_scales_can_tell(g: float, shown: Shown, text: str) -> None:
    assert mass(g, shown) == text


@pytest.mark.parametrize(
    ("c", "shown", "text"),
    [(898.9, MM, "899 °C"), (900, INCHES, "1652 °F"), (-0.2, MM, "0 °C"), (-20.4, MM, "−20 °C")],
)
def test_a_temperature_is_written_to_the_whole_degree(c: float, shown: Shown, text: str) -> None:
    assert temperature(c, shown) == text


@pytest.mark.parametrize(
    ("s", "text"),
    [
        (0, "0 s"),
        (90, "90 s"),
        (105, "1 min 45 s"),
        (119.6, "2 min"),
        (200, "3 min 20 s"),
        (599.7, "10 min"),
        (720, "12 min"),
        (3599, "1 h"),
        (11_400, "3 h 10 min"),
        (-90, "−90 s"),
    ],
)
def test_a_duration_is_written_in_the_units_one_would_say(s: float, text: str) -> None:
    assert duration(s) == text


@pytest.mark.parametrize(
    ("part", "text"),
    [
        (0.03, "3 %"),
        (0.005, "0.5 %"),
        (0.234, "23 %"),
        (0.95, "95 %"),
        (0.9967, "99.7 %"),
        (1, "100 %"),
        (0, "0 %"),
    ],
)
def test_a_share_is_finer_where_it_nears_nothing_or_all(part: float, text: str) -> None:
    assert share(part) == text


@pytest.mark.parametrize(("deg", "text"), [(45, "45°"), (22.4, "22.5°"), (22.2, "22°"), (-10, "−10°")])
def test_an_angle_is_written_to_half_a_degree(deg: float, text: str) -> None:
    assert angle(deg) == text


@pytest.mark.parametrize("amount", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize("write", [length, mass, temperature, duration, share, angle])
def test_what_is_not_finite_is_never_written(write: Callable[[float], str], amount: float) -> None:
    with pytest.raises(ValueError, match="cannot be written"):
        write(amount)


def test_only_known_ways_of_showing_can_be_chosen() -> None:
    with pytest.raises(ValueError, match="sixteenths or thirty-seconds"):
        Shown("in", 10)
    with pytest.raises(ValueError, match="mm or in"):
        Shown("furlong")  # type: ignore[arg-type]


@settings(deadline=None)
@given(st.floats(0.05, 99_999))
def test_a_length_in_millimetres_reads_back_within_its_rounding(mm: float) -> None:
    step = 0.1 if mm < 100 else 0.5 if mm < 1000 else 1
    assert abs(read_length_mm(length(mm)) - mm) <= step / 2 + 1e-9


@settings(deadline=None)
@given(st.floats(1, 99_999), st.sampled_from([INCHES, SIXTEENTHS]))
def test_a_length_in_inches_reads_back_within_its_rounding(mm: float, shown: Shown) -> None:
    assert abs(read_length_mm(length(mm, shown)) - mm) <= 25.4 / shown.fraction / 2 + 1e-9


@settings(deadline=None)
@given(whole=st.integers(0, 40), parts=st.integers(0, 31))
def test_inches_on_the_grid_come_back_as_they_went(whole: int, parts: int) -> None:
    assume(whole or parts)
    exact = whole + Fraction(parts, 32)
    typed = f"{exact.numerator}/{exact.denominator} in"
    written = length(read_length_mm(typed), INCHES)
    assert read_length_mm(written) == read_length_mm(typed)


@settings(deadline=None)
@given(low=st.floats(3, 900), more=st.floats(0.2, 90), fraction=st.sampled_from([16, 32]))
def test_no_limit_in_inches_lies_beyond_what_is_allowed(low: float, more: float, fraction: int) -> None:
    low, high = round(low, 1), round(low + more, 1)
    told = limits(Limits((low + high) / 2, low, high, stated=True), Shown("in", fraction))
    read = read_limits(told)
    dust = 1e-5  # of what floats are
    assert low - dust <= read.low < read.nominal < read.high <= high + dust


@settings(deadline=None)
@given(
    low=st.floats(1, 900),
    below=st.floats(0, 60),
    above=st.floats(0, 60),
    shown=st.sampled_from([MM, INCHES, SIXTEENTHS]),
)
def test_what_is_told_of_limits_is_allowed_and_keeps_their_order(
    low: float, below: float, above: float, shown: Shown
) -> None:
    low, below, above = (round(one, 2) for one in (low, below, above))
    assume(below + above >= 0.05)
    wanted = Limits(low + below, low, low + below + above, stated=True)
    told = limits(wanted, shown)
    read = read_limits(told)
    assert wanted.low - 1e-5 <= read.low <= read.nominal <= read.high <= wanted.high + 1e-5
    if " to " not in told:  # which says nothing of what is aimed at
        assert (read.low < read.nominal) == (below > 0)
        assert (read.nominal < read.high) == (above > 0)
    assert read.high - read.low >= (wanted.high - wanted.low) / 2
    for is_low in (True, False):
        end = read_length_mm(write_limit(wanted, shown, low=is_low))
        assert end == pytest.approx(read.low if is_low else read.high, abs=1e-6)


@settings(deadline=None)
@given(st.floats(1, 900), st.booleans(), st.sampled_from([MM, INCHES, SIXTEENTHS]))
def test_a_limit_that_stands_alone_is_never_told_wider_and_little_narrower(
    bound: float, is_low: bool, shown: Shown
) -> None:
    bound = round(bound, 2)
    ends = (bound, math.inf) if is_low else (-math.inf, bound)
    read = read_limits(limits(Limits(bound, *ends, stated=True), shown))
    lost = read.low - bound if is_low else bound - read.high
    assert -1e-5 <= lost <= bound / 20 + 1e-5


@settings(deadline=None)
@given(low=st.integers(1, 900), below=st.integers(0, 90), above=st.integers(0, 90))
def test_limits_on_the_grid_come_back_as_they_went(low: int, below: int, above: int) -> None:
    nominal, high = low + below, low + below + above
    assume(high < 1000)
    before = Limits(nominal / 10, low / 10, high / 10, stated=True)
    assert read_limits(limits(before)) == before


@settings(deadline=None)
@given(st.floats(0.1, 900_000), st.sampled_from([MM, INCHES]))
def test_a_mass_reads_back_within_its_rounding(g: float, shown: Shown) -> None:
    assume(g > 3 or shown is MM)
    step = (0.1 if g < 100 else 1 if g < 1000 else 10) if shown is MM else (2.84 if g < 450 else 14.2)
    assert abs(read_mass_g(mass(g, shown)) - g) <= step / 2 + 1e-6


@settings(deadline=None)
@given(st.floats(-49, 1599), st.sampled_from([MM, INCHES]))
def test_a_temperature_reads_back_within_its_rounding(c: float, shown: Shown) -> None:
    assert abs(read_temperature_c(temperature(c, shown)) - c) <= 0.5 + 1e-9


@settings(deadline=None)
@given(st.floats(1, 3_000_000))
def test_a_duration_reads_back_within_its_rounding(s: float) -> None:
    assert abs(read_duration_s(duration(s)) - s) <= (0.5 if s < 599 else 30)


@settings(deadline=None)
@given(st.floats(0, 1))
def test_a_share_reads_back_within_its_rounding(part: float) -> None:
    assert abs(read_share(share(part)) - part) <= 0.005 + 1e-12


@settings(deadline=None)
@given(st.floats(0.25, 360))
def test_an_angle_reads_back_within_its_rounding(deg: float) -> None:
    assert abs(read_angle_deg(angle(deg)) - deg) <= 0.25 + 1e-9


# Exact: 25.4 mm to the inch (international yard and pound agreement of 1959), 778.6 mm is written as typed.
@pytest.mark.parametrize(
    ("mm", "shown", "text"),
    [
        (778.6, MM, "778.6 mm"),
        (1200.5, MM, "1200.5 mm"),
        (31.25, MM, "31.25 mm"),
        (0.0, MM, "0 mm"),
        (34.925, MM, "34.9 mm"),
        (21 / 64 * 25.4, INCHES, "21/64 in"),
        (1.374 * 25.4, INCHES, "1.374 in"),
        (1.375 * 25.4, INCHES, "1 3/8 in"),
        (31.5, INCHES, "1.240 in"),  # 1.24016: 1 1/4 is 31.75 mm
        (6.8, INCHES, "0.268 in"),  # 0.26772: 9/32 is 7.14 mm
        (140.0, INCHES, "5.51 in"),  # 5.5118, by a rule in half millimetres
    ],
)
def test_a_reading_is_written_no_coarser_than_its_gauge_gave_it(mm: float, shown: Shown, text: str) -> None:
    assert as_read(mm, shown) == text


def test_limits_that_are_even_are_told_so_at_any_length() -> None:
    # A hundredth that the fire needs is no reason to leave the aim out: 90 - 8.9 = 81.1, above 81.011.
    assert limits(Limits(90.0, 81.011, 99.0, True)) == "90 ±8.9 mm"
    # 105 and 119.5 stand on a rule in half millimetres (our choice): 105 ±2.1 ends at 103 and 107 there.
    assert limits(Limits(105.0, 102.9, 107.1, True)) == "105 ±2 mm"
    assert limits(Limits(63.3, 61.2, 65.4, True)) == "63.3 ±2.1 mm"
