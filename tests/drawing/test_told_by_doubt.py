"""What a picture of a job tells of a length, it tells no finer than the length is known."""

from __future__ import annotations

import re

from coach.drawing.outlines import Stage, outlines_svg
from coach.drawing.spare_on_paper import SpareAt, SpareOf, spare_svg
from coach.quantities.figure import COVERAGE
from coach.sheets.stages import stages_of
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.bench.test_sheet import PEG


def stages() -> list[Stage]:
    """The peg after its point and its shank, neither length read."""
    session = begun(PEG)
    for _ in range(2):
        session.heat()
        session.done()
    return stages_of(session.plan, "peg", session.forms_by_step())


def test_a_length_that_nobody_read_is_told_as_about_so_much() -> None:
    bar, *made = stages()
    assert bar.long_doubt_mm == 0.0  # as it is to be marked
    for one in made:
        assert 1.0 < one.long_doubt_mm < 30.0
        drawn = outlines_svg("The peg", [one], Shown())
        assert "about " in drawn
        assert ".5 mm long" not in drawn


def test_a_length_is_no_finer_than_its_doubt() -> None:
    one = stages()[-1]._replace(long_doubt_mm=5.0)
    tens = f"about {round(one.view.length_mm / 10) * 10} mm long"  # ±10 mm
    assert tens in outlines_svg("The peg", [one], Shown())
    planned = outlines_svg("The peg", [one._replace(long_doubt_mm=0.0)], Shown())
    assert "about" not in planned


def test_the_spare_over_the_heats_is_told_to_whole_millimetres_where_it_is_in_doubt_by_eight() -> None:
    doubt = 4.0 * COVERAGE
    points = tuple(SpareAt(heat, 104.4, 104.4 - doubt, 104.4 + doubt) for heat in (0, 3))
    drawn = spare_svg([SpareOf("tip length", points)], Shown())
    assert ">104<" in drawn
    assert "104.5" not in drawn


def test_a_scale_beside_steps_is_told_as_one() -> None:
    """ "Step by step, 1 to 5" reads as five steps."""
    told = outlines_svg("The peg step by step", stages(), Shown())
    assert re.search(r"The peg step by step, drawn (1 to \d|at full size)", told)


def test_the_spare_over_the_heats_says_what_it_is_in() -> None:
    points = (SpareAt(0, 10.0, 8.0, 12.0), SpareAt(3, 11.0, 10.0, 12.0))
    assert "tip length, mm" in spare_svg([SpareOf("tip length", points)], Shown())
    assert "tip length, in" in spare_svg([SpareOf("tip length", points)], Shown("in"))
