"""What a gauge says of the bar that lies there counts, for all of its zones."""

from __future__ import annotations

import pytest

from coach.ledger.reading import Reading, cold_reading
from coach.ledger.rolled import rolled_doubt_mm
from tests.bench.jobs import at_step_of, begun
from tests.ledger.recipes import DRAW, NEIGHBOURS


@pytest.mark.parametrize(
    ("dimension", "size_mm", "tolerance_mm"),
    [
        # EN 10059 squares, EN 10060:2003 rounds, EN 10061 hexagons, EN 10058:2018 flats, by digests of them.
        ("side", 12.0, 0.4),
        ("side", 20.0, 0.5),
        ("side", 50.0, 0.8),
        ("diameter", 16.0, 0.5),
        ("diameter", 90.0, 1.3),
        ("across_flats", 19.0, 0.5),
        ("width", 50.0, 1.0),
        ("thickness", 25.0, 1.0),
    ],
)
def test_a_tolerance_is_two_standard_uncertainties(
    dimension: str, size_mm: float, tolerance_mm: float
) -> None:
    assert rolled_doubt_mm(dimension, size_mm) == pytest.approx(tolerance_mm / 2.0)


@pytest.mark.parametrize("read", [20.3, 20.6, 19.5])
def test_a_bar_off_its_nominal_is_believed_by_gauge_and_tolerance(read: float) -> None:
    """The mean of two normal quantities, weighed by their variances: 20 mm ±0.5 (EN 10059) and the gauge."""
    gauge = cold_reading(Reading("near", "side", read, "calliper")).doubt_mm ** 2
    bar = min((read - 20.0) ** 2 - gauge, 0.25**2)
    if bar <= (20.0 * 0.005) ** 2:
        bar = (20.0 * 0.005) ** 2
    expected = 20.0 + (read - 20.0) * bar / (bar + gauge)
    job = begun(NEIGHBOURS)
    job.read("near.side", f"{read}")
    now = job._state.now
    assert now is not None
    assert now.belief.mean("near.side") == pytest.approx(expected, abs=0.005)
    assert now.belief.mean("far.side") == pytest.approx(expected, abs=0.005)  # one bar, all of its zones
    assert now.belief.doubt("near.side") == pytest.approx((1.0 / bar + 1.0 / gauge) ** -0.5, rel=0.03)


def test_a_fuller_bar_has_more_to_spare_and_a_leaner_one_less() -> None:
    spares = []
    for read in ("9.6", "10", "10.4"):
        job = at_step_of("first-hook", 1)
        job.read("tip.side", read)
        spares.append(job.standing().spares[0].spare.value)
    # 0.4 mm of 10 are 8 % of the metal, and the tip's is 90 mm long: 7 mm of it, were it believed whole.
    assert spares == sorted(spares)
    assert 3.0 < spares[2] - spares[1] < 7.3
    assert 3.0 < spares[1] - spares[0] < 7.3


def test_a_bar_as_it_is_called_leaves_no_less_known() -> None:
    before = at_step_of("first-hook", 1)
    job = at_step_of("first-hook", 1)
    job.read("tip.side", "10")
    assert job.standing().chance >= before.standing().chance - 0.001


def test_a_second_reading_of_the_bar_adds_to_the_first() -> None:
    once, twice = at_step_of("first-hook", 1), at_step_of("first-hook", 1)
    once.read("tip.side", "10.4")
    twice.read("tip.side", "10.4")
    twice.read("plate.side", "10.4")
    one, both = once._state.now, twice._state.now
    assert one is not None
    assert both is not None
    assert both.belief.doubt("tip.side") < one.belief.doubt("tip.side")
    assert both.belief.mean("tip.side") > one.belief.mean("tip.side")


def test_a_size_that_was_forged_is_no_bar_any_more() -> None:
    job = begun(DRAW)
    job.heat()
    job.read("strap.width", "41.5")
    now = job._state.now
    assert now is not None
    assert not [name for name in now.belief.names if name.startswith("the bar's")]


def test_a_slip_is_questioned_and_counts_for_nothing() -> None:
    job = at_step_of("first-hook", 1)
    before = job.standing().spares
    job.read("tip.side", "104")
    assert job.standing().spares == before
