"""Where sizes disagree, what nobody measured is not blamed as a fact: the size that decides is asked for."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.bench.session import Session
from coach.cli.page import set_page
from coach.ledger.verdict import PlanState, Reason
from coach.telling.doubt import doubt_page, measure_parts
from coach.telling.page import Line
from coach.telling.sheet import stands_line
from coach.telling.sizes import sizes_table
from coach.telling.why import stands_text
from coach.telling.writing import Shown
from tests.bench.jobs import shop
from tests.bench.test_settled_sizes import at_step
from tests.told import why

HOOK = Path(__file__).parents[2] / "recipes" / "first-hook.yaml"


def drawn_tip(**read: str) -> Session:
    """The hook's tip after its three heats, with sizes read of it: each twice, so that it stands."""
    job = shop().begin(HOOK.read_text(), "first-hook.yaml", None)
    job.done()
    for _ in range(3):
        job.heat()
    for name, size in read.items():
        for _ in range(2):
            job.read(f"tip.{name}", size)
    return job


@pytest.mark.parametrize(("length", "over"), [("106", "7 mm"), ("110", "11 mm")])
def test_a_length_over_its_limit_is_told_though_its_section_is_not_measured_yet(
    length: str, over: str
) -> None:
    # 7 and 11 mm over the 99 mm of the drawing: drawing it further makes it longer still, and the heats
    # still to come scale its sides and hardly its length.
    job = drawn_tip(end_thickness="3", thickness="8", length=length)
    standing = job.standing()
    row = next(check for check in standing.checks if check.name == "tip.length")
    assert row.is_beyond
    assert standing.verdict is PlanState.OFF_PLAN
    assert f"{over} over the 99 mm the drawing allows" in stands_text(standing, Shown())


@pytest.mark.parametrize("length", ["125", "160"])
def test_a_length_too_long_for_its_section_asks_for_the_size_nobody_measured(length: str) -> None:
    job = drawn_tip(end_thickness="3", thickness="8", length=length)
    standing = job.standing()
    if standing.verdict is PlanState.ON_PLAN:
        return
    told = stands_text(standing, Shown())
    assert "comes out at" not in told
    assert "Nobody has measured" in told
    assert standing.next_check in ("tip.end_width", "tip.width")
    assert f"measure the {standing.next_check.removeprefix('tip.').replace('_', ' ')}" in told.lower()


@pytest.mark.parametrize("length", ["125", "160", "300"])
def test_no_size_is_reckoned_to_be_nothing_or_less(length: str) -> None:
    job = drawn_tip(end_thickness="3", thickness="8", length=length)
    standing = job.standing()
    assert all(size.expected.value > 0.0 for size in standing.sizes)
    assert "−" not in str(sizes_table(standing.sizes, Shown()))
    # No way back goes by what nobody has measured.
    assert not [way.title for way in job.ways_back() if "end-width" in way.name]


# By the frustum of a pyramid a tip 8 mm thick to 3 x 2.2 mm over 125 mm would be 5.8 mm wide where it begins;
# nobody has measured that, so it decides next; once it is read nothing is left to ask for.
@pytest.mark.parametrize("width", ["7.5", "8"])
def test_once_it_is_measured_the_next_one_decides_and_then_it_is_told_as_it_is(width: str) -> None:
    job = drawn_tip(end_thickness="3", thickness="8", length="125")
    for name, size in (("end_width", "2.2"), ("width", width)):
        standing = job.standing()
        assert standing.next_check == f"tip.{name}"
        assert isinstance(standing.reason, Reason)
        assert standing.reason.measure == f"tip.{name}"
        job.read(f"tip.{name}", size)
        job.read(f"tip.{name}", size)
    told = job.standing()
    assert told.verdict is PlanState.OFF_PLAN
    assert told.next_check is None
    assert "26 mm over the 99 mm the drawing allows" in stands_text(told, Shown())
    assert "Nobody has measured" not in stands_text(told, Shown())


