"""Tests of the account of laid-on steel."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.finish.laid import (
    Layer,
    cleft_faults,
    portions,
    ready_mm,
    remains_mm,
)
from coach.quantities.refusal import OutOfRange

little_mm = st.floats(min_value=0, max_value=3)
layers = st.builds(
    Layer,
    remains_mm=st.floats(min_value=0.5, max_value=15),
    skin_mm=little_mm,
    ground_mm=little_mm,
    barbs_mm=little_mm,
    scale_mm=little_mm,
    squeeze_share=st.floats(min_value=0, max_value=0.5),
    forged_ratio=st.floats(min_value=0.2, max_value=1),
    barbs_lost_share=st.floats(min_value=0, max_value=1),
)


def test_the_steel_for_a_face_adds_up_by_hand() -> None:
    # 3 left + 0.5 ground + 0.2 scale = 3.7; a tenth squeezed out of 4.1111; half of 1 mm of barbs.
    layer = Layer(3, skin_mm=0.3, ground_mm=0.5, barbs_mm=1, scale_mm=0.2, squeeze_share=0.1)
    assert ready_mm(layer) == pytest.approx(3.7 / 0.9 + 0.5, rel=1e-12)


def test_steel_in_a_joined_section_thins_with_it() -> None:
    # Forged from 12 to 6 mm, the steel that is to be 2 mm and loses 0.5 mm starts at twice 2.5.
    assert ready_mm(Layer(2, ground_mm=0.5, forged_ratio=0.5)) == pytest.approx(5)


def test_skin_and_grinding_are_not_both_taken() -> None:
    assert ready_mm(Layer(3, skin_mm=0.4, ground_mm=0.6)) == pytest.approx(3.6)
    assert ready_mm(Layer(3, skin_mm=0.6, ground_mm=0.4)) == pytest.approx(3.6)


def test_grinding_through_the_steel_shows_as_less_than_nothing() -> None:
    assert remains_mm(1.0, Layer(3, ground_mm=1.5)) == pytest.approx(-0.5)


@given(layers)
def test_ready_and_remains_undo_each_other(layer: Layer) -> None:
    assert remains_mm(ready_mm(layer), layer) == pytest.approx(layer.remains_mm, rel=1e-9)


@given(layers)
def test_the_portions_add_up_to_the_ready_thickness(layer: Layer) -> None:
    assert math.fsum(portion.size.value for portion in portions(layer)) == pytest.approx(
        ready_mm(layer), rel=1e-12
    )
    assert all(portion.size.value > 0 for portion in portions(layer))


@given(layers, st.floats(min_value=0.01, max_value=2))
def test_more_of_anything_asks_for_thicker_steel(layer: Layer, more_mm: float) -> None:
    thick_mm = ready_mm(layer)
    for changed in (
        layer._replace(remains_mm=layer.remains_mm + more_mm),
        layer._replace(scale_mm=layer.scale_mm + more_mm),
        layer._replace(ground_mm=max(layer.skin_mm, layer.ground_mm) + more_mm),
        layer._replace(forged_ratio=layer.forged_ratio / (1 + more_mm)),
    ):
        assert ready_mm(changed) > thick_mm


def test_the_portions_say_which_of_skin_and_grinding_counts() -> None:
    def words(layer: Layer) -> str:
        return "; ".join(portion.what for portion in portions(layer))

    assert "the skin with it" in words(Layer(3, skin_mm=0.3, ground_mm=0.5))
    assert "more than was to be ground" in words(Layer(3, skin_mm=0.5, ground_mm=0.3))
    assert "skin" not in words(Layer(3, ground_mm=0.5))


@pytest.mark.parametrize(
    "wrong",
    [
        Layer(-1),
        Layer(math.nan),
        Layer(3, skin_mm=math.nan),
        Layer(3, ground_mm=-0.1),
        Layer(3, barbs_mm=math.inf),
        Layer(3, scale_mm=math.nan),
        Layer(3, squeeze_share=1.0),
        Layer(3, squeeze_share=math.nan),
        Layer(3, barbs_lost_share=1.1),
        Layer(3, forged_ratio=0.0),
        Layer(3, forged_ratio=1.2),
        Layer(3, forged_ratio=math.nan),
    ],
)
def test_a_layer_that_cannot_be_is_refused_in_one_sentence(wrong: Layer) -> None:
    for ask in (ready_mm, portions, lambda layer: remains_mm(5, layer)):
        with pytest.raises(OutOfRange) as refused:
            ask(wrong)
        assert str(refused.value).endswith(".")
        assert "\n" not in str(refused.value)


def test_steel_at_the_bottom_of_its_cleft_has_no_fault_nor_have_jaws_that_lap_beyond_it() -> None:
    assert cleft_faults(18, 18, 12) == ()
    assert cleft_faults(18 + 4, 18, 12) == ()


def test_a_cleft_that_cannot_hold_the_steel_is_told() -> None:
    short, shallow = map(str, cleft_faults(15, 16, 12))
    assert "cannot go 16 mm" in short
    assert "15 mm deep" in short
    assert "18 mm deep" in shallow
    assert all(fault.endswith(".") and "\n" not in fault for fault in (short, shallow))


@pytest.mark.parametrize("wrong", [math.nan, math.inf, -1.0])
def test_a_size_that_is_none_is_refused(wrong: float) -> None:
    for ask in (
        lambda: remains_mm(wrong, Layer(3)),
        lambda: cleft_faults(wrong, 18, 12),
        lambda: cleft_faults(22, wrong, 12),
        lambda: cleft_faults(22, 18, wrong),
    ):
        with pytest.raises(OutOfRange):
            ask()
