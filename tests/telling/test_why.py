"""Why a job stands as it does is told in a sentence, in the units asked for."""

from __future__ import annotations

import re
from math import nan

import pytest

from coach.ledger.verdict import Reason, SizeState, Why
from coach.ledger.zone_forecast import FinishedSize
from coach.quantities import Figure, Kind, Limits, Wanted, mm, say
from coach.quantities.units import System
from coach.telling.chance import chance_text
from coach.telling.why import reason_text
from coach.telling.words import write
from coach.telling.writing import Shown

SHORT = Reason(Why.SHORT, "strap", "length", mm(-9.2, 2.9), mm(228.0))
UNDER = Reason(Why.UNDER, "strap", "end_thickness", mm(-0.9, 0.1), mm(7.5))
TIGHTEST = Reason(Why.TIGHTEST, "strap", "length", mm(12.3, 2.9), mm(228.0))


NO_STEP = "the drawing allows, and no step ahead puts it right."
ONLY = "Strap: the metal makes the length only 1 ±5 mm above the least the drawing allows"
FULL = (
    "The metal is enough, but the length of strap comes out 2 mm short of its least unless the section is "
    "worked nearer to the size drawn."
)


@pytest.mark.parametrize(
    ("reason", "told"),
    [
        (SHORT, "Strap: the metal makes the length 9 ±5 mm short of the least the drawing allows."),
        (
            SHORT._replace(beyond=mm(1.2, 2.9)),
            f"{ONLY}: it may be short.",
        ),
        (UNDER, f"Strap: the end thickness comes out at 6.6 mm, 0.9 mm under the 7.5 mm {NO_STEP}"),
        (
            Reason(Why.OVER, "strap", "width", mm(0.03), mm(41.0)),
            f"Strap: the width comes out at 41 mm, a hair over the 41 mm {NO_STEP}",
        ),
        (
            TIGHTEST,
            "The metal is enough: the tightest is strap, with 12 mm to spare in its length (at least 8 mm).",
        ),
        (TIGHTEST._replace(why=Why.FULL, beyond=mm(-2.0, 0.6)), FULL),
        (Reason(Why.ENOUGH), "The metal is enough for every zone."),
    ],
)
def test_each_reason_has_its_sentence(reason: Reason, told: str) -> None:
    assert reason_text(reason) == told


def test_what_a_fraction_of_an_inch_does_not_show_is_told_in_thousandths() -> None:
    # 0.26 mm / 25.4 = 0.010 in; 9/32 = 0.281 in, and 0.281 - 0.010 = 0.271 in (arithmetic).
    under = UNDER._replace(beyond=mm(-0.26), bound=mm(9 / 32 * 25.4))
    told = reason_text(under, Shown("in"))
    assert f"comes out at 0.271 in, 0.010 in under the 0.281 in {NO_STEP}" in told


def test_a_hungry_fire_is_told_after_what_it_eats() -> None:
    fire = Figure(1.52, Kind.FACTOR, 0.2)
    told = reason_text(SHORT._replace(fire=fire))
    assert told == f"{reason_text(SHORT)} As far as is known, the fire takes 1.5 times the scale reckoned."


def test_what_stops_the_reckoning_is_told_as_it_was_refused() -> None:
    assert reason_text(say("{} leaves no wall.", mm(25.4)), Shown("in")) == "1 in leaves no wall."


@pytest.mark.parametrize(
    ("chance", "shown"), [(0.974, "97 %"), (1.0, "over 99 %"), (0.0, "under 1 %"), (nan, "chance not known")]
)
def test_a_chance_is_never_told_as_certain(chance: float, shown: str) -> None:
    assert chance_text(chance) == shown


@pytest.mark.parametrize("over_mm", [0.004, 0.02, 0.04, 0.049, 0.06])
@pytest.mark.parametrize("doubt_mm", [0.02, 0.06, 0.1, 0.2])
@pytest.mark.parametrize("system", ["mm", "in"])
def test_a_size_over_its_limit_is_never_told_as_nothing_over_it(
    over_mm: float, doubt_mm: float, system: System
) -> None:
    side = FinishedSize(
        "shank.side",
        "shank",
        "side",
        Wanted(Limits(8.0, 7.2, 8.8, True)),
        mm(8.8 + over_mm, doubt_mm),
        SizeState.OVER,
        take_up=False,
        measured=True,
    )
    told = write(side.words(to_come=False), Shown(system))
    assert re.search(r"(a hair|\S*[1-9]\S* (mm|in)) over the ", told), told


@pytest.mark.parametrize(
    ("why", "beyond", "bound", "told"),
    [
        (Why.UNDER, -2.7, 175.0, "comes out at 172.5 mm, 2.5 mm under the 175 mm"),
        (Why.OVER, 3.3, 99.0, "comes out at 102.5 mm, 3.5 mm over the 99 mm"),
    ],
)
def test_a_difference_told_beside_its_two_numbers_is_theirs(
    why: Why, beyond: float, bound: float, told: str
) -> None:
    """Lengths from 100 mm on are told to the half millimetre, as a rule is read."""
    assert told in reason_text(Reason(why, "strap", "length", mm(beyond, 0.2), mm(bound)))
