"""Whether what is told comes true as often as it says: the ledger against a forge made up by chance.

The seed is that of the other simulations. Each bin holds one account of each tool, so that its trials are
independent, and must lie within three standard deviations of their sum (99.7 %). With so few tools the bins
catch gross faults only; those of the reckoning itself show in the metal believed, and in the long run of
docs/calibration.md.
"""

from __future__ import annotations

from functools import cache
from math import sqrt

import pytest

from tests.ledger.calibration import Study, at_the_end, brier, coverage, one_each, reliability, studied
from tests.ledger.virtual_jobs import JOBS

TOOLS = 200
SEED = 1926
BINS = (0.0, 0.2, 0.5, 0.7, 0.8, 0.9, 0.97, 1.0)
BAND = 3.0


@cache
def study() -> Study:
    return studied(JOBS, TOOLS, SEED)


def test_the_chance_of_a_zone_s_metal_comes_true_as_often_as_told() -> None:
    rows = reliability(one_each(study().zones, SEED), BINS)
    assert len(rows) == len(BINS) - 1
    for row in rows:
        assert abs(row.off) < BAND, row


def test_the_metal_believed_is_off_by_its_own_doubt_and_no_more() -> None:
    # The mean square of n standard Gaussian quantities is 1 ± √(2 / n).
    squares = [account.told**2 for account in one_each(study().volumes, SEED)]
    mean = sum(squares) / len(squares)
    assert mean == pytest.approx(1.0, abs=BAND * sqrt(2.0 / len(squares)))


@pytest.mark.parametrize("when", ["at the stock", "in a step", "after step 3"])
def test_hardly_any_metal_is_far_from_what_was_believed(when: str) -> None:
    # One in 370 for a Gaussian quantity beyond three; with the rest of the reckoning's slackness, one in 100.
    told = one_each([account for account in study().volumes if account.when == when], SEED)
    assert sum(not account.true for account in told) <= len(told) / 100


def test_the_chance_of_the_whole_tool_comes_true_as_often_as_told() -> None:
    rows = reliability(one_each(study().tools, SEED), BINS)
    assert len(rows) == len(BINS) - 1
    for row in rows:
        assert abs(row.off) < BAND, row


def test_where_a_size_is_believed_out_the_tool_is_not_told_better_than_it_is() -> None:
    for row in reliability(one_each(study().out, SEED), (0.0, 0.2, 1.0)):
        assert row.off > -BAND, row


def test_will_pass_comes_true_as_often_as_told() -> None:
    rows = reliability(one_each(study().passes, SEED), (0.0, 0.1, 0.3, 0.5, 0.7, 1.0))
    assert len(rows) == 5
    for row in rows:
        assert abs(row.off) < BAND, row


def test_whether_a_tool_passes_is_told_better_the_more_of_it_is_done() -> None:
    # As wanted of it: at most 0.17 over all moments, and 0.08 once the last step is done.
    assert brier(study().passes) < 0.17
    assert brier(at_the_end(study())) < 0.08 + 0.01  # within what 800 tools can tell


@pytest.mark.parametrize("when", ["at the stock", "in a step", "after step 2", "after step 4"])
def test_the_spare_told_at_least_is_there_nineteen_times_in_twenty(when: str) -> None:
    told = [account for account in study().spares if account.when == when]
    tools, share, off = coverage(one_each(told, SEED))
    assert tools >= 2 * TOOLS
    assert abs(off) < BAND, share


@pytest.mark.parametrize("when", ["at the stock", "in a step", "after step 2", "after step 4"])
def test_finished_sizes_come_within_their_figure_nine_times_in_ten(when: str) -> None:
    told = [account for account in study().sizes if account.when == when]
    tools, share, off = coverage(one_each(told, SEED))
    assert tools >= 2 * TOOLS
    assert abs(off) < BAND, share
