"""A steel's skin as it is told: how deep, and whether the stone goes through it."""

from __future__ import annotations

from collections.abc import Sequence

from coach.bench.skin import SteelSkin
from coach.forms import said
from coach.quantities.words import Words, say
from coach.telling.page import Line, Section, Tone, section
from coach.telling.words import write
from coach.telling.writing import Shown


def skin_words(skin: SteelSkin, *, planned: bool = False) -> Words:
    """`face: 1 mm deep at step 37, which grinds 1.2 mm off the length`.

    Before the first heat, where it is only `planned`, nothing is behind.
    """
    by_now = "" if planned else say("{} deep by now, ", skin.now)
    if skin.at_grinding is None or skin.ground is None or skin.dimension is None:
        if skin.left is not None:
            return say("{}: {}{} deep in the end; no step ahead grinds it off", skin.steel, by_now, skin.left)
        if skin.ground_in is not None:
            return say("{}: {} deep since step {} ground it", skin.steel, skin.now, skin.ground_in)
        deep = "{}: {}{} deep in the end; no step says how much is ground off"
        return say(deep, skin.steel, by_now, skin.end)
    should = say(" and should {}", skin.should) if skin.lacks_mm and skin.should is not None else ""
    return say(
        "{}: {}{}{}{} at step {}, which {} {} off the {}{}{}",
        skin.steel,
        by_now,
        skin.deep or skin.at_grinding,
        "" if by_now else " deep",
        skin.on_faces,
        skin.step or 0,
        "ground" if skin.was_ground else "grinds",
        skin.is_ground or skin.ground,
        "" if skin.dimension == "length" or skin.zone == skin.steel else "steel at the ",
        said(skin.dimension),
        should,
    )


def skin_section(heading: str, skins: Sequence[SteelSkin], shown: Shown, *, planned: bool = False) -> Section:
    """Every steel's skin, what is not ground off enough standing out."""
    lines = (
        Line(
            write(skin_words(skin, planned=planned), shown),
            tone=Tone.BAD if skin.enough is False else Tone.PLAIN,
        )
        for skin in skins
    )
    return section(heading, lines)
