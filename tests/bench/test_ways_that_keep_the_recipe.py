"""A way back leaves to the steps ahead what is theirs, and none is told that the recipe cannot follow."""

from __future__ import annotations

import pytest

from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.cli.from_bar import with_bars
from coach.ledger.verdict import Verdict
from coach.places import bundled_recipes
from tests.bench.jobs import at_step_of, shop


def spread_and_burnt() -> Session:
    """A mattock's blade that is being spread, its end burnt off: short, and thick at its end still."""
    job = at_step_of("mattock", 9)
    job.heat()
    job.heat()
    for name, size in (("thickness", "24.5"), ("end_width", "60"), ("end_thickness", "15")):
        job.read(f"blade.{name}", size)
    job.lose(LossAsked("blade", "16 mm"))
    job.read("blade.end_thickness", "14")
    job.read("blade.length", "95")
    return job


def test_an_edge_that_is_ground_to_its_size_is_not_forged_to_it_before() -> None:
    # The spreading leaves 9 mm, the thinning 5.2, and the stone the rest: nothing is left for it at 4.
    job = spread_and_burnt()
    changed = {
        (row.zone, row.dimension)
        for offer in job._offers()
        if offer.way.name.startswith("work-nearer")
        for row in offer.idea.amendment.regained
    }
    assert ("blade", "end_thickness") not in changed


def test_no_zone_is_left_longer_for_a_mark_that_is_made_anew() -> None:
    # Left longer, the eye would move each mark behind it.
    text = (bundled_recipes() / "mattock.yaml").read_text(encoding="utf-8")
    job = shop().begin(with_bars(text, "mattock.yaml", "round 44, long 300").recipe.text, "mattock.yaml")
    for zone, mark in (("neck", "190"), ("pick", "85.4"), ("eye", "168"), ("blade", "263")):
        job.read(f"{zone}.mark", mark, insist=True)
    ways = job.ways_back()
    assert "move-metal-blade-mark" in {way.name for way in ways}
    assert not [way for way in ways if way.name.startswith("too-much-metal-leave")]
    assert all(way.chance >= job.standing().chance for way in ways)


def opened_too_long() -> Session:
    """A mattock's eye at its second drift, run 1.5 mm over what the step asks for, its cheeks as asked."""
    job = at_step_of("mattock", 2)
    for step, heats in enumerate((3, 5, 3)):
        if step:
            job.done()
        for _ in range(heats):
            job.heat()
    for name, size in (("hole_length", "47.2"), ("hole_width", "25.3"), ("width", "46"), ("length", "85.5")):
        job.read(f"eye.{name}", size)
    return job


def test_what_is_left_as_it_is_stays_believed_and_is_what_the_step_aims_at() -> None:
    job = opened_too_long()
    way = next(one for one in job.ways_back() if one.name == "too-much-metal-leave-eye-length")
    job.take(way.name)
    check = next(one for one in job.standing().checks if one.name == "eye.length")
    assert check.reading is not None
    assert not check.reading.questioned
    assert check.reading.judged is not None
    assert check.reading.judged.verdict is Verdict.GOOD
    assert check.wanted is not None
    assert check.wanted.limits.nominal == pytest.approx(85.5, abs=0.1)
    size = next(one for one in job.standing().sizes if one.name == "eye.length")
    assert size.expected.value == pytest.approx(85.5, abs=0.5)
    assert job.standing().chance == pytest.approx(way.chance, abs=0.02)
    # Two heats later and a little longer still: no drift makes it shorter, and none is asked for.
    job.heat()
    job.heat()
    job.read("eye.length", "86")
    assert not [one for one in job.ways_back() if one.name == "forge-further-eye-length"]


def verdicts(job: Session) -> dict[str, tuple[object, ...]]:
    """What is wanted of each size of the eye that was read, what was said of it, whether it is questioned."""
    return {
        one.name: (one.wanted, one.reading.judged and one.reading.judged.verdict, one.reading.questioned)
        for one in job.standing().checks
        if one.reading is not None
    }


@pytest.mark.parametrize("thickness", ["7.4", "7.2"])
def test_what_was_read_before_a_weld_is_made_again_keeps_its_meaning(thickness: str) -> None:
    # A fire that was put in takes its scale off what is there: nothing was worked fuller for it.
    job = at_step_of("folded-froe", 3)
    job.heat()
    job.read("eye.inside", "36.4")
    job.read("eye.lap", "31")
    job.done()
    job.heat()
    job.heat()
    for name, size in (("weld line", "fail"), ("inside", "37.8"), ("thickness", thickness)):
        job.read(f"eye.{name}", size)
    before = verdicts(job)
    way = next(one for one in job.ways_back() if one.name.startswith("do-again"))
    job.take(way.name)
    assert verdicts(job) == before
    assert job.standing().chance == pytest.approx(way.chance, abs=0.02)
    assert not [one for one in job.ways_back() if one.name == "forge-further-eye-thickness"]


@pytest.mark.parametrize("other", ["neck", "pick"])
def test_what_an_eye_is_too_long_is_the_metal_of_a_neighbour_that_is_not_forged_yet(other: str) -> None:
    # Neither neck nor pick is shouldered: the shoulder is set nearer to the hole, and costs nothing.
    job = opened_too_long()
    way = next(one for one in job.ways_back() if one.name == f"give-to-the-neighbour-eye-{other}")
    before = job.forms_now()
    job.take(way.name)
    standing, after = job.standing(), job.forms_now()
    assert standing.chance == pytest.approx(way.chance, abs=0.02)
    assert not standing.questioned
    size = next(one for one in standing.sizes if one.name == "eye.length")
    assert size.wanted.limits.contains(size.expected.value)
    given_mm3 = before["eye"].volume_mm3() - after["eye"].volume_mm3()
    assert after[other].volume_mm3() - before[other].volume_mm3() == pytest.approx(given_mm3, rel=0.02)
    # By hand: 7.5 mm of a section of some 46 by 38.5 mm.
    assert given_mm3 == pytest.approx(7.5 * 46.0 * 38.5, rel=0.06)
