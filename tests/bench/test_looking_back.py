"""The spare of a job at each moment that moved its metal, the last of them where the job stands now."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from tests.bench.jobs import begun
from tests.ledger.recipes import DRAW


def assert_ends_where_it_stands(session: Session) -> None:
    point = session.spare_points()[-1]
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
    points = session.spare_points()
    assert [point.entry for point in points] == [0, 2, 4]  # the start and each heat
    first, last = points[0].spare.doubt, points[-1].spare.doubt
    assert first is not None
    assert last is not None
    assert 0.0 < last < first
    assert_ends_where_it_stands(session)


def test_of_very_many_moments_the_last_is_not_left_out() -> None:
    session = begun(DRAW)
    for _ in range(70):
        session.heat()
    assert len(session.spare_points()) <= 62
    assert_ends_where_it_stands(session)
