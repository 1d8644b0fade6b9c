"""A welding heat after the grinding takes the carbon out once more, where no stone comes to it any more."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.bench.skin import SteelSkin, short_skin
from coach.ledger.verdict import PlanState
from coach.places import bundled_recipes
from coach.telling.skin import skin_words
from coach.telling.words import write
from tests.bench.jobs import shop


def adze_at(step: int) -> Session:
    recipe = bundled_recipes() / "carpenters-adze.yaml"
    session = shop().begin(recipe.read_text(encoding="utf-8"), recipe.name, None)
    while session.standing().step.number < step:  # type: ignore[union-attr]
        session.done()
    return session


def edge(session: Session) -> SteelSkin:
    return next(skin for skin in session.standing().skins if skin.steel == "edge")


@pytest.fixture(scope="module")
def welded_again() -> Session:
    """The edge was ground at step 32; at step 37 its weld was found open."""
    session = adze_at(37)
    assert edge(session).enough is not False
    session.read("bit.etch", "fail", then=session.then(31))
    session.take("do-again-weld-bit")
    return session


def test_the_skin_of_a_weld_made_again_after_the_grinding_is_told(welded_again: Session) -> None:
    skin = edge(welded_again)
    assert skin.enough is False
    assert skin.left is not None
    assert skin.left.value > 0.1
    assert "no step ahead grinds it off" in write(skin_words(skin))
    told = write(short_skin(welded_again.standing().skins))
    assert "or it comes out soft" in told
    assert welded_again.standing().verdict is not PlanState.ON_PLAN


def test_a_file_that_skates_after_it_proves_the_edge(welded_again: Session) -> None:
    session = welded_again
    while session.standing().step.title != "Again: harden the edge":  # type: ignore[union-attr]
        session.done()
    session.read("bit.file test", "pass")
    assert edge(session).enough is not False
    session.read("bit.file test", "fail")
    assert edge(session).enough is False, "tried anew, the file bites"


@pytest.mark.parametrize(("step", "told"), [(37, True), (30, False)])
def test_a_welding_heat_on_an_edge_that_is_ground_thin_has_its_caution(step: int, told: bool) -> None:
    session = adze_at(step)
    session.read("bit.etch", "fail", insist=True, then=session.then(min(step, 31)))
    way = next(one for one in session.ways_back() if one.name == "do-again-weld-bit")
    assert ("2 mm thin" in write(way.caution)) is told
