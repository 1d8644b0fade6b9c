"""A hole is drawn anew under way: the drift ahead goes with it, and leaves the file what it left it before.

The hammer's eye by hand: drawn 26 and drifted to 25.6, so 0.4 mm are filed; drawn 28 it is drifted to 27.6.
Its far mouth is 27.5, wider by 1.5 for the wedge: 29.5, drifted to 29.1 as it was to 27.1.
"""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.places import bundled_recipes
from coach.recipe.model import Step
from coach.recipe.reader import read_recipe
from tests.bench.jobs import begun


def hammer() -> Session:
    return begun((bundled_recipes() / "cross-peen-hammer.yaml").read_text(encoding="utf-8"))


def step(job: Session, title: str) -> Step:
    return next(one for one in job.recipe.steps if one.title == title)


def drift(job: Session) -> dict[str, float]:
    return {name: told.nominal for name, told in step(job, "Drift the eye to the haft").targets.items()}


def drawn(job: Session, name: str) -> float:
    return job.recipe.drawing["eye"].limits[name].nominal


def test_the_last_drift_leaves_the_file_as_much_as_before_and_the_far_mouth_as_much_wider() -> None:
    job = hammer()
    job.change("eye.hole length=28 ±0.7")
    assert drawn(job, "far_hole_length") == pytest.approx(29.5)
    assert drift(job)["hole_length"] == pytest.approx(27.6)
    assert drift(job)["far_hole_length"] == pytest.approx(29.1)
    assert drift(job)["hole_width"] == pytest.approx(17.6)  # that was not told
    opened = step(job, "Open the eye").targets
    assert opened["hole_length"].nominal == pytest.approx(24.5)  # a step on the way there
    written = read_recipe(job.forged(), "forged.yaml")
    there = next(one for one in written.steps if one.title == "Drift the eye to the haft")
    assert there.targets["hole_length"].nominal == pytest.approx(27.6)


def test_it_is_shown_before_it_is_taken() -> None:
    told = hammer().change_told("eye.hole length=28 ±0.7").changes
    assert "Drift the eye to the haft" in [one.title for one in told.ahead]
    assert {(one.zone, one.dimension) for one in told.sizes} >= {
        ("eye", "hole_length"),
        ("eye", "far_hole_length"),
    }


@pytest.mark.parametrize(
    "line",
    [
        "eye.hole length=28 ±0.7; eye.far hole length=30 ±0.7",
        "eye.far hole length=30 ±0.7; eye.hole length=28 ±0.7",
    ],
)
def test_a_far_mouth_that_is_told_is_as_told(line: str) -> None:
    job = hammer()
    job.change(line)
    assert drawn(job, "far_hole_length") == pytest.approx(30.0)
    assert drift(job)["far_hole_length"] == pytest.approx(29.6)  # 30 - 0.4
    assert drift(job)["hole_length"] == pytest.approx(27.6)


def test_what_a_step_says_of_a_section_as_it_was_drawn_goes_with_the_drawing() -> None:
    """The hook's shank is drawn to the 8 ±0.8 of its drawing."""
    job = begun((bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8"))
    job.change("shank.side = 9 ±0.6")
    told = step(job, "Draw the shank to 8 mm").targets["side"]
    assert (told.low, told.nominal, told.high) == pytest.approx((8.4, 9.0, 9.6))


def test_what_is_taken_off_behind_the_last_heat_stays_as_much() -> None:
    """The peen is drawn down to 15.2 and ground to the 12 drawn: 13 wants 16.2."""
    job = hammer()
    job.change("peen.end thickness=13 ±1")
    assert step(job, "Dress the peen").targets["end_thickness"].nominal == pytest.approx(16.2)
    assert step(job, "Grind the peen").targets["end_thickness"].nominal == pytest.approx(13.0)
    assert step(job, "Taper the peen across").targets["end_thickness"].nominal == pytest.approx(16.0)
