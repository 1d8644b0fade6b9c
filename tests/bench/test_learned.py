"""What a job teaches of its fire: it takes more where metal is missing, less where there is too much."""

from __future__ import annotations

import pytest

from coach.bench.learned import LearnedOfShop, OfShop
from coach.bench.session import Session
from tests.bench.jobs import begun
from tests.ledger.recipes import DRAW, FLAT_SCALE


def of_the_fire(length: str) -> tuple[Session, LearnedOfShop]:
    """A strap drawn in its three heats, planned 240 mm long, and what its length teaches."""
    session = begun(f"{FLAT_SCALE}\n{DRAW}")
    for _ in range(3):
        session.heat()
    for name, size in (("thickness", "8"), ("width", "40"), ("length", length)):
        session.read(f"strap.{name}", size, insist=True)
    return session, session.standing().learned[0]


@pytest.mark.parametrize(("length", "up"), [("225", True), ("238", True), ("255", False)])
def test_a_piece_that_comes_out_short_is_laid_to_a_hungry_fire(length: str, up: bool) -> None:
    _, scale = of_the_fire(length)
    assert scale.what is OfShop.SCALE
    assert (scale.now.value > 1.0) is up
    assert scale.by is not None
    assert (scale.by.dimension, scale.by.up) == ("length", up)
    assert scale.others == 0


def test_a_piece_as_long_as_reckoned_teaches_nothing_worth_naming() -> None:
    _, scale = of_the_fire("240")
    assert scale.by is None
    assert scale.now.value == pytest.approx(1.0, abs=0.02)


def test_what_is_learned_of_the_fire_is_doubted_less_once_a_length_is_read() -> None:
    session, scale = of_the_fire("238")
    session.strike()
    unread = session.standing().learned[0]
    assert scale.now.doubt is not None
    assert unread.now.doubt is not None
    # 40 % are doubted of the loss to scale before any reading, as the recipe says.
    assert 0.0 < scale.now.doubt < unread.now.doubt <= 0.4
