"""Which size would tell most if it were measured now."""

from __future__ import annotations

from statistics import NormalDist, pvariance

import pytest
from numpy.polynomial.hermite_e import hermegauss

from coach.bench import tells_most
from coach.bench.planned_doubt import Decides
from coach.bench.session import Session
from coach.bench.tells_most import WouldTell
from coach.ledger.doubt_sources import DoubtFrom, ShareOfDoubt
from coach.quantities import mm
from coach.telling.doubt import what_helps
from tests.bench.jobs import at_step_of, begun
from tests.ledger.recipes import DRAW


def test_readings_are_tried_at_the_nodes_of_gauss_and_hermite() -> None:
    """As numpy's polynomials have them, for the weight exp(-x²/2)."""
    nodes, weights = hermegauss(5)
    assert [at for at, _ in tells_most._NODES] == pytest.approx(list(nodes), abs=1e-5)
    assert [weight for _, weight in tells_most._NODES] == pytest.approx(
        list(weights / weights.sum()), abs=1e-6
    )


def first(job: Session) -> WouldTell:
    return job.doubt().would_tell[0]


def test_what_is_told_first_moves_what_is_told_as_far_as_it_says() -> None:
    """Reading by reading, as the numbers that a calliper might show are drawn from what is believed."""
    told = first(at_step_of("first-hook", 5))
    spread = told.believed.doubt
    assert spread is not None
    # Twelve equally likely readings: the middles of twelve parts of the standard normal distribution
    # (statistics.NormalDist of Python's own library).
    chances = []
    for part in range(12):
        job = at_step_of("first-hook", 5)
        size = NormalDist(told.believed.value, spread).inv_cdf((part + 0.5) / 12.0)
        job.read(told.name, f"{size:.2f}")
        chances.append(job.standing().chance)
    assert pvariance(chances) ** 0.5 == pytest.approx(told.moves_chance, abs=0.12)


def test_the_first_comes_before_others_by_what_both_chances_gain() -> None:
    would_tell = at_step_of("first-hook", 5).doubt().would_tell
    assert len(would_tell) > 1
    gains = [one.moves_chance**2 + one.moves_will_pass**2 for one in would_tell]
    assert gains == sorted(gains, reverse=True)


def test_what_was_just_read_is_not_asked_for_again() -> None:
    job = at_step_of("first-hook", 5)
    told = first(job)
    job.read(told.name, f"{told.believed.value:.1f}")
    assert told.name not in [one.name for one in job.doubt().would_tell]


def test_a_size_that_the_step_is_still_to_make_is_not_to_be_measured_before() -> None:
    job = begun(DRAW)
    assert not job.doubt().would_tell
    job.heat()
    assert "strap.width" in [one.name for one in job.doubt().would_tell]


def test_nothing_is_entered_by_asking() -> None:
    job = at_step_of("first-hook", 5)
    before, standing = job.history(), job.standing()
    job.doubt()
    assert job.history() == before
    assert job.standing() == standing


def test_a_piece_off_its_bar_is_weighed_where_that_tells_most() -> None:
    # Its fire's hunger makes most of the doubt of a billet that is welded and drawn again and again, and a
    # weighing is what tells that (scales know a billet to a few grams, a length times two sides does not).
    told = [one.name for one in at_step_of("layered-knife", 6).doubt().would_tell]
    assert told[0] == "billet.mass"


def test_a_piece_on_its_bar_is_not_weighed() -> None:
    job = at_step_of("first-hook", 5)
    assert not [one for one in job.doubt().would_tell if one.dimension == "mass"]


def test_once_all_is_measured_nothing_is_worth_it() -> None:
    job = begun(DRAW)
    for size in ("thickness=8", "width=40", "length=240"):
        name, _, text = size.partition("=")
        job.read(f"strap.{name}", text)
    job.done()
    assert job.standing().step is None
    assert job.doubt().would_tell == ()


def test_a_piece_that_is_not_marked_out_yet_is_not_to_be_measured() -> None:
    # The hammer's face steel is marked out at step 8.
    job = at_step_of("cross-peen-hammer", 2)
    assert not [one.name for one in job.doubt().would_tell if one.zone == "face"]


def test_of_a_finished_tool_nothing_is_said_to_help_but_measuring() -> None:
    job = begun(DRAW)
    job.heat()
    job.done()
    decides = job.doubt().decides
    assert decides is None or not decides.sources
    assert [one.name for one in job.doubt().would_tell]


@pytest.mark.parametrize(("name", "step", "heats"), [("hedging-hatchet", 21, 2), ("hedging-hatchet", 22, 2)])
def test_a_size_has_one_expected_figure_wherever_it_is_told(name: str, step: int, heats: int) -> None:
    """Half way through a step its sizes lie anywhere; what is told of them is what its end is to leave."""
    job = at_step_of(name, step)
    for _ in range(heats):
        job.heat()
    expected = {check.name: check.expected for check in job.standing().checks if check.is_open}
    told = [one for one in job.doubt().would_tell if expected.get(one.name) is not None]
    assert told
    assert [one.believed for one in told] == [expected[one.name] for one in told]


@pytest.mark.parametrize("recipe", ["first-hook", "cold-chisel", "hay-fork"])
def test_no_reading_moves_what_will_pass_further_than_its_outcome_would(recipe: str) -> None:
    """A chance p moves by √(p (1 - p)) at most, as a standard deviation: what comes is 0 or 1 (Bernoulli)."""
    for step in (2, 4, 6):
        job = at_step_of(recipe, step)
        told = job.standing().will_pass
        assert told is not None
        most = (told.chance * (1.0 - told.chance)) ** 0.5
        assert all(one.moves_will_pass <= most + 1e-9 for one in job.doubt().would_tell)


def test_the_bar_is_not_to_be_measured_before_a_mark_out_that_is_done() -> None:
    decides = Decides("pin.length", "pin", "length", None, mm(2.0), (ShareOfDoubt(DoubtFrom.BAR, 0.9),))
    assert "measure the bar before" in what_helps(decides)
    assert what_helps(decides, begun=True) == ""
