"""What a recipe's metal cannot do is told before any fire is lit."""

from __future__ import annotations

import pytest

from coach.ledger.weigh import Cannot, weigh
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.ledger.recipes import DRAW, EYE, LAID, NEIGHBOURS, planned

GROWS = """
title: Knob
pieces:
  bar: {metal: mild steel, stock: {form: square, side: 16}}
drawing:
  bar: {form: square, side: 24, length: 30}
steps:
  - {do: WORK, zone: bar, to: {side: 24}, heats: 2}
"""


@pytest.mark.parametrize("text", [DRAW, NEIGHBOURS, EYE, LAID])
def test_a_sound_recipe_has_nothing_said_against_it(text: str) -> None:
    assert weigh(planned(text)) == ()


def test_a_section_cannot_grow_by_drawing() -> None:
    (finding,) = weigh(planned(GROWS.replace("WORK", "draw")))
    assert (finding.what, finding.step, finding.zone) == (Cannot.GATHER, 1, "bar")
    assert "bar would have to shorten from" in write(finding.sentence)
    assert "upset it first, or take heavier stock" in write(finding.sentence)


def test_a_section_may_grow_by_upsetting() -> None:
    assert weigh(planned(GROWS.replace("WORK", "upset"))) == ()


def test_steps_that_end_beside_the_drawing_are_told_with_both_sizes() -> None:
    text = DRAW.replace("to: {thickness: 8 ±0.5,", "to: {thickness: 9 ±0.5,")
    (finding,) = weigh(planned(text))  # and no other: metal for that thickness is marked out
    assert finding.step == 1
    assert "leave the thickness of strap at 9 mm in the end" in write(finding.sentence)
    assert "the drawing wants 8 ±0.5 mm" in write(finding.sentence)


def test_laid_steel_that_is_not_ready_for_its_weld_is_told() -> None:
    text = LAID.replace(
        "{do: draw, zone: bit, to: drawing, heats: 1}", "{do: draw, zone: bit, to: {thickness: 4}}"
    )
    findings = weigh(planned(text))
    assert any(
        "thickness of bit at 3.8 mm ready for the blade"  # 4, and the tack scales 0.08 off each face
        in write(finding.sentence)
        for finding in findings
    )


@pytest.mark.parametrize(("marked", "step"), [(True, 1), (False, 0)])
def test_a_zone_that_no_step_brings_to_its_drawing_is_told(marked: bool, step: int) -> None:
    text = (
        NEIGHBOURS if marked else NEIGHBOURS.replace("  - {do: mark out, piece: bar, gauge: calliper}\n", "")
    )
    text = text.replace("near: {form: square, side: 20 ±1,", "near: {form: square, side: 18 ±1,")
    (finding,) = weigh(planned(text))
    assert finding.step == step
    assert "side of near at 20 mm" in write(finding.sentence)


def test_sizes_are_told_in_the_units_asked_for() -> None:
    (finding,) = weigh(planned(GROWS.replace("WORK", "draw")))
    assert " in " in write(finding.sentence, Shown("in"))
    assert " mm" not in write(finding.sentence, Shown("in"))


def test_an_eye_cannot_be_drifted_thicker_than_its_bar() -> None:
    # Common practice, no source: punch and drift push metal aside, they gather none through the bar.
    text = EYE.replace("side: 38}", "side: 20}")
    assert text != EYE
    findings = weigh(planned(text))
    assert any(finding.what is Cannot.GATHER for finding in findings)
    assert any("20 mm thick" in write(finding.sentence) for finding in findings)


def test_a_little_gathering_is_told_as_well_as_a_lot() -> None:
    # By volume: 16² / 17² = 0.886, so the bar would have to shorten by 11 %.
    text = GROWS.replace("WORK", "draw").replace("side: 24", "side: 17")
    assert any(finding.what is Cannot.GATHER for finding in weigh(planned(text)))
