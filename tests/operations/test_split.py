"""A split bar is two tines of half its width, and nothing is lost but what a saw takes."""

from __future__ import annotations

import pytest

from coach.drawing.views import Solid, plan_view, side_view
from coach.forms.flat import Flat
from coach.forms.fork import Fork
from coach.forms.taper import Taper
from coach.operations import Shape, Work, operation
from coach.operations.does import Cause
from coach.recipe.reader import read_recipe
from coach.telling.words import write

BAR = Flat(16, 6, 50)
TINES = Work(Shape("fork"), {"tine": 8, "thickness": 6, "end_tine": 8, "end_thickness": 6}, "length")


def test_two_tines_of_half_the_width_are_as_long_as_the_bar_was() -> None:
    worked = operation("split").work(BAR, BAR.volume_mm3(), TINES)
    assert worked.form.size_mm("length") == pytest.approx(50, rel=1e-12)
    assert worked.volume_mm3 == BAR.volume_mm3()
    assert not worked.taken_mm3


def test_a_saw_takes_its_kerf_along_the_split() -> None:
    worked = operation("split").work(BAR, BAR.volume_mm3(), TINES._replace(amounts={"slit_mm": 1.0}))
    assert worked.taken_mm3 == {Cause.KERF: pytest.approx(1 * 6 * 50)}  # by hand


def test_a_fork_is_two_tapers() -> None:
    fork, tine = Fork(6, 5.5, 2.5, 2.5, 95), Taper(6, 5.5, 2.5, 2.5, 95)
    assert fork.volume_mm3() == 2 * tine.volume_mm3()
    assert fork.side_surface_mm2() == 2 * tine.side_surface_mm2()
    # By hand, prismatoid: 2 · 95/6 · (33 + 8.5 · 8 + 6.25).
    assert fork.volume_mm3() == pytest.approx(3396.25)


def test_it_is_seen_from_above_as_two_tines_beside_each_other() -> None:
    solids = [Solid("tines", Fork(6, 5.5, 2.5, 2.5, 95))]
    (split,) = plan_view(solids).holes
    assert (split.points[0], split.points[1]) == ((0, 0), (95, 0))
    assert plan_view(solids).height_mm == 12
    assert not side_view(solids).holes


def test_what_the_split_leaves_is_told() -> None:
    (told,) = operation("split").know(BAR, Fork(8, 6, 8, 6, 50))
    assert "tines 8 mm wide and 50 mm long" in write(told)


def test_the_usual_kerf_of_a_saw_is_not_taken_by_a_chisel() -> None:
    read = read_recipe(
        """
recipe: Fork
pieces:
  fork: {metal: mild steel, bar: 16 x 6, size: "fork, tine 8, thick 6, long 50"}
usual: {kerf: 2}
steps:
  - cut: fork, cold
  - split: fork
""",
        "fork.yaml",
    )
    assert [dict(step.amounts) for step in read.steps] == [{"kerf_mm": 2.0}, {}]
