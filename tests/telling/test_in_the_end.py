"""A size that a step asks otherwise than the drawing is told with what the steps ahead do to it."""

from __future__ import annotations

from coach.bench.session import Session
from coach.cli.page import set_page
from coach.screens.bench_pages import page_lines
from coach.screens.bench_work import work_page
from coach.telling.in_the_end import in_the_end_text
from coach.telling.standing import standing_page
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

MM = Shown("mm")


def told(session: Session) -> dict[str, str]:
    """What is told of each size that the step in hand asks for."""
    standing = session.standing()
    return {one.name: in_the_end_text(one, standing.sizes, MM) for one in standing.checks}


def test_a_size_that_a_later_step_works_on_is_told_with_what_the_drawing_wants_of_it() -> None:
    """The recipe's own figures: drawn 25 x 4 mm here, and 3 ±0.5 mm at the edge in the drawing."""
    found = told(at_step_of("cold-chisel", 2))
    assert found["edge.end_thickness"] == (
        "edge end thickness 3 ±0.5 mm in the end: the steps ahead bring it there from 4 ±0.4 mm"
    )
    assert found["edge.length"].startswith("edge length 55 ±4 mm in the end: less than ")
    assert found["edge.length"].endswith(" mm as it is now is too little for the work still ahead")
    assert found["edge.end_width"] == ""  # 25 ±1.5 mm here and there


def test_it_stands_on_the_page_of_the_step_in_full() -> None:
    standing = at_step_of("cold-chisel", 2).standing()
    for lines in (
        page_lines("Step", standing, MM)(80, 60),
        work_page(standing, standing.checks[0], MM, 80, 60),
    ):
        words = " ".join(" ".join(line.plain for line in lines).split())
        assert "Edge end thickness 3 ±0.5 mm in the end: the steps ahead bring it there" in words


def test_where_a_job_stands_tells_it_too() -> None:
    standing = at_step_of("cold-chisel", 2).standing()
    words = " ".join(" ".join(set_page(standing_page(standing, MM))).split())
    assert "Edge end thickness 3 ±0.5 mm in the end: the steps ahead bring it there" in words
