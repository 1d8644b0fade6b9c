"""A size of the drawing is worked fuller by what the scale of later heats takes off it, where that counts."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.ledger.looking_back import look_back
from coach.operations import operation
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from tests.bench.jobs import at_step_of, begun, shop
from tests.ledger.recipes import FLAT_SCALE, LAID, planned

ROOT = Path(__file__).parents[2]
#: Drawn in three heats, then bent in four more: each takes 0.03 mm off either face of what it does not work.
BENT = """
title: Bracket
pieces:
  strap: {metal: mild steel, stock: {form: flat, width: 40, thickness: 12}}
drawing:
  strap: {form: flat, width: 40 ±1, thickness: 8 ±0.5, length: 240 ±12, take up: length}
steps:
  - {do: draw, zone: strap, to: TO, heats: 3}
  - {do: bend, zone: strap, heats: 4}
"""
SCALED_MM = 4 * 2 * 0.03


def aim_mm(text: str, step: int, name: str) -> float:
    return planned(text).recipe.steps[step - 1].targets[name].nominal


def test_the_last_work_on_a_drawn_size_leaves_what_later_heats_scale_off() -> None:
    assert aim_mm(BENT.replace("TO", "drawing"), 1, "thickness") == pytest.approx(8.0 + SCALED_MM)
    # A tack's heat takes 0.08 mm off either face of the steel that it lays on.
    assert aim_mm(LAID, 2, "thickness") == pytest.approx(5.0 + 2 * 0.08)


def test_a_bar_as_wide_as_its_drawing_has_no_more_to_give() -> None:
    assert aim_mm(BENT.replace("TO", "drawing"), 1, "width") == 40.0


def test_limits_of_the_step_s_own_have_the_last_word() -> None:
    assert aim_mm(BENT.replace("TO", "{thickness: 8 ±0.4, width: 40}"), 1, "thickness") == 8.0


def test_less_than_a_tenth_of_what_the_drawing_leaves_is_not_aimed_at() -> None:
    loose = BENT.replace("TO", "drawing").replace("8 ±0.5", "8 ±2.5")  # 0.24 mm of 2.5
    assert aim_mm(loose, 1, "thickness") == 8.0


def test_the_plan_as_written_keeps_the_sizes_of_the_recipe() -> None:
    plan = planned(BENT.replace("TO", "drawing"))
    assert plan.as_written.steps[0].targets["thickness"].nominal == 8.0


def test_the_step_says_why_it_is_not_worked_to_the_drawing() -> None:
    step = begun(f"{FLAT_SCALE}\n{BENT.replace('TO', 'drawing')}").standing().step
    assert step is not None
    told = [write(words) for words in step.know]
    assert "Thickness 0.2 mm fuller than drawn: the heats after this step take that as scale." in told


def test_a_thickness_just_above_its_bar_s_is_left_as_the_bar_has_it() -> None:
    # No draw thickens a bar: one heat leaves 12 less 0.03 off either face, whatever is asked for.
    text = BENT.replace("TO", "{thickness: 12.3 ±0.5, width: 30 ±1}").replace(
        "thickness: 8 ±0.5", "thickness: 12 ±0.6"
    )
    stage = planned(text).by_step[1]["strap"]
    assert stage.form_after.sizes_mm()["thickness"] == pytest.approx(12.0 - 3 * 2 * 0.03)


@pytest.mark.parametrize("path", sorted((ROOT / "recipes").glob("*.yaml")), ids=lambda path: path.stem)
def test_what_a_card_asks_of_a_section_is_what_the_step_leaves(path: Path) -> None:
    plan = look_back(read_recipe(path.read_text(encoding="utf-8"), path.name))
    for step in plan.recipe.steps:
        for zone, stage in plan.by_step[step.number].items():
            left = stage.form_after.sizes_mm() if zone in step.zones else {}
            asked = {name: one for name, one in step.targets.items() if name in left}
            for name, limits in asked.items():
                if name == stage.after.free or operation(step.operation).FIXES:
                    continue
                play_mm = max(0.1 * limits.width / 2.0, 0.05)
                assert left[name] == pytest.approx(limits.nominal, abs=play_mm), (step.title, zone, name)


def test_a_weld_asks_for_the_length_of_the_section_that_it_leaves() -> None:
    # By hand, of a poll set down to 37.2 mm: its cut's heat takes 0.11 mm off that, the tack's 0.13 and three
    # welding heats 0.48, and 49,663 mm³ of poll and face are 37.3 mm long at the 36.5 mm square that is left.
    path = ROOT / "recipes" / "cross-peen-hammer.yaml"
    text = path.read_text(encoding="utf-8").replace(
        "set down: poll, square 37.5", "set down: poll, square 37.2"
    )
    session = shop().begin(text, path.name)
    for _ in range(13):
        session.done()
    for _ in range(3):
        session.heat()
    side, length = session.standing().checks[:2]
    assert (side.name, length.name) == ("poll.side", "poll.length")
    assert side.wanted is not None
    assert side.expected is not None
    assert length.expected is not None
    assert side.wanted.limits.nominal == pytest.approx(36.48, abs=0.05)
    assert (side.wanted.limits.low, side.wanted.limits.high) == (36.0, 38.0)
    assert side.expected.value == pytest.approx(36.48, abs=0.05)
    assert length.expected.value == pytest.approx(49_663 / 36.48**2, abs=0.15)
    step = session.standing().step
    assert step is not None
    told = [write(words) for words in step.know]
    assert "Side is less already, 0.5 mm under the 37 mm asked for, and no hammer makes it bigger." in told


def test_a_bar_that_is_a_little_thicker_than_its_eye_is_asked_to_be_is_not_called_less() -> None:
    # The strap hinge's bar is 40 mm wide; the eye is asked for at 39, and rolling it up takes no width off.
    session = at_step_of("strap-hinge", 3)
    step = session.standing().step
    assert step is not None
    told = [write(words) for words in step.know]
    assert "Width is a little more, 0.8 mm over the 39 mm asked for, and this makes it no smaller." in told
    assert not [words for words in told if "−" in words]
