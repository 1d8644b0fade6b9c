"""Tests of the operations that reach their sizes by taking metal away."""

from __future__ import annotations

import pytest

from coach.operations import Shape, Work, operation

# 40 × 10 × 100 mm; every expected number below is width times thickness times length.
_BAR = Shape("flat").form({"width": 40.0, "thickness": 10.0, "length": 100.0})


def test_what_a_recipe_states_comes_off_the_length_of_a_ground_bar() -> None:
    work = Work(Shape("flat"), {"width": 40.0, "thickness": 10.0}, "length", loss_length_mm=2.0)
    worked = operation("grind").work(_BAR, 40_000.0, work)
    assert worked.form.size_mm("length") == pytest.approx(98.0)
    assert worked.taken_mm3 == pytest.approx({"stated": 800.0, "ground": 0.0})
    assert worked.volume_mm3 == pytest.approx(39_200.0)


def test_grinding_to_a_thickness_and_losing_a_length_are_told_apart() -> None:
    work = Work(Shape("flat"), {"width": 40.0, "thickness": 8.0}, "length", loss_length_mm=2.0)
    worked = operation("grind").work(_BAR, 40_000.0, work)
    assert worked.form.size_mm("length") == pytest.approx(98.0)
    assert worked.taken_mm3 == pytest.approx({"stated": 800.0, "ground": 40.0 * 2.0 * 98.0})
    assert worked.volume_mm3 == pytest.approx(40.0 * 8.0 * 98.0)


def test_a_bar_to_be_ground_to_length_must_hold_what_the_recipe_states_as_well() -> None:
    work = Work(
        Shape("flat"),
        {"width": 40.0, "thickness": 10.0},
        "length",
        amounts={"skin_mm": 1.0},
        free_mm=97.0,
        loss_length_mm=2.0,
    )
    assert operation("grind").surplus_mm3(_BAR, 40_000.0, work) == pytest.approx(0.0, abs=1e-6)


def test_what_a_recipe_states_is_lost_at_a_cut_before_the_length_is_kept() -> None:
    work = Work(
        Shape("flat"),
        {"width": 40.0, "thickness": 10.0},
        "length",
        amounts={"kerf_mm": 3.0},
        free_mm=90.0,
        loss_length_mm=2.0,
    )
    worked = operation("cut").work(_BAR, 40_000.0, work)
    assert worked.taken_mm3 == pytest.approx({"kerf": 1200.0, "stated": 800.0, "offcut": 2000.0})
    assert worked.form.size_mm("length") == pytest.approx(90.0)
    assert operation("cut").surplus_mm3(_BAR, 40_000.0, work) == pytest.approx(2000.0)


def test_the_scale_of_a_hot_cut_comes_off_the_section_and_not_off_the_length() -> None:
    # By hand: 0.1 mm off four faces of 100 mm is 2 · (40 + 10) · 100 · 0.1 = 1000 mm³, and 39,000 mm³ of
    # 39.8 × 9.8 mm are 99.99 mm long (the corners lie in two faces each).
    work = Work(Shape("flat"), {"width": 39.8, "thickness": 9.8}, "length", heats=1.0, face_loss_mm=0.1)
    worked = operation("cut").work(_BAR, 40_000.0, work)
    assert worked.taken_mm3 == pytest.approx({"scale": 1000.0})
    assert worked.form.sizes_mm() == pytest.approx(
        {"width": 39.8, "thickness": 9.8, "length": 100.0}, abs=0.02
    )
    to_length = work._replace(free_mm=90.0)
    assert operation("cut").work(_BAR, 40_000.0, to_length).volume_mm3 == pytest.approx(39.8 * 9.8 * 90.0)
