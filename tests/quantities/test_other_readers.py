"""How masses, temperatures, durations, angles and shares are read."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.quantities import (
    read_angle_deg,
    read_duration_s,
    read_mass_g,
    read_share,
    read_temperature_c,
)
from tests.quantities.refusals import NEVER_A_SIZE, read_or_refused, refusal

PINT: pint.UnitRegistry[Any] = pint.UnitRegistry(non_int_type=Fraction)

# Each reader, with the bounds it promises.
READERS: list[tuple[Callable[[str], float], float, float]] = [
    (read_mass_g, 0, 1_000_000),
    (read_temperature_c, -50, 1600),
    (read_duration_s, 0, 3_600_000),
    (read_angle_deg, 0, 360),
    (read_share, 0, 1),
]


# 1 lb = 453.592 37 g exactly and 1 oz = 1/16 lb: agreement of 1959 (NIST SP 811 (2008), appendix B.8).
@pytest.mark.parametrize(
    ("text", "mass_g"),
    [
        ("415", 415.0),
        ("415 g", 415.0),
        ("415,5 grams", 415.5),
        ("1.24 kg", 1240.0),
        ("1 kg 240 g", 1240.0),
        ("1 lb", 453.59237),
        ("2 lbs", 907.18474),
        ("1 oz", 28.349523125),
        ("1 lb 4 oz", 566.9904625),
        ("1lb 4oz", 566.9904625),
        ("2 1/2 LB", 1133.980925),
    ],
)
def test_a_mass_is_read_off_the_scales(text: str, mass_g: float) -> None:
    assert read_mass_g(text) == pytest.approx(mass_g, rel=1e-15)


def test_a_bare_mass_is_in_the_unit_in_use() -> None:
    assert read_mass_g("2", "kg") == 2000.0
    assert read_mass_g("2", "lb") == 907.18474


# t/°F = 1.8 t/°C + 32 (NIST SP 811 (2008), appendix B.8): 1650 °F is (1650 - 32) / 1.8 °C.
@pytest.mark.parametrize(
    ("text", "temperature_c"),
    [
        ("900", 900.0),
        ("900 °C", 900.0),
        ("900C", 900.0),
        ("900 c", 900.0),
        ("900°", 900.0),
        ("900 º C", 900.0),
        ("900 deg C", 900.0),
        ("900 degC", 900.0),
        ("900 ℃", 900.0),
        ("1652 °F", 900.0),
        ("1652 ℉", 900.0),
        ("1650 °F", 8090 / 9),
        ("1650 F", 8090 / 9),
        ("32 F", 0.0),
        ("0", 0.0),
        ("-20", -20.0),
        ("−40 °F", -40.0),
        ("-50", -50.0),
        ("1600", 1600.0),
    ],
)
def test_a_temperature_is_read_in_either_scale(text: str, temperature_c: float) -> None:
    assert read_temperature_c(text) == pytest.approx(temperature_c, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "duration_s"),
    [
        ("90 s", 90.0),
        ("90s", 90.0),
        ("90 seconds", 90.0),
        ("3 min", 180.0),
        ("3", 180.0),
        ("2,5", 150.0),
        ("1/2", 30.0),
        ("1 h 30 min", 5400.0),
        ("1h30m", 5400.0),
        ("1 hr 30 mins", 5400.0),
        ("1 min 30 s", 90.0),
        ("1 h 1 min 1 s", 3661.0),
        ("12 hours", 43_200.0),
    ],
)
def test_a_duration_is_read_with_its_parts(text: str, duration_s: float) -> None:
    assert read_duration_s(text) == duration_s


def test_a_clock_time_is_refused_as_hours_or_minutes() -> None:
    assert "hours or as minutes" in refusal(read_duration_s, "1:30")


@pytest.mark.parametrize(
    ("text", "angle_deg"),
    [("45", 45.0), ("45°", 45.0), ("45 deg", 45.0), ("22 1/2 degrees", 22.5), ("360", 360.0), ("0.5°", 0.5)],
)
def test_an_angle_is_read_in_degrees(text: str, angle_deg: float) -> None:
    assert read_angle_deg(text) == angle_deg


@pytest.mark.parametrize(
    ("text", "share"),
    [
        ("3 %", 0.03),
        ("3%", 0.03),
        ("2.5 %", 0.025),
        ("1/2 %", 0.005),
        ("3 per cent", 0.03),
        ("3 percent", 0.03),
        ("0 %", 0.0),
        ("100 %", 1.0),
    ],
)
def test_a_share_is_read_in_per_cent(text: str, share: float) -> None:
    assert read_share(text) == share


def test_a_bare_share_is_asked_for_its_per_cent_sign() -> None:
    assert "with the % sign" in refusal(read_share, "0.03")


@pytest.mark.parametrize(
    ("read", "text", "word"),
    [
        (read_mass_g, "0", "more than 0"),
        (read_mass_g, "-3 g", "minus"),
        (read_mass_g, "1001 kg", "at most 1000 kg"),
        (read_mass_g, "2 st", "use g, kg, oz or lb"),
        (read_mass_g, "31 mm", "not a unit of mass"),
        (read_temperature_c, "1601", "-50 to 1600"),
        (read_temperature_c, "-51", "-50 to 1600"),
        (read_temperature_c, "3000 °F", "-50 to 1600"),
        (read_temperature_c, "1173 K", "use °C or °F"),
        (read_temperature_c, "cherry", "not a temperature"),
        (read_duration_s, "0", "more than 0"),
        (read_duration_s, "1001 h", "at most 1000 h"),
        (read_duration_s, "1h30", "without a unit"),
        (read_duration_s, "3 days", "use s, min or h"),
        (read_angle_deg, "0", "more than 0°"),
        (read_angle_deg, "360.1", "at most 360°"),
        (read_angle_deg, "1 rad", "use ° or deg"),
        (read_share, "101 %", "0 % to 100 %"),
        (read_share, "-1 %", "0 % to 100 %"),
    ],
)
def test_a_refusal_says_what_is_wrong(read: Callable[[str], float], text: str, word: str) -> None:
    assert word in refusal(read, text)


@pytest.mark.parametrize("text", NEVER_A_SIZE)
@pytest.mark.parametrize("read", [reader[0] for reader in READERS])
def test_what_is_no_amount_is_refused_in_one_sentence(read: Callable[[str], float], text: str) -> None:
    refusal(read, text)


# pint's own list of units, which the package does not use, is the independent reference.
@settings(deadline=None)
@given(tenths=st.integers(1, 9999))
@pytest.mark.parametrize(
    ("read", "unit", "name", "wanted"),
    [
        (read_mass_g, "kg", "kilogram", "gram"),
        (read_mass_g, "oz", "ounce", "gram"),
        (read_mass_g, "lb", "pound", "gram"),
        (read_temperature_c, "°F", "degree_Fahrenheit", "degree_Celsius"),
        (read_temperature_c, "°C", "degree_Celsius", "degree_Celsius"),
        (read_duration_s, "min", "minute", "second"),
        (read_duration_s, "h", "hour", "second"),
    ],
)
def test_every_unit_agrees_with_pint(
    read: Callable[[str], float], unit: str, name: str, wanted: str, tenths: int
) -> None:
    expected = PINT.Quantity(Fraction(tenths, 10), name).to(wanted).magnitude
    assert read(f"{tenths // 10}.{tenths % 10} {unit}") == float(expected)


@settings(deadline=None)
@given(st.text(max_size=100) | st.text(alphabet="0123456789 .,/-+½kglbozhmins°CF%degx:", max_size=30))
@pytest.mark.parametrize(("read", "least", "most"), READERS)
def test_any_text_at_all_is_an_amount_within_bounds_or_one_refusal(
    read: Callable[[str], float], least: float, most: float, text: str
) -> None:
    amount = read_or_refused(read, text)
    if isinstance(amount, float):
        assert least <= amount <= most
