"""What weighings tell together: how much the fire took between them, and how full hammered sections are."""

from __future__ import annotations

import pytest

from coach.bench.learned import LearnedOfShop, OfShop
from coach.bench.session import Session
from tests.bench.jobs import shop

#: Steel, EN 10025 (from memory).
G_MM3 = 7.85e-3
FACE_MM = 0.03

RECIPE = """
recipe: stake
scale: {forging: 0.03 mm, welding: 0.08 mm, treatment: 0.01 mm}
pieces:
  stake:
    metal: mild steel
    bar: square 20, long 900
    zones:
      tail: square 10 ±0.5, long 100 ±8
      neck: square 14 ±0.5, long 90 ±8
      head: square 20 ±0.9, long 40 ±4
steps:
  - mark out: stake
    check: tail.mark, neck.mark
  - cut: head, cold
    check: length
  - draw: tail, square 10 ±0.5, 6 heats
    check: side, length
  - draw: neck, square 14 ±0.5, 6 heats
    check: side, length
"""


def cut_off() -> Session:
    job = shop().begin(RECIPE, "stake.yaml")
    job.done()
    job.done()
    return job


def length_mm(job: Session, zone: str) -> float:
    return job.plan.bar_of(zone).size_mm("length")


def learned(job: Session, what: OfShop) -> LearnedOfShop:
    return next(one for one in job.standing().learned if one.what is what)


def drawn(job: Session, zone: str, side_mm: float, long_mm: float) -> None:
    for _ in range(6):
        job.heat()
    job.read(f"{zone}.side", f"{side_mm:.2f}", gauge="calliper")
    job.read(f"{zone}.length", f"{long_mm:.2f}", gauge="rule")


def scale_mm3(before_side: float, before_long: float, side: float, long: float, heats: int) -> float:
    """What a fire as reckoned takes: the mean of both surfaces, so many times 0.03 mm."""
    return heats * FACE_MM * 2.0 * (before_side * before_long + side * long)


@pytest.mark.parametrize("hunger", [0.5, 2.0])
def test_how_much_lighter_a_piece_has_become_tells_the_fire(hunger: float) -> None:
    job = cut_off()
    zones = {zone: 400.0 * length_mm(job, zone) for zone in ("tail", "neck", "head")}  # mm³
    for zone, side in (("tail", 10.0), ("neck", 14.0)):
        before_long = zones[zone] / 400.0
        long = zones[zone] / side**2
        for _ in range(5):
            took = hunger * scale_mm3(20.0, before_long, side, long, 6)
            long = (zones[zone] - took) / side**2
        zones[zone] -= took
        drawn(job, zone, side, long)
        # Scales that are 3 g off each time, and a steel that is 0.4 % denser: it is so at both weighings.
        job.read("stake.mass", f"{1.004 * G_MM3 * sum(zones.values()) + 3.0:.1f}", gauge="scales")
        job.done()
    fire = learned(job, OfShop.SCALE).now
    assert fire.value == pytest.approx(hunger, rel=0.25)
    assert fire.doubt is not None
    assert abs(fire.value - hunger) < 2.0 * fire.doubt


def test_sections_that_bulge_over_their_sizes_are_told_from_the_fire_by_a_weighing() -> None:
    stout = RECIPE.replace("square 20", "square 40").replace("square 10", "square 30")
    job = shop().begin(stout.replace("square 14", "square 32"), "stake.yaml")
    job.done()
    told = {one.what for one in job.standing().learned}
    assert OfShop.FULLNESS not in told  # sizes alone say nothing of it
    zones = {zone: 1600.0 * length_mm(job, zone) for zone in ("tail", "neck", "head")}
    job.done()
    # Weighed before the fire has touched it too: one weighing cannot tell a fuller section from denser steel.
    job.read("stake.mass", f"{G_MM3 * sum(zones.values()):.1f}", gauge="scales")
    long = zones["tail"] / 900.0
    for _ in range(5):
        took = scale_mm3(40.0, zones["tail"] / 1600.0, 30.0, long, 6)
        long = (zones["tail"] - took) / (1.03 * 900.0)  # 3 % fuller than its side squared
    zones["tail"] -= took
    drawn(job, "tail", 30.0, long)
    job.read("stake.mass", f"{G_MM3 * sum(zones.values()):.1f}", gauge="scales")
    full = learned(job, OfShop.FULLNESS).now
    assert 1.003 < full.value < 1.04


def test_the_next_job_in_the_shop_begins_with_it() -> None:
    at = shop()
    for number in range(2):
        job = at.begin(RECIPE, "stake.yaml", name=f"stake-{number}")
        job.done()
        job.done()
        zones = {zone: 400.0 * length_mm(job, zone) for zone in ("tail", "neck", "head")}
        for zone, side in (("tail", 10.0), ("neck", 14.0)):
            before_long, long = zones[zone] / 400.0, zones[zone] / side**2
            for _ in range(5):
                took = scale_mm3(20.0, before_long, side, long, 6)
                long = (zones[zone] - took) / (1.03 * side**2)
            zones[zone] -= took
            drawn(job, zone, side, long)
            job.read("stake.mass", f"{G_MM3 * sum(zones.values()):.1f}", gauge="scales")
            job.done()
    third = at.begin(RECIPE, "stake.yaml", name="third")
    full = learned(third, OfShop.FULLNESS)
    assert full.now.value > 1.003
    assert full.of_shop == 2
    # What fills its sections more comes out the shorter, but for what the fire is learned to take less.
    without = at.begin(RECIPE, "stake.yaml", name="fourth")
    entry = next(one.number for one in without._entries if "fullness" in str(one.body))
    without.strike(entry)
    lengths = [
        next(one.expected.value for one in job.standing().sizes if one.name == "neck.length")
        for job in (third, without)
    ]
    assert lengths[0] == pytest.approx(lengths[1] / full.now.value, rel=0.003)
