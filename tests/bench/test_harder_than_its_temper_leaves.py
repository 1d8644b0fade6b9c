"""A thick bar may be left softer than is told, which makes no hardness above that any likelier."""

from __future__ import annotations

import pytest

from coach.bench.learned import OfShop
from coach.bench.session import Session
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of


def at(number: int) -> Session:
    """A job of the cross-peen hammer: 30 hardens its peen, 31 tempers its face, 35 mm thick, of C45."""
    return at_step_of("cross-peen-hammer", number)


def read(session: Session, size: str, typed: str, *, insist: bool = False) -> str:
    return answer_text(session.read(size, typed, insist=insist), Shown())


# C45 quenched in water has 54 to 58 HRC, and 52 after 250 °C, 48 after 300 °C (makers' tables, facts E2): no
# spread of grades or of testers makes 60 of it.
@pytest.mark.parametrize("heat", ["dark straw", "250 °C", "300 °C"])
@pytest.mark.parametrize("hrc", ["60", "63", "66"])
def test_what_its_temper_cannot_have_left_is_questioned(heat: str, hrc: str) -> None:
    session = at(31)
    read(session, "poll.temperature", heat)
    assert "as it was tempered its steel has" in read(session, "poll.hardness", hrc)
    assert [one.name for one in session.standing().questioned] == ["poll.hardness"]


@pytest.mark.parametrize("hrc", ["55", "52", "45", "40"])
def test_what_it_may_have_left_is_taken(hrc: str) -> None:
    session = at(31)
    read(session, "poll.temperature", "250 °C")
    assert "cannot be right" not in read(session, "poll.hardness", hrc)


@pytest.mark.parametrize("hrc", ["60", "63"])
def test_what_is_insisted_on_moves_no_curve_so_far_up(hrc: str) -> None:
    session = at(31)
    read(session, "poll.temperature", "250 °C")
    read(session, "poll.hardness", hrc, insist=True)
    assert [one for one in session.standing().learned if one.what is OfShop.TEMPER] == []
    step = session.standing().step
    assert step is not None
    assert not any("Your own readings" in write(one) for one in step.know)


@pytest.mark.parametrize(("hrc", "is_questioned"), [("68", True), ("59", False), ("50", False)])
def test_no_quench_makes_it_harder_than_its_carbon(hrc: str, is_questioned: bool) -> None:
    # C45 is 54 to 58 HRC as quenched, at most some 60 by its carbon (facts E2).
    assert ("as it was quenched its steel has" in read(at(30), "peen.hardness", hrc)) is is_questioned
