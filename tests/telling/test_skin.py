"""A skin that the stone will not go through is told with how much more to leave, and no other is."""

from __future__ import annotations

import pytest

from coach.bench.skin import SteelSkin, short_skin
from coach.quantities import Figure, Kind, mm
from coach.telling.page import Line, Tone
from coach.telling.skin import skin_section, skin_words
from coach.telling.words import write
from coach.telling.writing import Shown


def deep(size_mm: float) -> Figure:
    return Figure(size_mm, Kind.FINE)


SKIN = SteelSkin(
    steel="face",
    zone="poll",
    metal="C80",
    now=deep(0.5),
    end=deep(1.2),
    ground_in=None,
    step=37,
    at_grinding=deep(1.0),
    dimension="length",
    ground=mm(1.2),
    needed=mm(1.6),
    enough=False,
)


@pytest.mark.parametrize(
    ("enough", "should", "tone"), [(False, " and should 1.6 mm", Tone.BAD), (True, "", Tone.PLAIN)]
)
def test_what_should_be_ground_off_is_told_where_that_is_too_little(
    enough: bool, should: str, tone: Tone
) -> None:
    skin = SKIN._replace(enough=enough)
    told = f"face: 0.50 mm deep by now, 1.00 mm at step 37, which grinds 1.2 mm off the length{should}"
    assert write(skin_words(skin)) == told
    (line,) = skin_section("Skin", [skin], Shown()).body
    assert isinstance(line, Line)
    assert (line.words, line.tone) == (told, tone)


def test_how_much_more_to_leave_is_what_is_wanted_less_what_is_ground() -> None:
    told = write(short_skin([SKIN]))
    assert "up to 1.00 mm deep and only 1.2 mm is ground off the length" in told
    assert "leave 0.4 mm more for the stone" in told
    # 0.4 mm is 0.0157 in, just more than half of a thirty-second: 25.4 mm to the inch.
    assert "leave 1/32 in more for the stone" in write(short_skin([SKIN]), Shown("in"))


def test_what_is_lacking_is_never_told_as_nothing() -> None:
    # 0.02 mm is told no finer than the stone is worked, 0.1 mm, and upwards.
    told = write(short_skin([SKIN._replace(needed=mm(1.22))]))
    assert "leave 0.1 mm more for the stone" in told