def test_what_the_sizes_agree_on_asks_for_nothing_more() -> None:
    standing = drawn_tip(end_thickness="3", thickness="8", length="95").standing()
    assert standing.verdict is PlanState.ON_PLAN
    assert standing.next_check is None


def test_a_size_read_before_later_heats_is_asked_for_once_its_step_is_done_too() -> None:
    # The hammer's slot, read after the first of three heats: it is no more what it was.
    job = at_step("cross-peen-hammer", 2)
    job.heat()
    job.read("eye.hole_length", "27.69")
    job.heat()
    job.heat()
    job.read("eye.width", "49.35")
    assert "measure the hole length" in why(job.standing())
    job.done()
    assert "measure the hole length" in why(job.standing())
    job.read("eye.hole_length", "27.7", insist=True)
    assert "comes out at 27.7" in why(job.standing())


@pytest.mark.parametrize("length", ["110", "125", "160"])
def test_what_to_measure_first_is_what_the_verdict_asks_for(length: str) -> None:
    """`coach doubt` said that nothing to measure now would change much, and named another size."""
    job = drawn_tip(end_thickness="3", thickness="8", length=length)
    doubt = job.doubt()
    told = " ".join(" ".join(set_page(doubt_page(doubt, Shown()))).split())
    assert "measure the end width, which decides" in stands_text(job.standing(), Shown())
    assert "Decides the tip end width" in told
    assert "Measure the tip end width: the verdict hangs on it" in told
    assert "Nothing that you could measure" not in told


@pytest.mark.parametrize("length", ["110", "125", "160"])
def test_no_way_back_goes_by_a_section_that_only_follows_from_what_does_not_agree(length: str) -> None:
    """At 125 the width, which nobody had measured, was to be upset or accepted at 6.8 mm."""
    job = drawn_tip(end_thickness="3", thickness="8", length=length)
    assert not [way.name for way in job.ways_back() if "width" in way.name or "thickness" in way.name]


#: Of the shelf: the step, the size that is read there and stood by, and what its section leaves open.
_STOOD_BY = [
    ("hay-fork", 4, "neck.length", "80.3"),
    ("meat-fork", 8, "stem.length", "338"),
    ("first-hook", 2, "tip.length", "117"),
    ("hedging-hatchet", 3, "eye.thickness", "37"),
    ("hedging-hatchet", 24, "bit.length", "84.6"),
    ("hedging-hatchet", 29, "bit.length", "43.5"),
    ("carpenters-adze", 8, "poll.length", "48"),
    ("carpenters-adze", 10, "eye.width", "60.7"),
    ("carpenters-adze", 26, "bit.length", "86.3"),
]


@pytest.mark.parametrize(("name", "number", "size", "typed"), _STOOD_BY)
def test_of_the_shelf_verdict_sheet_and_doubt_ask_for_one_size_and_tell_what_was_typed(
    name: str, number: int, size: str, typed: str
) -> None:
    """An eye that was read as 37 was told as read as 39.4, which is what it may come to."""
    job = at_step(name, number)
    for _ in range(job.recipe.steps[number - 1].heats):
        job.heat()
    job.read(size, typed, insist=True)
    standing = job.standing()
    assert isinstance(standing.reason, Reason)
    asked = standing.reason.measure
    assert asked.startswith(f"{size.partition('.')[0]}.")
    assert asked in {check.name for check in standing.checks if check.is_open}
    told = stands_text(standing, Shown())
    assert f"was read as {typed} ±" in told
    assert told in stands_line(job.sheet(), Shown()).words
    doubt = job.doubt()
    assert doubt.decides is not None
    assert doubt.decides.name == asked
    first = next(part for part in measure_parts(doubt, Shown()) if isinstance(part, Line))
    assert first.words.startswith(f"Measure the {asked.replace('.', ' ').replace('_', ' ')}:")
    # Once it is read, in the middle of what is wanted, it is asked for no more.
    wanted = next(check.wanted for check in standing.checks if check.name == asked)
    assert wanted is not None
    job.read(asked, f"{wanted.limits.nominal:.2f}", insist=True)
    after = job.standing().reason
    assert not isinstance(after, Reason) or after.measure != asked
