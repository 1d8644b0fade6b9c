"""What is done cold and the metal does not stand: every operation that reshapes, by its grade.

The limits are common practice, no source: soft steel is bent cold about half its thickness, medium carbon
about twice, tool steel about four times; soft steel is hammered to half its thickness at once.
"""

from __future__ import annotations

import pytest

from coach.bench.outlook import outlook
from coach.ledger.looking_back import look_back
from coach.ledger.weigh import Cannot
from coach.recipe.reader import read_recipe
from coach.telling.words import write


def found(metal: str, bar: str, size: str, step: str) -> list[str]:
    """What is found too cold in a pin of that metal."""
    text = (
        f"recipe: Pin\npieces:\n  pin:\n    metal: {metal}\n    bar: {bar}\n    size: {size}\n"
        f"steps:\n  - cut: pin, cold, kerf 2\n  - {step}\n"
    )
    findings = outlook(look_back(read_recipe(text, "pin.yaml"))).findings
    return [write(one.sentence) for one in findings if one.what is Cannot.GIVE_COLD]


SCROLL = "scroll, across 72 ±6, eye 18 ±3, pitch 14 ±2, wide 20 ±1, thick 5.5 ±0.5"
COLLAR = "collar, inside wide 20 ±0.6, inside height 12 ±2, wide 12 ±0.8, thick 4 ±0.4"
RING = "ring of round 10, inside 60"
RIVET = "rivet, diameter 8 ±0.4, grip 25 ±2, head diameter 14 ±1.5, head height 5.5 ±1.5"
TWISTED = "square 12, long 70, twisted 2 turns"
BAR = ("30 x 10", "30 x 10, long 60 ±9")
THIN = ("round 12", "round 12 to 4 ±1, long 70 ±9", "taper: pin, cold")

NOT_COLD = [
    ("C45", "20 x 5.5", SCROLL, "scroll: pin, cold", "tighter than 11 mm"),
    ("C45", "12 x 4", COLLAR, "collar: pin, cold", "tighter than 8 mm"),
    ('"1095"', "round 10", RING, f"bend: pin, {RING}, cold", "tighter than 40 mm"),
    ("unknown spring steel", "round 10", RING, f"bend: pin, {RING}, cold", "tighter than 40 mm"),
    ("C45", *BAR, "bend: pin, radius 10, cold", "tighter than 20 mm"),
    ("wrought iron", *BAR, "bend: pin, radius 10, cold", "tighter than 15 mm"),
    ("mild steel", "12 x 4", COLLAR, "collar: pin, cold", "tighter than 2 mm"),
    ("C45", "round 8", RIVET, "rivet: pin, cold", "headed cold cracks"),
    (
        "mild steel",
        "round 12",
        RIVET.replace("8 ±", "12 ±").replace("14", "21"),
        "rivet: pin, cold",
        "12 mm thick",
    ),
    ("mild steel", "square 12", TWISTED, "twist: pin, cold", "one turn in 35 mm"),
    ("mild steel", *THIN, "hammered cold there to one 3 times as thin"),
    ("C45", *THIN, "cold it must take one"),
]


@pytest.mark.parametrize(("metal", "bar", "size", "step", "said"), NOT_COLD)
def test_what_is_worked_cold_beyond_what_its_metal_stands_is_found_once(
    metal: str, bar: str, size: str, step: str, said: str
) -> None:
    (one,) = found(metal, bar, size, step)
    assert said in one


def test_a_taper_is_judged_by_its_end_and_not_by_its_middle() -> None:
    """25 x 10 to 8 x 5: 250 mm² become 40, 6.25 times as small, though it is only half as thin."""
    (one,) = found("mild steel", "25 x 10", "25 x 10 to 8 x 5, long 90 ±9", "taper: pin, cold")
    assert "6.2 times as small" in one


FOLLOWS = [
    ("mild steel", "20 x 5.5", SCROLL, "scroll: pin, cold"),
    ("mild steel", "round 10", RING, f"bend: pin, {RING}, cold"),
    ("mild steel", *BAR, "bend: pin, radius 10, cold"),
    ("C45", *BAR, "bend: pin, radius 60, cold"),
    ("C45", *BAR, "straighten: pin, bow at most 1, cold"),
    ("wrought iron", "round 8", RIVET, "rivet: pin, cold"),
    ("mild steel", "square 12", TWISTED.replace("70", "300"), "twist: pin, cold"),
    ("mild steel", "round 12", "round 12 to 8 ±1, long 70 ±9", "taper: pin, cold"),
    ("C45", *BAR, "bend: pin, radius 10, at 1000 °C"),
]


@pytest.mark.parametrize(("metal", "bar", "size", "step"), FOLLOWS)
def test_what_its_metal_follows_cold_or_what_is_heated_is_no_finding(
    metal: str, bar: str, size: str, step: str
) -> None:
    assert found(metal, bar, size, step) == []
