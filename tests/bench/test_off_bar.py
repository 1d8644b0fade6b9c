"""What ways back take of a bar: the bar that is left, the pieces, what was set aside and lost are all of it.

By hand: round 22 is pi/4 x 22² = 380.13 mm², at 7.85 g/cm³ (from memory) 2.984 g for each millimetre.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from coach.bench.entering import EntryFault
from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.bench.taken import MetalTaken
from coach.cli.page import set_page
from coach.drafting.from_bar import from_bars
from coach.drafting.from_rack import taken_from
from coach.drafting.make import made_often
from coach.places import bundled_recipes
from coach.telling.sheet import sheet_page
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import shop

G_A_MM = 2.984
LONG_MM = 700.0


def three_chisels(at: Shop, long_mm: float = LONG_MM) -> Session:
    """Three chisels from one round 22 of the rack, the first of them cut off."""
    at.rack.lay("long-round", f"round 22, long {long_mm:g}, C80", "mm")
    text = (bundled_recipes() / "cold-chisel.yaml").read_text(encoding="utf-8")
    text = made_often(text, 3)
    rack = at.rack.now()
    taken = taken_from(text, "cold-chisel.yaml", rack, "long-round")
    made = from_bars(text, "cold-chisel.yaml", taken.bars.split(";")).text
    job = at.begin(made, "cold-chisel.yaml", None, taken.cuts(rack))
    to_the_cut(job)
    job.done()
    return job


def to_the_cut(job: Session) -> None:
    while (step := job.standing().step) is not None and "cut the chisel" not in step.title.lower():
        job.done()


def on_the_rack_mm(at: Shop) -> float:
    return sum(bar.length.value for bar in at.rack.now().bars)


def metal(job: Session) -> MetalTaken:
    found = job.sheet().metal
    assert found is not None
    return found


def spoil_the_second(job: Session) -> None:
    """Once it is off the bar 30 mm of its edge burn."""
    to_the_cut(job)
    job.done()
    job.lose(LossAsked("chisel_2_edge", "30 mm", "burnt"))


def way(job: Session, begins: str) -> str:
    return next(one.name for one in job.ways_back() if one.name.startswith(begins))


def test_another_piece_is_cut_off_the_rack_and_stands_on_the_sheet() -> None:
    at = shop()
    job = three_chisels(at)
    there_mm = on_the_rack_mm(at)
    each_mm = (LONG_MM - there_mm) / 3
    spoil_the_second(job)
    before = metal(job)
    job.take(way(job, "cut-another-chisel-2"))
    assert on_the_rack_mm(at) == pytest.approx(there_mm - each_mm, abs=0.3)
    after = metal(job)
    assert after.used.value == pytest.approx(before.used.value + G_A_MM * each_mm, abs=1.0)
    assert after.aside.value + after.left.value == pytest.approx(
        before.left.value + G_A_MM * each_mm, abs=1.0
    )
    assert 300.0 < after.aside.value < G_A_MM * each_mm - 20.0
    assert after.lost.value == pytest.approx(before.lost.value, abs=1.0)


def test_bar_that_was_cut_anew_is_not_told_as_planned() -> None:
    job = three_chisels(shop())
    spoil_the_second(job)
    assert bar_row(job).endswith("as planned")
    job.take(way(job, "cut-another-chisel-2"))
    assert "as planned" not in bar_row(job)


def bar_row(job: Session) -> str:
    """What is told of the bar that was planned and taken."""
    rows = set_page(sheet_page(job.sheet(), Shown("mm")))
    return next(line.rstrip() for line in rows if line.split()[:1] == ["bar"])


def test_its_heats_are_planned_and_taken_too() -> None:
    at = shop()
    job = three_chisels(at)
    spoil_the_second(job)
    before, told = job.sheet().heats, job.standing().heats_total
    job.take(way(job, "cut-another-chisel-2"))
    assert job.sheet().heats.planned_now == before.planned_now + 7  # 2 the shank, 4 the edge, 1 the cut
    to_the_cut(job)
    job.done()
    assert job.standing().heats_total == told + 7


def test_struck_out_it_lies_on_the_rack_again() -> None:
    at = shop()
    job = three_chisels(at)
    there_mm = on_the_rack_mm(at)
    spoil_the_second(job)
    before = metal(job)
    job.take(way(job, "cut-another-chisel-2"))
    job.strike()
    assert on_the_rack_mm(at) == pytest.approx(there_mm)
    assert metal(job) == before


def test_of_a_bar_that_has_not_so_much_left_another_bar_is_named() -> None:
    at = shop()
    job = three_chisels(at, 480.0)
    there_mm = on_the_rack_mm(at)
    spoil_the_second(job)
    name = way(job, "cut-another-chisel-2")
    told = next(one for one in job.ways_back() if one.name == name)
    assert "of another bar of round" in write(told.title, Shown("mm"))
    assert write(told.caution, Shown("mm")) == f"its own bar has only {there_mm:.1f} mm left"
    before = metal(job)
    job.take(name)
    assert on_the_rack_mm(at) == pytest.approx(there_mm)
    assert metal(job).used.value > before.used.value + 350.0  # it is metal of the job all the same


def cut_short(job: Session, piece: int, by_mm: float) -> None:
    """The cut in hand is made so far before its mark; the piece's head is that much shorter than told."""
    to_the_cut(job)
    job.heat()
    name = f"chisel {piece} head.length"
    wanted = next(one for one in job.standing().checks if one.name == name).expected
    assert wanted is not None
    job.read(f"chisel_{piece}_head.length", f"{wanted.value - by_mm:.1f}", insist=True)


