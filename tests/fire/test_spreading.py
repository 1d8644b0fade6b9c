"""Tests of how a squeezed bar spreads and grows longer."""

from __future__ import annotations

import math
import random
import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.fire.spreading import (
    GREATEST_BITE_SHARE,
    LEAST_BITE_SHARE,
    measured_coefficient,
    spread_coefficient,
    squeeze,
    squeezed_mm,
)
from coach.quantities.refusal import OutOfRange

sizes_mm = st.floats(min_value=0.5, max_value=500)
squeezes = st.floats(min_value=1.0, max_value=4.0)
coefficients = st.floats(min_value=0.0, max_value=1.0)
bite_shares = st.floats(min_value=LEAST_BITE_SHARE, max_value=GREATEST_BITE_SHARE)


# Tomlinson and Stringer 1959; coefficients from memory, the values worked from them apart from the program.
spread_width_mm = squeezed_mm


def elongated_mm(length_mm: float, height_mm: float, new_height_mm: float, coefficient: float) -> float:
    return squeezed_mm(length_mm, height_mm, new_height_mm, 1 - coefficient)


@pytest.mark.parametrize(
    ("share", "expected"),
    [(0.25, 0.22663), (0.4, 0.27536), (0.5, 0.30650), (0.6, 0.33656), (0.8, 0.39344), (1.0, 0.44600)],
)
def test_a_wider_bite_spreads_as_published(share: float, expected: float) -> None:
    assert spread_coefficient(share * 40, 40) == pytest.approx(expected, abs=5.1e-6)


def test_a_square_bar_under_a_usual_bite_spreads_and_grows_as_published() -> None:
    # 25 mm square, bite 15 mm, squeezed to 20 mm; the same law (from memory), worked apart from the program.
    own = spread_coefficient(15, 25)
    width_mm, length_mm = spread_width_mm(25, 25, 20, own), elongated_mm(15, 25, 20, own)
    assert width_mm == pytest.approx(26.9498, abs=1e-3)
    assert length_mm == pytest.approx(17.3934, abs=1e-3)
    assert width_mm * 20 * length_mm == pytest.approx(9375.0, abs=1e-9)


def test_the_turned_side_spreads_too() -> None:
    # Turned a quarter: 26.950 mm high and 20 mm wide, the same bite, brought to 20 mm (from memory).
    turned = spread_coefficient(15, 20)
    assert turned == pytest.approx(0.37963, abs=5.1e-6)
    assert spread_width_mm(20, 26.9498, 20, turned) == pytest.approx(22.398, abs=1e-3)


def test_an_elongation_is_counted_from_the_areas_alone() -> None:
    # 25 mm square to 20 mm square is 1.5625 times as long whatever the spread: A0/A1.
    first = spread_coefficient(15, 25)
    width_mm = spread_width_mm(25, 25, 20, first)
    length_mm = elongated_mm(1000, 25, 20, first)
    assert length_mm == pytest.approx(1000 * 25 * 25 / (20 * width_mm), rel=1e-12)


def test_a_measured_heat_gives_back_the_coefficient() -> None:
    own = measured_coefficient(25, 26.9498, 25, 20, doubts_mm=(0.0, 0.0, 0.0, 0.0))
    assert own.value == pytest.approx(0.33656, abs=1e-4)
    assert own.doubt == 0.0


def test_the_doubt_of_a_measured_coefficient_is_that_of_its_sizes() -> None:
    # Judged against repeated measuring with made-up errors, 20 000 times.
    chance = random.Random(7)
    doubts_mm = (0.15, 0.2, 0.1, 0.12)
    true_mm = (30.0, 33.0, 25.0, 19.0)
    values = []
    for _ in range(20_000):
        w0, w1, h0, h1 = (chance.gauss(size, doubt) for size, doubt in zip(true_mm, doubts_mm, strict=True))
        values.append(math.log(w1 / w0) / math.log(h0 / h1))
    own = measured_coefficient(*true_mm, doubts_mm=doubts_mm)
    assert own.doubt == pytest.approx(statistics.stdev(values), rel=0.03)


@pytest.mark.parametrize("height_after_mm", [25.0, 25.0000001, 26.0])
def test_a_height_that_did_not_change_teaches_nothing(height_after_mm: float) -> None:
    with pytest.raises(OutOfRange, match="did not get less"):
        measured_coefficient(25, 26, 25, height_after_mm, doubts_mm=(0.1, 0.1, 0.1, 0.1))


