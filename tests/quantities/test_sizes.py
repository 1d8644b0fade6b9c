"""How lengths are read."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.quantities import SizeError, read_length_mm
from tests.quantities.refusals import NEVER_A_SIZE, read_or_refused, refusal

# 1 in = 25.4 mm and 1 ft = 304.8 mm exactly: international yard and pound agreement of 1959
# (NIST SP 811 (2008), appendix B.8). Every value below is that definition times a hand-written fraction.
LENGTHS = [
    ("31.5", 31.5),
    ("31,5", 31.5),
    ("0,125", 0.125),
    (".5", 0.5),
    (",5", 0.5),
    ("028.30", 28.3),
    ("+28.35", 28.35),
    ("31.5 mm", 31.5),
    ("31.5mm", 31.5),
    ("31.5 MM", 31.5),
    ("31.5 Mm", 31.5),
    ("31.5 mm.", 31.5),
    ("  31.5  mm  ", 31.5),
    ("31.5\u00a0mm", 31.5),
    ("31.5\u202fmm", 31.5),
    ("31.5\tmm", 31.5),
    ("28 1/2", 28.5),
    ("12 millimetres", 12.0),
    ("3.1 cm", 31.0),
    ("1 cm 2 mm", 12.0),
    ("1 m", 1000.0),
    ("1 m 5 cm", 1050.0),
    ("100 m", 100_000.0),
    (".5 in", 12.7),
    ("1 1/4 in", 31.75),
    ("1 1/4 IN", 31.75),
    ("1 1/4 inches", 31.75),
    ("1 1/4 in.", 31.75),
    ('1-1/4"', 31.75),
    ("1‐1/4 in", 31.75),
    ('1 1/4"', 31.75),
    ("1 1 / 4 in", 31.75),
    ("5/4 in", 31.75),
    ("1.25in", 31.75),
    ("1,25 in", 31.75),
    ("5/8 in", 15.875),
    ("5⁄8 in", 15.875),
    ("1½ in", 38.1),
    ("1 ½ in", 38.1),
    ("1-½ in", 38.1),
    ("½″", 12.7),
    ("⅞ in", 22.225),
    ("1 3/8 in", 34.925),
    ("1/3 in", 25.4 / 3),
    ("1' 2\"", 355.6),
    ("1'2\"", 355.6),
    ("1'-2\"", 355.6),
    ("1' 2''", 355.6),
    ("1 ft 2 in", 355.6),
    ("1ft2in", 355.6),
    ("1 foot 2 inches", 355.6),
    ("1.5 ft", 457.2),
    ("5′ 2½″", 1587.5),
    ("5’ 2 1/2”", 1587.5),
]


@pytest.mark.parametrize(("text", "length_mm"), LENGTHS)
def test_a_length_is_read_as_a_smith_writes_it(text: str, length_mm: float) -> None:
    assert read_length_mm(text) == pytest.approx(length_mm, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "length_mm"), [("1 1/4", 31.75), ("1.25", 31.75), ("31.75 mm", 31.75), ("1 ft", 304.8)]
)
def test_a_bare_number_is_in_the_unit_in_use(text: str, length_mm: float) -> None:
    assert read_length_mm(text, "in") == length_mm


@pytest.mark.parametrize("text", NEVER_A_SIZE)
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_what_is_no_length_is_refused_in_one_sentence(text: str, unit: str) -> None:
    refusal(lambda typed: read_length_mm(typed, unit), text)


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("1,500", "either 1.500 or 1500"),
        ("12,500 mm", "either 12.500 or 12500"),
        ("1e3", "power of ten"),
        ("1,500.5", "two decimal marks"),
        ("-3", "minus"),
        ("−3", "minus"),
        ("0", "more than 0"),
        ("0 in", "more than 0"),
        ("100.001 m", "at most 100 m"),
        ("99999999999999999999 mm", "at most 100 m"),
        ("1/0", "zero under its fraction"),
        ("1 5/4 in", "mixed number"),
        ("28 furlong", "use mm, cm, m, in or ft"),
        ("28 min", "not a unit of length"),
        ("", "Nothing was typed"),
        ("9" * 10_000, "too long"),
        ("28\n30", "line break"),
        ("٣", "digit other than 0 to 9"),
        ("5' 2", "without a unit"),
        ("1 ft 2 ft", "do not add up"),
        ("2 in 1 ft", "do not add up"),
        ("1.5 ft 2 in", "whole"),
        ("1'-", "is not a length"),
        ("27-29", "is not a length"),
    ],
)
def test_a_refusal_says_what_is_wrong(text: str, word: str) -> None:
    assert word in refusal(read_length_mm, text)


def test_a_refusal_never_echoes_more_than_thirty_characters() -> None:
    echo = refusal(read_length_mm, "x" * 5_000).split("“")[1].split("”")[0]
    assert len(echo) <= 30


def test_a_unit_the_program_does_not_have_is_a_mistake_of_the_caller() -> None:
    with pytest.raises(ValueError, match="furlong") as caught:
        read_length_mm("28", "furlong")
    assert not isinstance(caught.value, SizeError)


# pint's own list of units, which the package does not use, is the independent reference.
PINT_NAMES = {"mm": "millimeter", "cm": "centimeter", "m": "meter", "in": "inch", "ft": "foot"}
PINT: pint.UnitRegistry[Any] = pint.UnitRegistry(non_int_type=Fraction)


@settings(deadline=None)
@given(
    unit=st.sampled_from(sorted(PINT_NAMES)),
    whole=st.integers(0, 90),
    top=st.integers(1, 63),
    bottom=st.sampled_from([64, 100]),
)
def test_every_unit_of_length_agrees_with_pint(unit: str, whole: int, top: int, bottom: int) -> None:
    expected = PINT.Quantity(whole + Fraction(top, bottom), PINT_NAMES[unit]).to("millimeter").magnitude
    assert read_length_mm(f"{whole} {top}/{bottom} {unit}") == float(expected)


@settings(deadline=None)
@given(hundredths=st.integers(1, 5_000_000), mark=st.sampled_from(".,"))
def test_a_decimal_is_read_exactly_with_either_mark(hundredths: int, mark: str) -> None:
    whole, part = divmod(hundredths, 100)
    assert read_length_mm(f"{whole}{mark}{part:02d}") == float(Fraction(hundredths, 100))


@settings(deadline=None)
@given(st.text(max_size=100) | st.text(alphabet="0123456789 .,/-+'\"½mcinft°±eE", max_size=30))
def test_any_text_at_all_is_a_length_within_bounds_or_one_refusal(text: str) -> None:
    amount = read_or_refused(read_length_mm, text)
    if isinstance(amount, float):
        assert 0 < amount <= 100_000


def test_a_character_that_is_not_seen_is_told_alike_each_time() -> None:
    with pytest.raises(SizeError) as refused:
        read_length_mm("13,3\t22,3\t9,9 x")
    assert "<U+0009>22,3<U+0009>9" in str(refused.value)


@pytest.mark.parametrize("text", ["3.2\t7.9", "5\t1/2", '1\t3/8"', "12\t34 mm", "3,2 \t 7,9", "8\t½"])
def test_cells_of_a_table_are_never_read_as_one_number(text: str) -> None:
    """Read as 1 3/8 in and 5 1/2 in: what stands between two tabs is a number of its own."""
    with pytest.raises(SizeError, match="has a tab between its numbers: give one at a time"):
        read_length_mm(text, "mm")
