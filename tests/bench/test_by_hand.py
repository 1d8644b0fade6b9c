"""What a way back asks to be done by hand is told until it is done or struck out."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.screens.bench_work import work_page
from coach.telling.page import Line
from coach.telling.standing import standing_page
from coach.telling.step import step_lines
from coach.telling.writing import METRIC
from tests.bench.test_settled_sizes import at_step
from tests.told import summary_of


def plate_to_trim() -> Session:
    """The hook's plate has run too wide, and the way back that trims it is taken."""
    job = at_step("first-hook", 7)
    job.read("plate.width", "19", insist=True)
    job.take("trim-the-width")
    return job


def by_hand(job: Session) -> list[str]:
    """What the standing's page tells with that label."""
    sections = standing_page(job.standing(), METRIC).sections
    lines = (line for part in sections for line in part.body)
    return [line.words for line in lines if isinstance(line, Line) and line.label == "By hand"]


def on_bench(job: Session, width: int = 80, rows: int = 16) -> str:
    return "\n".join(line.plain for line in work_page(job.standing(), None, METRIC, width, rows))


def test_what_is_to_be_done_by_hand_stands_with_the_step_on_page_and_bench() -> None:
    job = plate_to_trim()
    assert by_hand(job)[0].startswith("Trim the plate")
    assert "By hand  Trim the plate" in on_bench(job)


@pytest.mark.parametrize(("width", "rows"), [(60, 9), (48, 8)])
def test_it_does_not_give_way_where_there_is_little_room(width: int, rows: int) -> None:
    assert "By hand  Trim the plate" in on_bench(plate_to_trim(), width, rows)


def test_it_stands_before_what_to_do() -> None:
    job = plate_to_trim()
    step = job.standing().step
    assert step is not None
    labels = [line.label for line in step_lines(step, METRIC, by_hand=job.standing().by_hand) if line.words]
    assert labels.index("By hand") < labels.index("Do")


def test_once_the_size_is_read_it_is_done() -> None:
    job = plate_to_trim()
    job.read("plate.width", "16")
    assert not by_hand(job)
    assert "By hand" not in on_bench(job)
    job.strike()  # it was no reading of the plate
    assert by_hand(job)


def test_a_reading_of_another_size_says_nothing_of_it() -> None:
    job = plate_to_trim()
    job.read("tip.length", "90", insist=True)
    assert by_hand(job)


def test_struck_out_it_is_not_asked_for() -> None:
    job = plate_to_trim()
    job.strike()
    assert not by_hand(job)


def test_it_is_behind_with_its_step_and_asked_for_again_after_going_back() -> None:
    job = plate_to_trim()
    job.done()
    assert not by_hand(job)
    job.back()
    assert by_hand(job)


def test_a_way_back_that_changes_only_what_is_wanted_asks_for_no_hand() -> None:
    job = at_step("first-hook", 7)
    job.read("plate.length", "49", insist=True)
    job.take("too-much-metal-leave-plate-length")
    assert not by_hand(job)


def test_a_finished_tool_is_told_so_too() -> None:
    job = at_step("first-hook", 9)
    job.done()
    job.read("plate.width", "19", insist=True)
    job.take("trim-the-width")
    assert by_hand(job)
    assert "By hand  Trim the plate" in on_bench(job)
    job.read("plate.width", "16")
    assert not by_hand(job)


def test_what_to_take_care_of_is_told_with_it() -> None:
    assert "Wheels and dust: eyes and lungs covered" in on_bench(plate_to_trim()).replace("\n          ", " ")


def test_what_it_brings_a_size_to_is_asked_for_before_the_step_is_done_though_another_zone_is_worked() -> (
    None
):
    """The hook's tip is cut back while its shank is drawn: nobody has measured what is left of it."""
    job = at_step("first-hook", 2)
    for dimension, typed in (("end thickness", "1.6"), ("thickness", "8"), ("length", "101")):
        job.read(f"tip.{dimension}", typed)
    job.done()
    job.read("shank.side", "8")
    job.read("shank.length", "110")
    assert not job.done_warning().checks
    job.take("take-back")
    asked = [check.name for check in job.done_warning().checks]
    assert "tip.end_thickness" in asked
    assert "tip.length" in asked
    job.done()
    told = {one.name: one for one in job.sheet().sizes}
    assert told["tip.end_thickness"].came is None
    reckoned = told["tip.end_thickness"].reckoned
    assert reckoned is not None
    assert reckoned.doubt is not None
    assert reckoned.doubt > 0.1  # the end was read to 0.15 mm, and is known no better for being cut
    job.back()
    job.read("tip.end thickness", "2.3")
    job.read("tip.length", "90")
    assert "tip.end_thickness" not in [check.name for check in job.done_warning().checks]


def test_it_stands_first_where_the_job_is_put_down_and_where_it_is_resumed() -> None:
    job = plate_to_trim()
    told = summary_of(job)
    assert told[1].startswith("By hand: Trim the plate"), told
    job.read("plate.width", "16")
    assert not any(line.startswith("By hand") for line in summary_of(job))


def test_of_a_section_that_is_upset_nothing_is_told_that_begins_with_the_bar_as_it_was() -> None:
    job = at_step("cross-peen-hammer", 4)

    def told() -> str:
        step = job.standing().step
        hot = step.hot if step is not None else None
        return " ".join(str(words) for words in hot.advice) if hot is not None else ""

    assert "of bar come to" in told()
    job.read("poll.side", "33", insist=True)
    job.take("upset")
    assert "of bar come to" not in told(), "the poll is 33 mm there, and is driven up to 37"
    assert "by the work" not in told(), "which reckons with drawing it from 40 mm"
    way = next(entry for entry in reversed(job.history()) if "Upset the poll" in str(entry.words))
    job.strike(way.number)
    assert "of bar come to" in told()