def edge_mm(job: Session, piece: int) -> float:
    """How long the bar is marked out for a chisel's edge, as it lies there."""
    now = job._state.now
    assert now is not None
    return now.size(f"chisel {piece} edge", "length").value


def test_of_a_bar_that_lies_there_the_rack_falls_and_has_it_back_once_that_is_struck_out() -> None:
    at = shop()
    job = three_chisels(at, 480.0)
    at.rack.lay("too-short", "round 22, long 100, C80", "mm")
    at.rack.lay("other-steel", "round 22, long 200, C45", "mm")
    at.rack.lay("the-one", "round 22, long 200, C80", "mm")
    spoil_the_second(job)
    name = way(job, "cut-another-chisel-2")
    told = next(one for one in job.ways_back() if one.name == name)
    each_mm = job.plan.pieces["chisel 2"].length.value
    assert "of the-one, round 22 mm" in write(told.title, Shown("mm"))
    job.take(name)
    page = " ".join(" ".join(set_page(sheet_page(job.sheet(), Shown("mm")))).split())
    assert "137.5 mm of C80, round 22 mm, for the chisel 2, planned; 275.5 mm taken." in page
    assert at.rack.now().named("the-one").length.value == pytest.approx(200.0 - each_mm)
    assert at.rack.now().named("other-steel").length.value == 200.0
    cut = next(one for one in at.rack.history() if "the-one for" in write(one.words, Shown("mm")))
    with pytest.raises(EntryFault, match="strike that way back"):
        at.rack.strike(cut.number)
    job.strike()
    assert at.rack.now().named("the-one").length.value == 200.0


def test_what_a_piece_is_cut_short_by_is_at_the_front_of_the_next_one_that_is_marked() -> None:
    """Chisel 3 is marked on the bar: cut 4 mm before its mark chisel 2 leaves 4 mm, 11.9 g, at its front."""
    at = shop()
    job = three_chisels(at)
    to_the_cut(job)
    there_mm, before, front_mm = on_the_rack_mm(at), metal(job), edge_mm(job, 3)
    cut_short(job, 2, 4.0)
    for _ in ("while the cut is in hand", "and once it is done"):
        assert edge_mm(job, 3) == pytest.approx(front_mm + 4.0, abs=0.5)
        assert on_the_rack_mm(at) == pytest.approx(there_mm, abs=0.2)
        after = metal(job)
        assert after.lost.value == pytest.approx(before.lost.value, abs=1.5)
        assert after.used.value == pytest.approx(before.used.value, abs=0.5)
        job.done()


