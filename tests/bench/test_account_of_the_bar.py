"""Of several pieces some are cut short, spoiled, cut anew or given up: all that left the rack is told.

By hand: square 14 is 196 mm², at 7.85 g/cm³ (from memory) 1.5386 g for each millimetre; a peg's blank is
point (12² + 12 x 4 + 4²)/3 x 80 / 196 = 28.3, shank 144 x 100 / 196 = 73.5, head
(24 x 7 x 40 - pi/4 x 81 x 7) / 196 = 32: with the slug, 2 mm for the cut and the scale some 137 mm.
"""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.bench.taken import MetalTaken
from coach.cli.page import set_page
from coach.drafting.from_bar import from_bars
from coach.drafting.from_rack import taken_from
from coach.drafting.make import made_often
from coach.operations import Does
from coach.quantities.refusal import Refusal
from coach.quantities.words import Words
from coach.telling.sheet import sheet_page
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import shop

MM = Shown("mm")
G_A_MM = 1.5386
LONG_MM = 1400.0

PEG = """
recipe: Tether peg
pieces:
  peg:
    metal: mild steel
    bar: square 14
    zones:
      point: square 12 ±0.8 to 4 ±1, long 80 ±9
      shank: square 12 ±0.8, long 100 ±9
      head: 24 ±2 x 7 ±0.8, long 40 ±5, round hole 9 ±0.6
usual: {at: light yellow, kerf: 2}
steps:
  - mark out: peg
  - taper: point
    check: end thickness, length
  - draw: shank
    check: side, length
  - cut: head, 1 heat
    check: length
  - spread: head, 24 ±2 x 7 ±0.8, 2 heats
    check: width, thickness
  - punch: head, 1 heat
    check: hole length
"""


def pegs(count: int) -> tuple[Shop, Session]:
    """So many of one bar that lies on the rack."""
    at = shop()
    at.rack.lay("bar", f"square 14, long {LONG_MM:g}, mild steel", "mm")
    text, rack = made_often(PEG, count), at.rack.now()
    taken = taken_from(text, "peg.yaml", rack, "bar")
    made = from_bars(text, "peg.yaml", taken.bars.split(";")).text
    return at, at.begin(made, "peg.yaml", None, taken.cuts(rack))


def rack_mm(at: Shop) -> float:
    return sum(bar.length.value for bar in at.rack.now().bars)


def metal(job: Session) -> MetalTaken:
    found = job.sheet().metal
    assert found is not None
    return found


def to_step(job: Session, title: str) -> None:
    while (step := job.standing().step) is not None and title not in step.title:
        job.done()
    assert step is not None


def second_cut_short() -> tuple[Shop, Session, float]:
    """Peg 2 of five is cut with a head 26 mm long; how much of the bar it took then."""
    at, job = pegs(5)
    to_step(job, "Cut the peg 2 head")
    job.heat()
    job.read("peg 2 head.length", "26", insist=True)
    return at, job, metal(job).lengths[1].value


@pytest.mark.parametrize("done_between", [False, True])
def test_a_piece_cut_anew_and_given_up_before_anything_is_made_of_it_takes_no_bar_twice(
    *, done_between: bool
) -> None:
    at, job, took_mm = second_cut_short()
    there_mm, before = rack_mm(at), metal(job)
    job.take("cut-another-peg-2")
    if done_between:
        job.done()
    did = job.change("give up peg 2").did
    assert isinstance(did, Words)
    assert "137 mm of its bar is as it was" in write(did, MM)
    assert not any("peg 2" in step.title for step in job.recipe.steps[len(job._state.records) :])
    for _ in ("as it is given up", "and at the end"):
        told = metal(job)
        assert rack_mm(at) == pytest.approx(there_mm, abs=0.1)
        assert told.lengths[1].value == pytest.approx(took_mm, abs=0.1)
        assert told.used.value == pytest.approx(before.used.value, abs=0.1)
        assert told.given_up.value == pytest.approx(told.aside.value)
        while job.standing().step is not None:
            job.done()
    page = " ".join(" ".join(set_page(sheet_page(job.sheet(), MM))).split())
    assert "cut anew" not in page
    costs = [write(one.told, MM) for one in job.next_time().costs]
    assert any("given up" in text for text in costs)
    assert not any("cut anew" in text for text in costs)


def test_what_was_cut_anew_and_marked_only_lies_on_its_bar_too() -> None:
    at, job, took_mm = second_cut_short()
    there_mm = rack_mm(at)
    job.take("cut-another-peg-2")
    job.done()
    job.done()  # the new one is marked out
    job.change("give up peg 2")
    assert rack_mm(at) == pytest.approx(there_mm, abs=0.1)
    assert metal(job).lengths[1].value == pytest.approx(took_mm, abs=0.1)


def test_what_was_made_of_the_new_one_is_off_the_bar_and_was_cut_anew() -> None:
    at, job, took_mm = second_cut_short()
    there_mm = rack_mm(at)
    job.take("cut-another-peg-2")
    to_step(job, "Spread the peg 2 head")
    job.change("give up peg 2")
    told = metal(job)
    assert there_mm - rack_mm(at) == pytest.approx(137.0, abs=0.2)
    assert told.lengths[1].value == pytest.approx(took_mm + 137.0, abs=0.2)
    assert 0.0 < told.given_up.value < told.aside.value


def test_a_piece_cut_short_and_given_up_took_what_was_cut_and_no_more() -> None:
    at, job, took_mm = second_cut_short()
    there_mm, before = rack_mm(at), metal(job)
    job.done()
    job.change("give up peg 2")
    told = metal(job)
    assert told.lengths[1].value == pytest.approx(took_mm, abs=0.1)
    assert rack_mm(at) == pytest.approx(there_mm, abs=0.1)
    assert told.lost.value == pytest.approx(before.lost.value, abs=1.0)


