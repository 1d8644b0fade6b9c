"""A split bar is two tines of half its width, and nothing is lost but what a saw takes."""

from __future__ import annotations

import pytest

from coach.bench.planned import Planned, planned_tool
from coach.drawing.views import Solid, plan_view, side_view
from coach.forms.flat import Flat
from coach.forms.fork import Fork
from coach.forms.taper import Taper
from coach.forms.uneven_fork import UnevenFork
from coach.ledger.looking_back import look_back
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


UNEVEN = """
recipe: Poker's end
scale: none
pieces:
  end:
    metal: mild steel
    bar: square 12
    size: uneven fork, tine 8, thick 9, end tine 4, end thick 4, long 90
steps:
  - split: end, uneven fork, tine 8, other tine 4
  - draw: end
"""
BRANCH = ", other tine 6, other thick 9, other end tine 3, other end thick 3, other long {}"


def uneven(long_mm: int) -> Planned:
    text = UNEVEN.replace("long 90", f"long 90{BRANCH.format(long_mm)}")
    return planned_tool(look_back(read_recipe(text, "poker.yaml")))


def test_two_branches_that_differ_are_two_tapers_of_their_own_sizes() -> None:
    # By hand, prismatoids: 90/6 · (72 + 12 · 13 + 16) = 3660 and 60/6 · (54 + 9 · 12 + 9) = 1710 mm³, 68.2 %
    # and 31.8 %; of 12 mm square they are 37.29 mm.
    fork = UnevenFork(8, 9, 4, 4, 90, 6, 9, 3, 3, 60)
    assert fork.volume_mm3() == pytest.approx(3660 + 1710)
    assert fork.share == pytest.approx(0.6816, abs=1e-4)
    first, other = Taper(8, 9, 4, 4, 90), Taper(6, 9, 3, 3, 60)
    surfaces = first.side_surface_mm2() + other.side_surface_mm2() + other.end_area_mm2("finish")
    assert fork.side_surface_mm2() == pytest.approx(surfaces)
    assert uneven(60).pieces[0].length.value == pytest.approx(37.29, abs=0.01)


def test_where_the_split_goes_is_told_with_what_either_branch_has_of_the_metal() -> None:
    told = " ".join(write(words) for words in uneven(60).steps[0].step.know)
    assert "Split 8 mm from the edge the first branch has 67 % of the metal, and the other one 33 %." in told


def test_branches_that_ask_for_other_shares_than_the_split_gave_are_a_finding() -> None:
    # 120/6 · 171 = 3420 mm³ of the other branch would be 48.3 %: the split belongs 6.2 mm from the edge.
    assert not uneven(60).findings
    (found,) = (write(one.sentence) for one in uneven(120).findings)
    assert "67 % of its metal, and this asks for 52 %: split it 6.2 mm from the edge" in found


def test_the_usual_kerf_of_a_saw_is_not_taken_by_a_hot_cut() -> None:
    """A hot chisel parts the metal and takes none of it (common practice, no source)."""
    text = """
recipe: Pin
pieces:
  pin: {metal: mild steel, bar: round 12, size: "round 12, long 100 ±3"}
usual: {kerf: 2, at: orange}
steps:
  - cut: pin, HOW
"""
    for how, amounts in (("cold", {"kerf_mm": 2.0}), ("1 heat", {}), ("1 heat, kerf 2", {"kerf_mm": 2.0})):
        (step,) = read_recipe(text.replace("HOW", how), "pin.yaml").steps
        assert dict(step.amounts) == amounts