def test_what_a_piece_is_cut_long_by_is_gone_from_the_front_of_the_next_one() -> None:
    at = shop()
    job = three_chisels(at)
    to_the_cut(job)
    there_mm, front_mm = on_the_rack_mm(at), edge_mm(job, 3)
    cut_short(job, 2, -4.0)
    assert edge_mm(job, 3) == pytest.approx(front_mm - 4.0, abs=0.5)
    assert on_the_rack_mm(at) == pytest.approx(there_mm, abs=0.2)


def test_what_the_last_piece_is_cut_short_by_stays_on_its_bar() -> None:
    """The head is told to be cut 8.9 mm long; cut at 5 mm its bar keeps the rest: 3.9 mm, 11.6 g."""
    at = shop()
    job = three_chisels(at)
    to_the_cut(job)
    job.done()
    to_the_cut(job)
    there_mm, before = on_the_rack_mm(at), metal(job)
    cut_short(job, 3, 4.0)
    assert on_the_rack_mm(at) == pytest.approx(there_mm + 4.0, abs=0.5)
    after = metal(job)
    assert after.lost.value == pytest.approx(before.lost.value, abs=1.5)
    assert after.used.value == pytest.approx(before.used.value - 4.0 * G_A_MM, abs=2.0)


def test_a_mark_made_further_along_the_bar_takes_so_much_more_of_it() -> None:
    at = shop()
    text = (bundled_recipes() / "cold-chisel.yaml").read_text(encoding="utf-8")
    at.rack.lay("long-hex", "hexagon 19, long 500, C80", "mm")
    rack = at.rack.now()
    taken = taken_from(text, "cold-chisel.yaml", rack, "long-hex")
    made = from_bars(text, "cold-chisel.yaml", taken.bars.split(";")).text
    job = at.begin(made, "cold-chisel.yaml", None, taken.cuts(rack))
    there_mm = on_the_rack_mm(at)
    mark = next(one for one in job.standing().checks if one.name == "head.mark").wanted
    assert mark is not None
    job.read("head.mark", f"{mark.limits.nominal + 6.0:.1f}", insist=True)
    assert on_the_rack_mm(at) == pytest.approx(there_mm - 6.0, abs=0.6)


def everything_g(at: Shop, job: Session) -> float:
    told = metal(job)
    return told.left.value + told.lost.value + told.aside.value + G_A_MM * on_the_rack_mm(at)


def spoil_the_edge(job: Session) -> None:
    job.lose(LossAsked("chisel_1_edge", "6 mm", "cracked"))


@pytest.mark.parametrize("spoil", [spoil_the_second, spoil_the_edge])
def test_whatever_way_is_taken_rack_piece_and_what_went_are_what_was_there(
    spoil: Callable[[Session], None],
) -> None:
    at = shop()
    job = three_chisels(at)
    spoil(job)
    was_g = G_A_MM * LONG_MM
    ways = [one.name for one in job.ways_back() if not one.again]
    assert ways
    for name in ways:
        if name not in {one.name for one in job.ways_back()}:
            continue
        job.take(name)
        told = metal(job)
        if "weld" not in name:
            assert everything_g(at, job) == pytest.approx(was_g, abs=4.0), name
        assert told.lost.value >= 0.0
        job.strike()


def two_chisels_off_none() -> tuple[Session, Callable[[], float]]:
    """Of bars that are not on a rack: what is taken is all there is."""
    text = (bundled_recipes() / "cold-chisel.yaml").read_text(encoding="utf-8")
    return shop().begin(made_often(text, 2), "cold-chisel.yaml"), lambda: 0.0


def two_chisels_off_a_rack() -> tuple[Session, Callable[[], float]]:
    at = shop()
    at.rack.lay("hex", "hexagon 19, long 900, C80", "mm")
    text = made_often((bundled_recipes() / "cold-chisel.yaml").read_text(encoding="utf-8"), 2)
    rack = at.rack.now()
    taken = taken_from(text, "cold-chisel.yaml", rack, "hex")
    made = from_bars(text, "cold-chisel.yaml", taken.bars.split(";")).text
    job = at.begin(made, "cold-chisel.yaml", None, taken.cuts(rack))
    return job, lambda: on_the_rack_mm(at)