NAMES = ("peg 1", "peg 2", "peg 3")
ZONES = ("point", "shank", "head")

#: Of a blank of 137 mm, what still lies on the bar where its point is worked, or its shank too (by hand,
#: 137 - 28.3 and 137 - 28.3 - 73.5, each some scale more).
BEHIND_MM = {0: 137.0, 1: 108.0, 2: 33.5}


def test_what_burns_of_a_piece_that_is_only_marked_lies_on_no_rack() -> None:
    """25 mm of square 14 are 38.5 g; the marks of the other pieces stay where they are."""
    at, job = pegs(3)
    to_step(job, "Cut the peg 2 head")
    there_mm, before = rack_mm(at), metal(job)
    job.lose(LossAsked("peg 3 point", "25", "burnt"))
    for _ in ("as it is lost", "and once it is drawn"):
        assert rack_mm(at) == pytest.approx(there_mm, abs=0.1)
        assert metal(job).lengths[2].value == pytest.approx(before.lengths[2].value, abs=0.1)
        to_step(job, "Cut the peg 3 head")
    assert metal(job).lost.value >= 25.0 * G_A_MM


class Blanks:
    """What left the bar, counted in blanks: each that was begun, and each that is cut off at its mark."""

    def __init__(self) -> None:
        self.gone = dict.fromkeys(NAMES, 1.0)  # a blank is marked out for each
        self.since = dict.fromkeys(NAMES, 0)  # the step that the one in hand was begun behind
        self.given_up: set[str] = set()

    def cut_anew(self, job: Session, piece: str) -> None:
        self.gone[piece] += 1.0
        self.since[piece] = len(job._state.records)

    def give_up(self, job: Session, piece: str) -> None:
        behind = [one for one in NAMES[NAMES.index(piece) + 1 :] if one not in self.given_up]
        self.given_up.add(piece)
        done = [one.step for one in job._state.records[self.since[piece] :]]
        own = [one for one in done if one.zones and one.zones[0].startswith(piece)]
        if any(one.does(Does.CUTS_FREE) for one in own) or (behind and not self.since[piece]):
            return  # it is off the bar, or is cut off at its mark before what lies behind it
        worked = {ZONES.index(one.zones[0].split()[-1]) for one in own if not one.does(Does.MARKS_OUT)}
        self.gone[piece] -= BEHIND_MM[max(worked, default=-1) + 1] / BEHIND_MM[0]

    def taken_mm(self) -> float:
        return BEHIND_MM[0] * sum(self.gone.values())


def work_on(job: Session, steps: int, off_mm: float) -> None:
    """So many steps; what is cut off is cut so much beside its length."""
    for _ in range(steps):
        if (step := job._state.step) is None:
            break
        if off_mm and step.does(Does.CUTS_FREE):
            name = f"{step.zones[0]}.length"
            check = next((one for one in job.standing().checks if one.name == name), None)
            if check is not None and check.expected is not None:
                job.read(name, f"{check.expected.value + off_mm:.1f}", insist=True)
        job.done()


@settings(max_examples=14, deadline=None, phases=(Phase.generate,), derandomize=True)
@given(st.data())
def test_in_whatever_order_pieces_are_spoiled_cut_anew_and_given_up_the_account_is_whole(
    data: st.DataObject,
) -> None:
    at, job = pegs(len(NAMES))
    by_hand, off_mm = Blanks(), data.draw(st.sampled_from([0.0, 0.0, -6.0, 4.0]))
    for _ in range(data.draw(st.integers(2, 5))):
        work_on(job, data.draw(st.integers(1, 6)), off_mm)
        piece = data.draw(st.sampled_from(NAMES))
        if data.draw(st.booleans()):
            with suppress(Refusal):  # it is not begun, or was given up
                job.lose(LossAsked(f"{piece} point", "25", "burnt"))
                job.take(f"cut-another-{piece.replace(' ', '-')}")
                by_hand.cut_anew(job, piece)
        else:
            with suppress(Refusal):  # nothing would be made then
                job.change(f"give up {piece}")
                by_hand.give_up(job, piece)
        told = metal(job)
        gone_mm = sum(one.value for one in told.lengths)
        assert gone_mm + rack_mm(at) == pytest.approx(LONG_MM, abs=0.2)
        assert told.used.value == pytest.approx(gone_mm * G_A_MM, abs=1.0)
        assert told.left.value + told.aside.value + told.lost.value == pytest.approx(told.used.value, abs=0.1)
        if not off_mm:
            assert gone_mm == pytest.approx(by_hand.taken_mm(), abs=3.0)


# A head cut some 5 mm short leaves that much of the bar at the front of the next peg; what is cut off there
# lies on the floor: 1400 mm less what was cut off for the job is on the rack as before.


def test_what_is_cut_off_a_marked_piece_to_be_rid_of_it_does_not_go_back_to_the_rack() -> None:
    at, job = pegs(2)
    to_step(job, "Cut the peg 1 head")
    lying_mm = rack_mm(at)
    job.heat()
    job.read("peg 1 head.length", "27")
    assert rack_mm(at) == pytest.approx(lying_mm, abs=0.5)
    way = next(one for one in job.ways_back() if one.name.startswith("too-much-metal-cut-peg-2"))
    job.take(way.name)
    assert rack_mm(at) == pytest.approx(lying_mm, abs=0.5)
    job.done()
    assert rack_mm(at) == pytest.approx(lying_mm, abs=0.5)
