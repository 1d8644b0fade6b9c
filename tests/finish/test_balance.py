"""Tests of where a head balances."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.finish.balance import (
    MassAt,
    balance_mm,
)
from coach.quantities.refusal import OutOfRange

sizes_mm = st.floats(min_value=1, max_value=80)
places_mm = st.floats(min_value=-300, max_value=300)
tools = st.lists(st.builds(MassAt, st.floats(min_value=1, max_value=3000), places_mm), min_size=1, max_size=6)


@given(tools, places_mm)
def test_nothing_turns_about_the_place_of_balance(parts: list[MassAt], shift_mm: float) -> None:
    place_mm = balance_mm(parts)
    moment = math.fsum(part.mass_g * (part.centre_mm - place_mm) for part in parts)
    assert moment == pytest.approx(0, abs=1e-6 * sum(part.mass_g for part in parts))
    assert min(p.centre_mm for p in parts) - 1e-9 <= place_mm <= max(p.centre_mm for p in parts) + 1e-9
    moved = [MassAt(p.mass_g, p.centre_mm + shift_mm) for p in parts]
    assert balance_mm(moved) == pytest.approx(place_mm + shift_mm, abs=1e-9)


def test_a_face_and_a_peen_balance_over_the_eye_by_hand() -> None:
    # A face 40 × 40, 30 mm long, and a peen tapered from 40 × 40 to 40 × 0 over 60 mm, either side of an eye
    # 40 mm long: 48 000 mm³ with its middle at 35 mm against 48 000 mm³ at 20 + 60/3 mm; 7.85 g/cm³.
    assert balance_mm([MassAt(376.8, -35), MassAt(376.8, 40)]) == pytest.approx(2.5)


@pytest.mark.parametrize("wrong", [math.nan, math.inf])
def test_what_cannot_be_weighed_is_refused_in_one_sentence(wrong: float) -> None:
    asks: tuple[Callable[[], float], ...] = (
        lambda: balance_mm([MassAt(wrong, 0)]),
        lambda: balance_mm([MassAt(0, 0)]),
        lambda: balance_mm([MassAt(10, wrong)]),
    )
    for ask in asks:
        with pytest.raises(OutOfRange) as refused:
            ask()
        assert str(refused.value).endswith(".")
        assert "\n" not in str(refused.value)