#: Hexagon 19 is sqrt(3)/2 x 19² = 312.63 mm², at 7.85 g/cm³ (from memory) 2.454 g for each millimetre.
HEX_G_A_MM = 2.454


@pytest.mark.parametrize("begin", [two_chisels_off_none, two_chisels_off_a_rack])
@pytest.mark.parametrize("done_before", [2, 4], ids=["the first one's first heat", "the second one's"])
def test_a_piece_spoiled_at_its_first_heat_took_its_bar_too(
    begin: Callable[[], tuple[Session, Callable[[], float]]], done_before: int
) -> None:
    """A blank is 166.58 mm, 408.8 g; three are 1226 g, whichever of two was spoiled; 25 mm cracked off."""
    job, on_rack_mm = begin()
    there_mm = on_rack_mm()
    for _ in range(done_before):
        job.done()
    spoiled = "chisel 1" if done_before == 2 else "chisel 2"
    job.heat()
    job.lose(LossAsked(f"{spoiled} edge", "25", "cracked"))
    before = metal(job)
    job.take(way(job, f"cut-another-{spoiled.replace(' ', '-')}"))
    for _ in ("as it is taken", "and at the end"):
        told = metal(job)
        assert told.used.value == pytest.approx(3 * 408.8, abs=1.5)
        assert sum(one.value for one in told.lengths) == pytest.approx(3 * 166.58, abs=0.5)
        assert told.left.value + told.lost.value + told.aside.value == pytest.approx(told.used.value, abs=0.1)
        if there_mm:
            assert on_rack_mm() == pytest.approx(there_mm - 166.58, abs=0.6)
            whole_g = told.left.value + told.lost.value + told.aside.value + HEX_G_A_MM * on_rack_mm()
            assert whole_g == pytest.approx(HEX_G_A_MM * 900.0, abs=3.0)
        assert told.lost.value >= before.lost.value - 0.5
        while job.standing().step is not None:
            job.done()
    page = " ".join(" ".join(set_page(sheet_page(job.sheet(), Shown("mm")))).split())
    assert f"hexagon 19 mm, for the {spoiled}, planned; 333 mm taken." in page


def four_hooks_cut_short() -> tuple[Shop, Session]:
    """Off a square 12 of 520 mm; hook 1's plate is to be cut off 25.2 mm long, and is at 14."""
    at = shop()
    at.rack.lay("sq12", "square 12, long 520, mild steel", "mm")
    text = made_often((bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8"), 4)
    rack = at.rack.now()
    taken = taken_from(text, "first-hook.yaml", rack, "sq12")
    made = from_bars(text, "first-hook.yaml", taken.bars.split(";")).text
    job = at.begin(made, "first-hook.yaml", None, taken.cuts(rack))
    while (step := job.standing().step) is not None and step.title != "Cut the plate from the bar: hook 1":
        job.done()
    job.heat()
    job.read("hook 1 plate.length", "14", insist=True)
    return at, job


@pytest.mark.parametrize("done_first", [False, True])
def test_what_a_spoiled_piece_left_in_front_of_the_next_one_is_taken_once(*, done_first: bool) -> None:
    """Four hooks take 386.5 mm, the one cut anew 97 more: of 520 about 36 stay, whatever the cut left."""
    at, job = four_hooks_cut_short()
    if done_first:
        job.done()
    job.take("cut-another-hook-1")
    for _ in ("as it is taken", "and at the end"):
        assert on_the_rack_mm(at) == pytest.approx(36.2, abs=1.0)
        told = metal(job)
        assert sum(one.value for one in told.lengths) == pytest.approx(520.0 - 36.2, abs=1.0)
        whole_g = told.left.value + told.lost.value + told.aside.value + 1.1304 * on_the_rack_mm(at)
        assert whole_g == pytest.approx(1.1304 * 520.0, abs=1.0)
        while job.standing().step is not None:
            job.done()
    assert metal(job).lost.value < 30.0  # scale and the slugs of four holes
