"""Metal that is lost half-way through a step, before anything of it was measured."""

from __future__ import annotations

import pytest

from coach.bench.losing import LossAsked, MetalGone
from coach.bench.session import Session
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import begun

#: Of mild steel, g/mm³ (ASM Handbook vol. 1, plain carbon steels: 7.86 g/cm³).
DENSITY = 7.86e-3
#: An invented hook's tip: 25.2 mm of a bar 11 mm square are drawn to a taper 90 mm long in three heats.
TIP = """\
recipe: Tip
units: mm
pieces:
  hook:
    metal: mild steel
    bar: square 11
    zones:
      tip: square 8 ±0.8 to 3 ±1, long 90 ±9
      shank: square 8 ±0.8, long 110 ±10
steps:
  - taper: tip, 3 heats, at light yellow
    check: end thickness, thickness, length
  - draw: shank, square 8 ±0.8, 2 heats, at light yellow
    check: side, length
  - inspect: shank
    check: side
"""


def after(heats: int) -> Session:
    session = begun(TIP)
    for _ in range(heats):
        session.heat()
    return session


def covers(gone: MetalGone, mass_g: float) -> bool:
    assert gone.mass.doubt is not None
    return abs(gone.mass.value - mass_g) <= 2.0 * gone.mass.doubt


#: 20 mm of the bar as it came, and of the finished taper from 3 mm square to 3 + 5 · 20 / 90 mm, by hand.
BAR_G = 20.0 * 11.0**2 * DENSITY
DRAWN_G = 20.0 / 3.0 * (3.0**2 + 3.0 * 4.11 + 4.11**2) * DENSITY


def test_what_burnt_after_one_heat_of_three_is_no_finished_taper() -> None:
    """A third of the way it is 10 mm square to 8.3, by hand 36 mm long: 20 mm of that are 12 g."""
    gone = after(1).loss(LossAsked("tip", "20"))
    assert 10.0 < gone.mass.value < 16.0
    assert covers(gone, BAR_G)
    assert covers(gone, DRAWN_G)


def test_the_more_heats_it_had_the_less_went() -> None:
    masses = [after(heats).loss(LossAsked("tip", "20")).mass.value for heats in (1, 2, 3)]
    assert masses[0] > masses[1] > masses[2]
    assert masses[2] == pytest.approx(DRAWN_G, rel=0.05)


def test_no_length_is_told_as_left_that_nobody_knows() -> None:
    gone = after(1).loss(LossAsked("tip", "20"))
    assert "length is left" not in write(gone.left)
    assert "measure" in write(gone.left)


def test_what_was_read_of_it_settles_it() -> None:
    """10 mm square to 8, read: 20 mm of the end, whose length the metal makes, are 20 · 8.5² mm³ and more."""
    session = after(1)
    session.read("tip.thickness", "10")
    session.read("tip.end_thickness", "8")
    gone = session.loss(LossAsked("tip", "20"))
    assert gone.mass.value == pytest.approx(20.0 * 8.57**2 * DENSITY, rel=0.05)


def test_a_weight_is_known_however_far_it_was_drawn() -> None:
    session = after(1)
    session.lose(LossAsked("tip", "12 g"))
    session_by_length = after(1)
    session_by_length.lose(LossAsked("tip", "20"))
    by_weight, by_length = session.standing(), session_by_length.standing()
    by_weight_mm, by_length_mm = (
        next(one.expected for one in standing.sizes if (one.zone, one.dimension) == ("tip", "length"))
        for standing in (by_weight, by_length)
    )
    assert by_weight_mm.value == pytest.approx(by_length_mm.value, abs=2.0)
    assert (by_weight_mm.doubt or 0.0) < (by_length_mm.doubt or 0.0)


def test_what_is_told_at_rest_goes_by_what_is_left() -> None:
    """12 g of 24 are left: as bar that is some 12.5 mm, and no longer 25.2; its end is 11 mm or less."""
    session = after(1)
    session.lose(LossAsked("tip", "20"))
    rows = {(row.zone, row.dimension): row for row in session.first_to_measure()}
    length, end = rows["tip", "length"], rows["tip", "end_thickness"]
    assert length.before is not None
    assert length.before.value == pytest.approx(12.0, abs=1.5)
    assert end.before is not None
    assert end.before.value == pytest.approx(11.0)


@pytest.mark.parametrize(("heats", "is_told"), [(1, True), (2, True), (3, False)])
def test_a_step_that_ends_short_of_heats_after_a_loss_says_what_it_counts_as(
    heats: int, *, is_told: bool
) -> None:
    session = after(heats)
    session.lose(LossAsked("tip", "20"))
    told = answer_text(session.done(), Shown())
    assert (f"eats marked: {heats} of 3, none of them since metal of the tip was lost" in told) is is_told


def test_nor_is_it_said_of_what_was_heated_or_measured_since() -> None:
    heated, measured = after(1), after(1)
    for session in (heated, measured):
        session.lose(LossAsked("tip", "20"))
    heated.heat()
    for size in ("thickness=8", "end_thickness=3.2", "length=40"):
        measured.read(f"tip.{size.split('=')[0]}", size.split("=")[1])
    for session in (heated, measured):
        assert "was lost" not in answer_text(session.done(), Shown())
