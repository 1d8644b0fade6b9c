"""A stone that left some of the skin: what was wrong before the step was done is wrong after it."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.quantities.figure import Kind, Wanted
from tests.bench.jobs import begun
from tests.told import why

_WAY = "grind-deeper-blade-thickness"
SCRAPER = """
recipe: Thin scraper
pieces:
  scraper:
    metal: "1084"
    bar: 25 x 6, long 500
    zones:
      tang: 14 ±1 x 6 ±0.6 to 6 ±1 x 5 ±0.6, long 90 ±9, allowance 4 %
      blade: 27 ±2 x 3.6 ±0.4, long 100 ±12, allowance 8 %
usual: {at: light yellow, kerf: 2}
steps:
  - mark out: scraper
  - taper: tang, 3 heats
    check: width, end width, end thickness, length
  - cut: blade, 1 heat
    check: length
  - spread: blade, 27.5 ±2 x 4.6 ±0.4, 2 heats
    check: width, thickness, length
  - normalise: all of scraper, 3 heats, at 870 °C
  - grind: blade, 27 ±2 x 3.6 ±0.4
    check: thickness, width
  - harden: blade, at 800 to 830 °C, soak 2 to 5 min, 1 heat, quench oil
    check: magnet, temperature, file test
  - temper: blade, at 200 to 230 °C, soak at least 2 h, hardness 58 to 61
    check: temperature
"""


def ground(thickness: str, forged: str = "4.6") -> Session:
    """The scraper at the stone, all as wanted before it, its blade read there."""
    job = begun(SCRAPER)
    while (step := job.standing().step) is not None and step.operation != "grind":
        for _ in range(step.heats_planned):
            job.heat()
        for check in job.standing().checks:
            wanted = check.wanted
            if isinstance(wanted, Wanted) and wanted.kind is Kind.LENGTH and not check.optional:
                value = forged if check.name == "blade.thickness" else f"{wanted.limits.nominal:g}"
                job.read(check.name, value)
        job.done()
    job.read("blade.thickness", thickness)
    job.read("blade.width", "27.2")
    return job


def test_a_skin_that_the_stone_left_is_told_after_its_step_as_before() -> None:
    # 4.6 less 0.1 of scale less 3.6 are 0.9; each of two faces wants 0.47 and a tenth: 1.14, told as 1.2.
    job = ground("3.6")
    assert "take 0.3 mm more off" in why(job.standing())
    job.done()
    standing = job.standing()
    assert standing.verdict is PlanState.TIGHT
    assert "only 0.9 mm was ground off the thickness: take 0.3 mm more off" in why(standing)
    (skin,) = (one for one in standing.skins if one.steel == "blade")
    assert (skin.step, skin.ground_in, skin.enough) == (6, 6, False)


def test_a_skin_that_the_stone_took_off_is_no_more_told_after_its_step() -> None:
    # 4.6 less 0.1 less 3.3 are 1.2, and 1.14 are wanted.
    job = ground("3.3")
    job.done()
    assert "skin" not in why(job.standing())


@pytest.mark.parametrize("is_done", [False, True], ids=["at the stone", "after it"])
def test_a_way_back_takes_off_what_the_stone_left(is_done: bool) -> None:
    job = ground("3.6")
    if is_done:
        job.done()
    assert _WAY in {one.name for one in job.ways_back()}
    job.take(_WAY)
    assert job.forms_now()["blade"].sizes_mm()["thickness"] == pytest.approx(3.3, abs=0.02)
    assert "skin" not in why(job.standing())
    job.read("blade.thickness", "3.4")  # 4.5 - 3.4 = 1.1, and 0.05 less than 1.14 is as good as that
    assert "skin" not in why(job.standing())
    # Grinding lengthens nothing: 108 was read to half a millimetre.
    (length,) = (one for one in job.standing().sizes if one.name == "blade.length")
    assert (length.expected.doubt or 0.0) < 1.0


def test_no_face_is_ground_thinner_than_is_drawn() -> None:
    # 3.4 wants 0.1 more, and 3.3 is inside; from 4.2 forged to 3.4 it would be 2.9, and 3.2 is the least.
    job = ground("3.4", forged="4.2")
    (skin,) = (one for one in job.standing().skins if one.steel == "blade")
    assert skin.enough is False
    assert _WAY not in {one.name for one in job.ways_back()}


def test_a_file_that_skates_on_the_face_says_that_no_skin_is_left() -> None:
    job = ground("3.6")
    job.done()
    job.heat()
    job.read("blade.magnet", "pass")
    job.read("blade.temperature", "815")
    assert "skin of the blade" in why(job.standing())
    job.read("blade.file_test", "pass")
    assert "skin of the blade" not in why(job.standing())
