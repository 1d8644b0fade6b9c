"""How a size with its limits is read."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.quantities import (
    Limits,
    SizeError,
    read_duration_s,
    read_length_mm,
    read_limits,
    read_share,
    read_temperature_c,
)
from tests.quantities.refusals import NEVER_A_SIZE, read_or_refused, refusal

INF = math.inf


def close(limits: Limits) -> object:
    """Return what compares equal to limits that differ in the last place only."""
    return pytest.approx((limits.nominal, limits.low, limits.high), rel=1e-12, abs=1e-12)


# Expected limits reckoned by hand; inches at 25.4 mm exactly (agreement of 1959).
STATED = [
    ("28 ±1", 28, 27, 29),
    ("28±1", 28, 27, 29),
    ("28 +/- 1", 28, 27, 29),
    ("28 +- 1", 28, 27, 29),
    ("28 + / - 1", 28, 27, 29),
    ("28 (±1)", 28, 27, 29),
    ("28 ±0", 28, 28, 28),
    ("28 ±.5", 28, 27.5, 28.5),
    ("28,5 ±0,5", 28.5, 28, 29),
    ("28 +0 -1", 28, 27, 28),
    ("28 +0 −1", 28, 27, 28),
    ("28 -1 +0", 28, 27, 28),
    ("28 +0.5 -1", 28, 27, 28.5),
    ("28 +0,5 -1", 28, 27, 28.5),
    ("28 +0/-1", 28, 27, 28),
    ("28 +0-1", 28, 27, 28),
    ("28 (+0 -1)", 28, 27, 28),
    ("28 (+0 / -1) mm", 28, 27, 28),
    ("28 mm +0 mm -1 mm", 28, 27, 28),
    ("27 to 29", 28, 27, 29),
    ("27 TO 29 MM", 28, 27, 29),
    ("27 mm to 29 mm", 28, 27, 29),
    ("27–29 mm", 28, 27, 29),
    ("27 – 29", 28, 27, 29),
    ("27-29", 28, 27, 29),
    ("27 - 29 mm", 28, 27, 29),
    ("27.5-29,5", 28.5, 27.5, 29.5),
    ("28 to 28", 28, 28, 28),
    ("at least 40", 40, 40, INF),
    ("At least 40 mm", 40, 40, INF),
    ("≥ 40", 40, 40, INF),
    (">=40", 40, 40, INF),
    ("min 40", 40, 40, INF),
    ("min. 40 mm", 40, 40, INF),
    ("at most 6", 6, -INF, 6),
    ("≤ 6", 6, -INF, 6),
    ("<= 6", 6, -INF, 6),
    ("max 6", 6, -INF, 6),
    ("44, at least 40", 44, 40, INF),
    ("44,5, at least 40,5", 44.5, 40.5, INF),
    ("44; at least 40 mm", 44, 40, INF),
    ("44, at most 48", 44, -INF, 48),
    ("28 mm ± 1 mm", 28, 27, 29),
    ("28 ± 1 mm", 28, 27, 29),
    ("1 1/8 ±1/16 in", 28.575, 26.9875, 30.1625),
    ("1 1/8 in ±1/16 in", 28.575, 26.9875, 30.1625),
    ("1 1/8 in ±1/16", 28.575, 26.9875, 30.1625),
    ("1-1/8 +0 -1/16 in", 28.575, 26.9875, 28.575),
    ("1 +1/16-1/32 in", 25.4, 24.60625, 26.9875),
    ("1-1/4 to 1-3/8 in", 33.3375, 31.75, 34.925),
    ('1½–2"', 44.45, 38.1, 50.8),
    ("1, at least 7/8 in", 25.4, 22.225, INF),
    # Parts in different units: 1 1/8 in = 28.575 mm.
    ("1 1/8 in ±1 mm", 28.575, 27.575, 29.575),
    ("28 mm +0 -1/16 in", 28, 26.4125, 28),
    ("1 ft 2 in ±1/8 in", 355.6, 352.425, 358.775),
    ('1\'-2" ±1/8"', 355.6, 352.425, 358.775),
    ("25 mm to 1 1/8 in", 26.7875, 25, 28.575),
]


@pytest.mark.parametrize(("text", "nominal", "low", "high"), STATED)
def test_limits_are_read_as_a_smith_writes_them(text: str, nominal: float, low: float, high: float) -> None:
    limits = read_limits(text)
    assert close(limits) == (nominal, low, high)
    assert limits.stated


@pytest.mark.parametrize(
    ("text", "size"), [("28", 28.0), ("28 mm", 28.0), ("1-1/4 in", 31.75), ("1'-2\"", 355.6)]
)
def test_a_bare_size_has_no_stated_limits(text: str, size: float) -> None:
    assert read_limits(text) == Limits(size, size, size, stated=False)


@pytest.mark.parametrize(
    ("read", "text", "nominal", "low", "high"),
    [
        (read_temperature_c, "750 ±10", 750, 740, 760),
        (read_temperature_c, "750 to 800 °C", 775, 750, 800),
        (read_temperature_c, "-10 ±5", -10, -15, -5),
        (read_temperature_c, "-10 to -5 °C", -7.5, -10, -5),
        # 1400 °F is 760 °C, and a difference of 54 °F is 30 °C: the zero of the scale must not enter.
        (read_temperature_c, "1400 ±54 °F", 760, 730, 790),
        (read_temperature_c, "760 °C ±54 °F", 760, 730, 790),
        (read_temperature_c, "at most 800 °C", 800, -INF, 800),
        (read_duration_s, "3 to 5 min", 240, 180, 300),
        (read_duration_s, "3-5", 240, 180, 300),
        (read_duration_s, "1 h ±5 min", 3600, 3300, 3900),
        (read_duration_s, "at least 3 min", 180, 180, INF),
        (read_duration_s, "min 3 min", 180, 180, INF),
        (read_share, "3 ±1 %", 0.03, 0.02, 0.04),
        (read_share, "3 ±3 %", 0.03, 0.0, 0.06),
    ],
)
def test_any_reader_can_have_limits(
    read: Callable[[str], float], text: str, nominal: float, low: float, high: float
) -> None:
    assert close(read_limits(text, read)) == (nominal, low, high)


def test_a_duration_in_parts_is_not_taken_for_a_limit() -> None:
    assert read_limits("3 min 20 s", read_duration_s) == Limits(200, 200, 200, stated=False)


def test_bare_parts_take_the_default_unit_of_the_reader() -> None:
    limits = read_limits("1 1/8 ±1/16", lambda text: read_length_mm(text, "in"))
    assert close(limits) == (28.575, 26.9875, 30.1625)


@pytest.mark.parametrize("text", NEVER_A_SIZE)
def test_what_is_no_size_is_refused_in_one_sentence(text: str) -> None:
    refusal(read_limits, text)


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("28 ±30", "reach -2"),
        ("28 ±28", "reach 0"),
        ("100 m +1 m -0 m", "reach 101 m"),
        ("29 to 27", "smaller one first"),
        ("28 - 1", "smaller one first"),
        ("28 +1", "one side only"),
        ("28 -1", "one side only"),
        ("28 +2 +1", "both tolerances on one side"),
        ("28 ±1 ±2", "size with its limits"),
        ("±1", "size with its limits"),
        ("28 ±", "size with its limits"),
        ("28 ±x", "size with its limits"),
        ("28 ±1/0", "zero under its fraction"),
        ("28 ±1,500", "either 1.500 or 1500"),
        ("28 ±5 %", "not a unit of length"),
        ("28 ±1 apples", "not a unit of length"),
        ("44, at least 50", "outside its own limit"),
        ("44, at most 40", "outside its own limit"),
        ("at least", "is not a length"),
        ("at least -3", "minus"),
        ("at least 0", "more than 0"),
        ("0 to 3", "more than 0"),
        ("27 to", "size with its limits"),
        ("to 29", "size with its limits"),
        ("27 to thick", "size with its limits"),
        ("27 to 29 ±1", "is not a length"),
        ("1 to 1 ft 2 in", "without a unit"),
        ("(28 ±1)", "is not a length"),
        ("28 ±1\n", "line break"),
    ],
)
def test_a_refusal_says_what_is_wrong(text: str, word: str) -> None:
    assert word in refusal(read_limits, text)


def test_a_range_written_in_two_units_has_its_middle_within_it() -> None:
    # 8.6506165 × 25.4 = 219.7256591 exactly: nothing lies between the two, nor may the middle lie outside.
    limits = read_limits("219.7256591 mm to 8.6506165 in")
    assert (limits.low, limits.nominal, limits.high) == (219.7256591,) * 3


def test_limits_contain_themselves_and_what_lies_between() -> None:
    limits = read_limits("28 +0 -1")
    assert [limits.contains(size) for size in (26.99, 27, 27.5, 28, 28.01, math.nan)] == [
        False,
        True,
        True,
        True,
        False,
        False,
    ]


def test_an_open_limit_has_no_width_and_only_one_side() -> None:
    assert read_limits("27 to 29").width == 2
    assert read_limits("27 to 29").is_two_sided
    for text in ("at least 40", "at most 40"):
        assert read_limits(text).width == INF
        assert not read_limits(text).is_two_sided


@pytest.mark.parametrize(
    ("nominal", "low", "high"),
    [(28, 29, 30), (28, 26, 27), (math.nan, 27, 29), (INF, 27, INF), (28, math.nan, 29)],
)
def test_limits_out_of_order_cannot_be_made(nominal: float, low: float, high: float) -> None:
    with pytest.raises(ValueError, match="out of order"):
        Limits(nominal, low, high, stated=True)


@settings(deadline=None)
@given(
    size=st.integers(100, 9000),
    plus=st.integers(0, 99),
    minus=st.integers(0, 99),
    unit=st.sampled_from(["", " mm", " cm"]),
)
def test_tolerances_are_added_exactly(size: int, plus: int, minus: int, unit: str) -> None:
    limits = read_limits(f"{size / 100} +{plus / 100} -{minus / 100}{unit}")
    assert limits.low == read_length_mm(f"{(size - minus) / 100}{unit}")
    assert limits.high == read_length_mm(f"{(size + plus) / 100}{unit}")


PIECES = [
    "28",
    "1/4",
    "1-1/4",
    "±",
    "+",
    "-",
    "to",
    "at least",
    "max",
    ",",
    ".",
    "mm",
    "in",
    "'",
    "(",
    ")",
    " ",
    "–",
    "½",
]


@settings(deadline=None)
@given(st.text(max_size=100) | st.lists(st.sampled_from(PIECES), max_size=12).map("".join))
@pytest.mark.parametrize("read", [read_length_mm, read_temperature_c])
def test_any_text_at_all_is_limits_in_order_or_one_refusal(read: Callable[[str], float], text: str) -> None:
    limits = read_or_refused(lambda typed: read_limits(typed, read), text)
    if isinstance(limits, Limits):
        assert math.isfinite(limits.nominal)
        assert limits.low <= limits.nominal <= limits.high
        if read is read_length_mm:
            assert limits.low == -INF or limits.low > 0


@pytest.mark.parametrize(
    ("written", "told"), [("800 ±900 °C", "reach -100 °C,"), ("800 ±1900 °F", "reach -1100 °F,")]
)
def test_a_limit_that_cannot_be_is_told_in_the_unit_as_it_is_written(written: str, told: str) -> None:
    with pytest.raises(SizeError) as refused:
        read_limits(written, read_temperature_c)
    assert told in str(refused.value)