@pytest.mark.parametrize("bite_mm", [9.9, 60.1, 0, -5, math.nan, math.inf])
def test_a_bite_outside_what_is_published_is_refused_in_one_sentence(bite_mm: float) -> None:
    with pytest.raises(OutOfRange) as refused:
        spread_coefficient(bite_mm, 40)
    assert str(refused.value).endswith(".")
    assert "\n" not in str(refused.value)


def test_a_refused_bite_is_told_which_bites_would_do() -> None:
    with pytest.raises(OutOfRange, match="from 10 to 60 mm"):
        spread_coefficient(100, 40)


@pytest.mark.parametrize("wrong", [0.0, -1.0, math.nan, math.inf])
def test_no_size_that_is_not_one_is_taken(wrong: float) -> None:
    for ask in (
        lambda: spread_coefficient(10, wrong),
        lambda: spread_width_mm(wrong, 25, 20, 0.3),
        lambda: spread_width_mm(25, wrong, 20, 0.3),
        lambda: spread_width_mm(25, 25, wrong, 0.3),
        lambda: elongated_mm(wrong, 25, 20, 0.3),
        lambda: measured_coefficient(25, 26, 25, wrong, doubts_mm=(0.1, 0.1, 0.1, 0.1)),
    ):
        with pytest.raises(OutOfRange):
            ask()


@pytest.mark.parametrize("coefficient", [-0.01, 1.01, math.nan, math.inf])
def test_a_coefficient_that_makes_no_sense_is_refused(coefficient: float) -> None:
    with pytest.raises(OutOfRange):
        spread_width_mm(25, 25, 20, coefficient)
    with pytest.raises(OutOfRange):
        elongated_mm(15, 25, 20, coefficient)


@pytest.mark.parametrize("doubt_mm", [-0.1, math.nan, math.inf])
def test_a_doubt_that_is_none_is_refused(doubt_mm: float) -> None:
    with pytest.raises(OutOfRange, match="width after"):
        measured_coefficient(25, 26, 25, 20, doubts_mm=(0.1, doubt_mm, 0.1, 0.1))


def test_a_squeeze_never_makes_a_bar_higher() -> None:
    with pytest.raises(OutOfRange, match="higher"):
        spread_width_mm(25, 20, 25, 0.3)
    with pytest.raises(OutOfRange, match="no height"):
        squeeze(25, 1e-320)


@given(sizes_mm, sizes_mm, sizes_mm, squeezes, coefficients)
def test_spreading_and_growing_keep_the_volume(
    width_mm: float, height_mm: float, length_mm: float, times: float, coefficient: float
) -> None:
    new_height_mm = height_mm / times
    new_width_mm = spread_width_mm(width_mm, height_mm, new_height_mm, coefficient)
    new_length_mm = elongated_mm(length_mm, height_mm, new_height_mm, coefficient)
    assert new_width_mm * new_height_mm * new_length_mm == pytest.approx(
        width_mm * height_mm * length_mm, rel=1e-12
    )
    assert new_width_mm >= width_mm
    assert new_length_mm >= length_mm


@given(sizes_mm, bite_shares)
def test_the_published_coefficient_lies_between_nothing_and_everything(width_mm: float, share: float) -> None:
    bite_mm = min(max(share * width_mm, LEAST_BITE_SHARE * width_mm), GREATEST_BITE_SHARE * width_mm)
    try:
        coefficient = spread_coefficient(bite_mm, width_mm)
    except OutOfRange:  # an end of the range, rounded across it
        return
    assert 0.0 < coefficient < 1.0


@given(bite_shares, bite_shares)
def test_a_wider_bite_never_spreads_less(one: float, other: float) -> None:
    smaller, wider = sorted((one, other))
    assert spread_coefficient(smaller, 1.0) <= spread_coefficient(wider, 1.0)


@given(sizes_mm, st.floats(min_value=1.01, max_value=4.0), coefficients)
def test_a_coefficient_is_learned_from_what_it_made(width_mm: float, times: float, own: float) -> None:
    height_mm = 30.0
    after_mm = spread_width_mm(width_mm, height_mm, height_mm / times, own)
    learned = measured_coefficient(width_mm, after_mm, height_mm, height_mm / times, doubts_mm=(0, 0, 0, 0))
    assert learned.value == pytest.approx(own, abs=1e-9)
