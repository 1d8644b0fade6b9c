"""What is cut anew off another bar of the rack is booked on that bar; what was sawn stays as it was read.

By hand: the saw takes 2 mm at each cut; 620 - 3 x 195.5 = 33.5 of the first bar stay as planned.
"""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.cli.page import set_page
from coach.drafting.from_bar import from_bars
from coach.drafting.from_rack import taken_from
from coach.places import bundled_recipes
from coach.telling.sheet import sheet_page
from coach.telling.writing import Shown
from tests.bench.jobs import shop


def chain() -> tuple[Shop, Session]:
    """Three links to be sawn off `first`, a round 10 of 620 mm; a `second` of 400 lies beside it."""
    at = shop()
    at.rack.lay("first", "round 10, long 620, mild steel", "mm")
    at.rack.lay("second", "round 10, long 400, mild steel", "mm")
    text = (bundled_recipes() / "ring-and-chain.yaml").read_text(encoding="utf-8")
    rack = at.rack.now()
    taken = taken_from(text, "ring-and-chain.yaml", rack, "link=first")
    made = from_bars(text, "ring-and-chain.yaml", taken.bars.split(";")).text
    return at, at.begin(made, "ring-and-chain.yaml", None, taken.cuts(rack))


def sawn(job: Session, link: int, long_mm: str) -> None:
    job.read(f"link {link}.length", long_mm, insist=True)
    job.done()


def left_mm(at: Shop, bar: str) -> float:
    return at.rack.now().named(bar).length.value


def test_a_piece_cut_anew_off_another_bar_is_booked_on_that_bar() -> None:
    """First: 620 - 195.5 - 162 - 195.5 = 67; second: 400 - 182 = 218."""
    at, job = chain()
    sawn(job, 1, "193.5")
    job.read("link 2.length", "160", insist=True)
    job.take("cut-another")
    job.done()
    sawn(job, 2, "180")
    sawn(job, 3, "193.5")
    assert left_mm(at, "first") == pytest.approx(67.0, abs=0.5)
    assert left_mm(at, "second") == pytest.approx(218.0, abs=0.5)


def test_a_weld_that_came_out_wrong_changes_no_length_that_was_sawn() -> None:
    """First: 620 - 195.5 - 192.5 - 195.5 = 36.5; second: 400 - 184 = 216; link 2 took 192.5 + 184 = 376.5."""
    at, job = chain()
    for link, long_mm in ((1, "193.5"), (2, "190.5"), (3, "193.5")):
        sawn(job, link, long_mm)
    while (step := job.standing().step) is not None and step.title != "Weld a link: link 2":
        job.done()
    job.heat()
    job.heat()
    for name, mm in (("inner length", "58"), ("inner width", "20.9"), ("diameter", "9.8")):
        job.read(f"link 2.{name}", mm, insist=True)
    assert left_mm(at, "first") == pytest.approx(36.5, abs=0.5)
    job.take("cut-another-link-2")
    assert left_mm(at, "first") == pytest.approx(36.5, abs=0.5)
    job.done()
    sawn(job, 2, "182")
    assert left_mm(at, "first") == pytest.approx(36.5, abs=0.5)
    assert left_mm(at, "second") == pytest.approx(216.0, abs=0.5)
    page = " ".join(" ".join(set_page(sheet_page(job.sheet(), Shown("mm")))).split())
    assert "for the link 2, planned; 376.5 mm taken" in page
