"""Hard steel that was lost since it was laid on: its row, its reason and its ways back."""

from __future__ import annotations

import pytest

from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.ledger.verdict import PlanState, SizeState
from coach.ledger.zone_forecast import FinishedSize
from coach.telling.words import write
from tests.bench.test_settled_sizes import at_step
from tests.told import why

#: The cross-peen hammer, its face welded on: 37 by 37 mm and 11 mm thick, of which 7 mm are to remain.
WELDED = 15


def burnt(grams: str, step: int = WELDED) -> Session:
    job = at_step("cross-peen-hammer", step)
    job.lose(LossAsked("face", f"{grams} g", "burnt"))
    return job


def row_of(job: Session) -> FinishedSize | None:
    return next((size for size in job.standing().sizes if size.name == "face.remains"), None)


def test_steel_that_was_lost_has_a_row_that_agrees_with_the_reason() -> None:
    """By hand from the masses: 14 g at 7.85 g/cm³ (EN 1991-1-1) are 1783 mm³, on 36.4 by 36.4 mm 1.35 mm.

    Of 11 mm the plan leaves (11 - 2 / 2) × 0.99 - 0.33 of scale - 2.24 for the stone: 7.3. Less 1.35: 6.0.
    """
    job = burnt("14")
    row = row_of(job)
    assert row is not None
    assert row.state is SizeState.UNDER
    assert row.wanted.limits.low == 7.0
    assert row.expected.value == pytest.approx((11.0 - 1.0) * 0.99 - 0.33 - 2.24 - 1.35, abs=0.1)
    assert job.standing().verdict is PlanState.TIGHT
    told = float(why(job.standing()).split("About ")[1].split(" mm")[0])
    assert told == pytest.approx(row.expected.value, abs=0.05)


def test_steel_of_which_nothing_was_lost_has_no_row_of_its_own() -> None:
    assert row_of(at_step("cross-peen-hammer", WELDED)) is None


def test_of_a_little_that_is_lost_the_row_says_that_enough_is_left() -> None:
    row = row_of(burnt("2"))
    assert row is not None
    assert row.state is SizeState.GOOD


@pytest.mark.parametrize("way", ["less-steel-face", "weld-on-steel-face"])
@pytest.mark.parametrize("step", [WELDED, WELDED + 9])
def test_its_ways_back_do_what_they_offer(way: str, step: int) -> None:
    job = burnt("14", step)
    offer = next(one for one in job.ways_back() if one.name == way)
    job.take(way)
    standing, row = job.standing(), row_of(job)
    assert standing.verdict is offer.verdict
    assert "hard steel" not in why(standing)
    assert standing.chance == pytest.approx(offer.chance, abs=0.02)
    assert row is not None
    assert row.state is SizeState.GOOD
    assert standing.step is not None
    for _ in range(standing.step.heats_planned):
        job.heat()
    assert job.standing().chance == pytest.approx(offer.chance, abs=0.02)
    assert "hard steel" not in why(job.standing())


def test_hard_steel_is_not_welded_on_again() -> None:
    job = at_step("cross-peen-hammer", 99)
    job.lose(LossAsked("face", "14 g", "ground away"))
    names = {one.name for one in job.ways_back()}
    assert "less-steel-face" in names
    assert "weld-on-steel-face" not in names


def test_an_end_that_is_shortened_is_shortened_by_the_steel_that_lies_on_it() -> None:
    # 2 mm off the poll's end, once the face is welded there, are 2 mm of the face.
    job = at_step("cross-peen-hammer", WELDED)
    job.lose(LossAsked("poll", "2 mm", "burnt"))
    row = row_of(job)
    assert row is not None
    assert row.expected.value == pytest.approx(7.3 - 2.0, abs=0.1)
    assert row.state is SizeState.UNDER


def adze_without(end: LossAsked) -> Session:
    """The adze, its steel welded on the bit, with so much of the bit's end gone."""
    job = at_step("carpenters-adze", 24)
    job.lose(end)
    return job


def steel_g(job: Session) -> float:
    """What is left of its steel by what losing a gram more would leave."""
    left = job.loss(LossAsked("edge", "1 g")).left
    return left.parts[0].value + 1.0  # type: ignore[union-attr]


@pytest.mark.parametrize("end", [LossAsked("bit", "15 mm", "burnt"), LossAsked("bit", "69 g", "burnt")])
def test_the_end_of_a_bit_takes_the_steel_that_lies_in_it(end: LossAsked) -> None:
    """By hand: the steel is a wedge 50 wide, from 7 at the end to 2 over about 36 to 37 mm.

    Of 15 mm the mean thickness is 7 - 7.5 × 5 / 36.5 = 6.0, of all of it 4.5: 15 × 6.0 of 36.5 × 4.5, 55 in
    100. By weight 15 × 50 × 6.0 mm³ at 7.85 g/cm³ (EN 1991-1-1) are 35 g, of about 63 g.
    """
    whole_g = steel_g(at_step("carpenters-adze", 24))
    assert whole_g == pytest.approx(63.0, abs=1.5)
    assert whole_g - steel_g(adze_without(end)) == pytest.approx(35.0, abs=2.0)


def test_the_metal_of_iron_and_steel_that_is_gone_is_all_that_went() -> None:
    # By hand: 15 mm of a bit that was about 48.1 long are gone, and it is as thick and as wide as it was.
    job = at_step("carpenters-adze", 24)
    long_mm = length_mm(job)
    assert long_mm == pytest.approx(48.1, abs=0.5)
    job.lose(LossAsked("bit", "15 mm", "burnt"))
    job.read("bit.thickness", "12")
    job.read("bit.width", "50")
    assert length_mm(job) == pytest.approx(long_mm - 15.0, abs=0.5)


def length_mm(job: Session) -> float:
    form = job.pictured().forms["bit"]
    return form.length_mm


def test_no_iron_is_welded_beyond_steel_that_is_shorter_and_who_lets_it_be_is_told_of_the_steel() -> None:
    offers = {one.name: one for one in adze_without(LossAsked("bit", "15 mm", "burnt")).ways_back()}
    assert "weld-on-more-bit" not in offers
    assert "edge" in write(offers["let-it-give-bit-length"].caution)


def test_iron_that_is_short_behind_its_whole_steel_may_be_welded_on() -> None:
    job = at_step("carpenters-adze", 24)
    job.lose(LossAsked("bit", "65 g", "cracked"))
    assert "weld-on-more-bit" in {one.name for one in job.ways_back()}


def test_steel_in_a_cleft_goes_with_the_end_it_stands_in() -> None:
    job = at_step("hedging-hatchet", 20)
    whole_g = steel_g(job)
    job.lose(LossAsked("bit", "10 mm", "burnt"))
    assert whole_g - steel_g(job) > 5.0
    row = next(one for one in job.standing().sizes if one.name == "edge.remains")
    # By hand: the 10 mm are drawn out about 1.7 times since, and no less of it is left than that.
    assert row.expected.value < 34.5
