"""Layers that lie loose, in a stack or a fold, are no bar: what works them as one is a finding.

Bars become one bar at a welding heat and in no other way (common practice, no source).
"""

from __future__ import annotations

import pytest

from coach.ledger.weigh import Cannot, weigh
from coach.telling.words import write
from tests.ledger.recipes import planned

STACK = """\
recipe: Loose stack
scale: none
pieces:
  billet:
    stack:
      - mild steel, 30 x 4
      - 1084, 30 x 4
      - mild steel, 30 x 4
    size: 30 ±2 x 8 ±0.6, long 150 ±14
usual: {at: light yellow, weld at: 1150 °C, flux: borax, kerf: 1.5}
steps:
  - mark out: billet
  - cut: billet, cold
  - draw: billet, 4 heats
"""
FOLD = """\
recipe: Folded bar
scale: none
pieces:
  bar:
    metal: 1084
    bar: 30 x 8
    size: 30 ±2 x 6 ±0.6, long 150 ±14
usual: {at: light yellow, weld at: 1150 °C, flux: borax, kerf: 1.5}
steps:
  - mark out: bar
  - cut: bar, cold
  - fold: bar, 30 x 16, 2 heats
  - draw: bar, 6 heats
"""
FROM = STACK.replace("150 ±14", "300 ±30").replace(
    "usual:",
    "  knife:\n    bar: from billet\n    size: 30 ±2 x 8 ±0.6 to 20 ±2 x 3 ±0.6, long 150 ±20\nusual:",
)


def found(text: str) -> list[tuple[int, str, str]]:
    what = (one for one in weigh(planned(text)) if one.what is Cannot.HOLD_TOGETHER)
    return [(one.step, one.zone, write(one.sentence)) for one in what]


def test_a_stack_that_is_drawn_without_a_weld_is_a_finding_that_says_what_to_write() -> None:
    ((step, zone, told),) = found(STACK)
    assert (step, zone) == (3, "billet")
    assert "billet begins as 3 bars that lie loose on each other" in told
    assert "write weld shut: billet before this" in told


def test_a_stack_that_is_welded_first_is_one_bar() -> None:
    assert found(STACK.replace("  - draw:", "  - weld shut: billet, 30 x 11, 3 heats\n  - draw:")) == []


def test_a_weld_that_comes_after_the_draw_is_too_late() -> None:
    assert [step for step, *_ in found(STACK + "  - weld shut: billet, 3 heats\n")] == [3]


@pytest.mark.parametrize(
    "used",
    [
        "bend: billet, angle 90, 1 heat",
        "fold: billet, 30 x 16, 2 heats",
        "set down: billet, 30 x 8, 2 heats",
        "harden: billet, at 800 to 820 °C, quench fast oil\n  - temper: billet, at 200 to 220 °C",
    ],
)
def test_whatever_else_uses_a_loose_stack_as_one_bar_is_a_finding_too(used: str) -> None:
    told = found(STACK.replace("draw: billet, 4 heats", used))
    assert [(step, zone) for step, zone, _ in told] == [(3, "billet")]


def test_a_stack_that_no_step_works_and_none_welds_is_told_of() -> None:
    text = STACK.replace("x 8 ±0.6, long", "x 12 ±0.6, long").replace("  - draw: billet, 4 heats\n", "")
    ((step, _, told),) = found(text)
    assert step == 2
    assert "no step welds them into one" in told


def test_what_is_taken_from_a_loose_stack_is_told_of_once_and_with_the_stack_to_weld() -> None:
    loose = FROM.replace("draw: billet, 4 heats", "taper: knife, 3 heats").replace("30 x 4", "30 x 2.7")
    ((step, zone, told),) = found(loose.replace("  - cut: billet, cold\n", ""))
    assert (step, zone) == (2, "knife")
    assert "write weld shut: billet before this" in told
    assert len(found(FROM + "  - taper: knife, 3 heats\n")) == 1


def test_a_fold_that_is_drawn_without_a_weld_is_a_finding() -> None:
    ((step, zone, told),) = found(FOLD)
    assert (step, zone) == (4, "bar")
    assert "bar lies folded on itself there since step 3" in told
    assert "weld shut: bar" in told


def test_a_fold_that_is_welded_first_is_one_bar() -> None:
    assert found(FOLD.replace("  - draw:", "  - weld shut: bar, 30 x 15, 2 heats\n  - draw:")) == []


def test_a_hem_that_is_left_open_is_nothing_to_tell() -> None:
    text = FOLD.replace("x 6 ±0.6, long", "x 16 ±0.6, long").replace("  - draw: bar, 6 heats\n", "")
    assert found(text) == []


def test_a_second_fold_without_a_weld_between_is_a_finding() -> None:
    text = FOLD.replace(
        "  - draw:", "  - weld shut: bar, 30 x 14, 2 heats\n  - fold: bar, 30 x 28\n  - draw:"
    )
    ((step, _, told),) = found(text)
    assert step == 6
    assert "since step 5" in told
