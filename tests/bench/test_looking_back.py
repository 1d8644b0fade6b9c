"""The spare of a job at each moment that moved its metal, the last of them where the job stands now."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from tests.bench.jobs import HAMMER, begun
from tests.ledger.recipes import DRAW


def assert_ends_where_it_stands(session: Session) -> None:
    point = session.spare_gone().points[-1]
    standing = session.standing()
    (spare,) = standing.spares
    assert (point.entry, point.step, point.heats) == (standing.last_entry, 1, standing.heats_total)
    assert point.spare.value == pytest.approx(spare.spare.value)
    assert point.spare.doubt == pytest.approx(spare.spare.doubt)
    assert point.spare.doubt
    assert point.chance == pytest.approx(standing.chance)


def test_a_reading_makes_the_spare_surer_than_it_was_at_the_start() -> None:
    session = begun(DRAW)
    session.heat()
    session.read("strap.length", "190")
    session.heat()
    points = session.spare_gone().points
    assert [point.entry for point in points] == [0, 2, 4]  # the start and each heat
    first, last = points[0].spare.doubt, points[-1].spare.doubt
    assert first is not None
    assert last is not None
    assert 0.0 < last < first
    assert_ends_where_it_stands(session)


def test_of_very_many_moments_the_last_is_not_left_out_and_all_are_told_when_asked_for() -> None:
    session = begun(DRAW)
    for _ in range(70):
        session.heat()
    gone = session.spare_gone()
    assert len(gone.points) <= 20
    assert gone.left_out == 71 - len(gone.points)
    assert_ends_where_it_stands(session)
    every = session.spare_gone(every=True)
    assert [point.entry for point in every.points] == [0, *range(2, 72)]
    assert every.left_out == 0
    assert set(gone.points) < set(every.points)


def test_the_end_of_a_step_that_shapes_the_metal_and_a_way_back_are_never_left_out() -> None:
    session = begun(HAMMER)
    session.done()  # marked out: nothing is shaped
    session.read("poll.length", "80")
    for _ in range(40):
        session.heat()
    way = session.take(next(one.name for one in session.ways_back() if not one.again)).entry
    drawn = session.done().entry
    for _ in range(40):
        session.heat()
    told = {point.entry for point in session.spare_gone().points}
    assert {0, way, drawn, session.standing().last_entry} <= told
    assert len(told) <= 18
    by_every = {point.entry for point in session.spare_gone(every=True).points}
    assert by_every >= told
    assert len(by_every) >= 83


def test_of_a_job_that_is_done_the_last_moment_is_as_it_is_told_everywhere() -> None:
    """A size is read in the last step, and once more when every step is done."""
    session = begun(HAMMER)
    while session.standing().step is not None:
        session.done()
    session.read("poll.length", "77", insist=True)
    standing = session.standing()
    told = {(one.zone, one.dimension): one.spare for one in standing.spares}
    points = session.spare_gone().points
    last = [one for one in points if one.entry == points[-1].entry]
    assert last
    assert {one.chance for one in last} == {standing.chance}
    assert [one.spare for one in last] == [told[one.zone, one.dimension] for one in last]
    assert {one.entry for one in last} == {standing.last_entry}
