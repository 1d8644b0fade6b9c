"""A section read both ways counts as the true one of as much metal; what trues it is told in figures."""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt

import pytest

from coach.bench.entering import EntryFault
from coach.bench.out_of_true import read_both_ways
from coach.bench.session import Session
from coach.log.carry import export_job
from coach.telling.entered import answer_text
from coach.telling.writing import Shown
from tests.bench.jobs import shop as a_shop

PEG = """\
recipe: Peg
pieces:
  peg:
    metal: mild steel
    bar: square 14
    zones:
      shank: square 10 ±1, long 120 ±12
      end: round 10 ±1, long 60 ±8
steps:
  - draw: shank, 2 heats, at yellow
    check: side, length
  - draw: end, round 10 ±1, 1 heat, at yellow
    check: diameter
"""


@pytest.fixture
def session() -> Iterator[Session]:
    with a_shop() as shop:
        yield shop.begin(PEG, "peg.yaml")


def told(session: Session, name: str, typed: str) -> str:
    return answer_text(session.read(name, typed), Shown(session.system))


def side_mm(session: Session) -> float:
    read = session.standing().checks
    return next(one.reading.size.value for one in read if one.dimension == "side" and one.reading)


def test_a_square_gone_to_a_diamond_counts_by_its_diagonals(session: Session) -> None:
    """p·q/2 is a rhombus's area (elementary geometry): 15 x 13.33 is as much as 10 square, 14.14 across.

    Its corners are 2·atan(13.33/15) = 83.3°, so 6.7° out, and each long one is (15 - 14.14)/2 = 0.43 out.
    """
    said = told(session, "shank.side", "diagonals 15 x 13.33")
    assert "Out of square by 7°: stand it on its long corners and set each in by 0.4 mm" in said
    assert "it counts as 10 mm all round" in said
    assert side_mm(session) == pytest.approx(sqrt(15 * 13.33 / 2))
    session.strike()
    assert not [one for one in session.standing().checks if one.reading is not None]


def test_sides_that_differ_count_by_their_area(session: Session) -> None:
    said = told(session, "shank.side", "10.4 x 9.6")
    assert "0.8 mm out of true: set the 10.4 mm way down by 0.4 mm" in said
    assert side_mm(session) == pytest.approx(sqrt(10.4 * 9.6))


def test_an_oval_counts_by_its_area_too(session: Session) -> None:
    session.done()
    assert "0.6 mm out of true" in told(session, "end.diameter", "10.3 x 9.7")


def test_of_a_true_section_nothing_more_is_said(session: Session) -> None:
    assert "out of" not in told(session, "shank.side", "10.1 x 10").lower()
    assert "out of" not in told(session, "shank.side", "corners 14.2 x 14.1").lower()


@pytest.mark.parametrize(
    ("name", "typed", "why"),
    [
        ("shank.side", "10 x", "is not a unit of length"),
        ("shank.side", "30 x 9", "is no section that is to be true"),
        ("shank.length", "120 x 118", "is two sizes, and the length is one: type it alone"),
        ("shank.side", "diagonals 15 x foo", "foo"),
    ],
)
def test_what_cannot_be_read_both_ways_says_so(session: Session, name: str, typed: str, why: str) -> None:
    with pytest.raises(EntryFault) as refused:
        session.read(name, typed)
    assert why in str(refused.value)


def test_a_round_has_no_corners(session: Session) -> None:
    session.done()
    with pytest.raises(EntryFault, match="A round has no corners"):
        session.read("end.diameter", "diagonals 15 x 13")


def test_in_inches_both_are_read_in_inches() -> None:
    """1 in is 25.4 mm (by definition)."""
    read = read_both_ways("side", "1 x 1/2", "in")
    assert read is not None
    assert (read.greater_mm, read.less_mm) == (25.4, 12.7)


def test_a_job_with_such_a_reading_is_carried_and_replayed() -> None:
    with a_shop() as shop, a_shop() as other:
        session = shop.begin(PEG, "peg.yaml")
        session.read("shank.side", "15 x 13.33 diag")
        brought = other.bring_in(export_job(shop.log, session.job))
        assert brought.standing() == session.standing()


FLAT = """\
recipe: Share
pieces:
  share:
    metal: mild steel
    bar: 40 x 24, long 200
    zones:
      blade: 40 ±2 x 18 ±1, long 100 ±12
      rest: 40 ±2 x 24 ±2, long 80 ±12
steps:
  - set down: blade, 40 ±2 x 18 ±1, 2 heats
    check: width, thickness
"""


@pytest.fixture
def share() -> Iterator[Session]:
    with a_shop() as shop:
        job = shop.begin(FLAT, "share.yaml")
        job.heat()
        job.read("blade.width", "40")
        job.read("blade.thickness", "18")
        yield job


@pytest.mark.parametrize(
    ("name", "typed"),
    [
        ("blade.width", "42.5 x 45.2 diag"),
        ("blade.thickness", "diag 45.2 x 42.5"),
        ("blade.diagonals_differ", "45.2 x 42.5"),
        ("blade.diagonals_differ", "2.7"),
    ],
)
def test_a_flat_gone_to_a_diamond_is_told_by_its_diagonals(share: Session, name: str, typed: str) -> None:
    """d = (45.2² - 42.5²) / (4·40) = 1.48; atan(1.48/18) = 4.7°; a true one is √(40² + 18²) = 43.9 across.

    With d = 1.48: √(41.48² + 18²) = 45.2 and √(38.52² + 18²) = 42.5, as it was read.
    """
    before = share.standing()
    said = told(share, name, typed)
    assert "blade diagonals differ 2.7 mm" in said
    assert "Out of square by 5°, one broad face 1.5 mm beyond the other" in said
    assert "until both diagonals are 44 mm" in said
    after = share.standing()
    assert [one.reading for one in after.checks][:2] == [one.reading for one in before.checks][:2]
    assert after.spares == before.spares  # it holds as much metal


def test_diagonals_that_hardly_differ_are_of_a_square_flat(share: Session) -> None:
    assert "It is square as far as a gauge tells" in told(share, "blade.width", "44 x 43.8 diag")


def test_diagonals_of_another_flat_are_asked_for_again(share: Session) -> None:
    """Of 40 by 18 they are √(40² + 18²) = 43.9 where it is square, and hardly more where it is not."""
    said = told(share, "blade.width", "38 x 36 diag")
    assert "A flat 40 mm by 18 mm is 44 mm from corner to corner: measure the diagonals again" in said


def test_two_sizes_of_a_flat_without_that_word_are_no_diagonals(share: Session) -> None:
    with pytest.raises(EntryFault, match="is two sizes"):
        share.read("blade.width", "42.5 x 45.2")


def test_a_job_with_such_diagonals_is_carried() -> None:
    with a_shop() as shop, a_shop() as other:
        job = shop.begin(FLAT, "share.yaml")
        job.heat()
        job.read("blade.width", "42.5 x 45.2 diag")
        brought = other.bring_in(export_job(shop.log, job.job))
        assert brought.standing() == job.standing()
