"""The eye to drift for a haft that is there, the kerf in it and the wedge that fills it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.finish.haft import (
    DRIEST_PERCENT,
    USUAL_FIT_MM,
    USUAL_FLARE_MM,
    WETTEST_PERCENT,
    Direction,
    KerfAndWedge,
    MeasuredHaft,
    Oval,
    Wood,
    check_haft_moisture,
    eye_for_haft,
    wedge_for,
    wood_called,
)
from coach.quantities import Figure, SizeError, Words, mm, read_share, say
from coach.quantities.errors import briefly
from coach.quantities.refusal import OutOfRange
from coach.quantities.takes import Take, plain
from coach.quantities.units import System
from coach.reckoner.asking.reading import NotReckoned, read_two_sizes_mm
from coach.reckoner.asking.takes import size
from coach.reckoner.asking.told import Told, Under

SUMMARY = "Tell the eye to drift for a haft, its kerf and its wedge."
SOURCES = (
    "Sources: the shrinkage of the Wood Handbook, FPL-GTR-190 (confirmed for most woods), by a straight "
    "line below 30 % moisture (confirmed second-hand); kerf and wedge as usual in the trade (from memory); "
    "what is left for the file, and the flare (judgement)."
)


def read_haft(text: str, system: System) -> Oval:
    """The two sizes of a haft, along the head and across it; raises SizeError."""
    return Oval(*read_two_sizes_mm(text, "a haft", system))


def read_moisture(text: str) -> float:
    """The moisture of a haft in per cent of the dry wood, with the sign or without it; raises NotReckoned.

    >>> read_moisture("12"), read_moisture("12 %")
    (12.0, 12.0)
    """
    told = text.strip().removesuffix("%").strip()
    try:
        percent = 100.0 * read_share(f"{told} %")
        check_haft_moisture(percent)
    except (SizeError, OutOfRange):
        raise NotReckoned(
            f"{briefly(text)} is no moisture of a haft, which lies from {DRIEST_PERCENT:g} to "
            f"{WETTEST_PERCENT:g} %; type one such as 12. Air-dry wood has 12 to 18 %."
        ) from None
    return percent


def read_rings(text: str) -> Direction:
    """The way that growth rings run over the eye, length or width; raises NotReckoned.

    >>> read_rings("Width")
    'width'
    """
    way = text.strip().casefold()
    if way == "length":
        return "length"
    if way != "width":
        raise NotReckoned(
            f"{briefly(text)} is no way for growth rings to run: type length (along the head) or width."
        )
    return "width"


_OF_THE_EYE: Final = "which way its rings run: length or width of the eye; length unless said"
_NOW, _USE = "its moisture now; 10 unless said", "its moisture where it will be used; 10 unless said"
TAKES = (
    Take(
        "size",
        "the haft where it is seated: length along the head by width, as 36x22",
        "SIZE",
        read_haft,
        needed=True,
    ),
    Take("--wood", "its wood, such as ash or pignut hickory", "WOOD", plain(wood_called), needed=True),
    Take("--moisture", _NOW, "PERCENT", plain(read_moisture), usual="10"),
    Take("--in-use", _USE, "PERCENT", plain(read_moisture), usual="10"),
    Take("--natural", "of a riven haft, its size at a second place", "SIZE", read_haft),
    Take("--rings", _OF_THE_EYE, "WAY", plain(read_rings), usual="length"),
    size(
        "--spare",
        "what is left for scale and the file; else 0.4 mm",
        usual=f"{USUAL_FIT_MM} mm",
        may_be_nothing=True,
    ),
    size(
        "--flare",
        "how much wider the far side is; else 2 mm",
        usual=f"{USUAL_FLARE_MM} mm",
        may_be_nothing=True,
    ),
    size("--depth", "how deep the eye is, to be told kerf and wedge"),
    # A saw of the bench takes so much (judgement).
    size("--kerf", "how wide the saw cuts; else 1.5 mm", usual="1.5 mm"),
)


#: A wedge thicker than this share of a haft's width splits it from end to end (judgement).
_WEDGE_SHARE: Final = 0.6


class EyeForAHaft(NamedTuple):
    """The eye to drift for a haft."""

    wood: str
    source: str  # where its shrinkage is from, and how far that is confirmed
    hole_length: Figure  # along the head where the haft goes in
    hole_width: Figure  # across it
    far_length: Figure  # along the head where it comes out and is wedged
    far_width: Figure  # across it
    reasons: tuple[Words, ...]  # what was taken off and why
    seat_when: str  # whether the haft can be seated now
    wedge: KerfAndWedge | None  # None where the depth of the eye was not told


def reckon(
    size: Oval,
    wood: Wood,
    moisture: float,
    in_use: float,
    rings: Direction,
    natural: Oval | None = None,
    spare: float = USUAL_FIT_MM,
    flare: float = USUAL_FLARE_MM,
    depth: float | None = None,
    kerf: float = 1.5,
) -> EyeForAHaft:
    """The eye to drift for a haft, and its wedge where the depth of the eye is told, in mm and per cent.

    Raises OutOfRange for a haft from which no eye follows. Sources: the Wood Handbook, FPL-GTR-190, for the
    shrinkage; fit and flare (judgement), kerf and wedge (from memory), by `coach.finish.haft`.

    >>> from coach.finish.haft import wood
    >>> round(reckon(Oval(32, 20), wood("white ash"), 12, 8, "length").hole_length.value, 1)
    31.3
    """
    haft = MeasuredHaft(size, wood, moisture, in_use, rings, natural)
    if depth is not None and flare + kerf > _WEDGE_SHARE * size.width_mm:
        raise OutOfRange(
            "A wedge of {} would split a haft {} wide; flare less, saw finer, or measure the haft again.",
            *(mm(flare + kerf), mm(size.width_mm)),
        )
    return EyeForAHaft(
        wood.name,
        wood.source,
        *eye_for_haft(haft, fit_mm=spare, flare_mm=flare),
        None if depth is None else wedge_for(flare, kerf, depth),
    )


def told(answer: EyeForAHaft) -> Iterator[Told]:
    """The eye, and the wedge."""
    yield say(
        "Drift the eye to {:n} × {} where the haft goes in, and {:n} × {} where it comes out.",
        answer.hole_length,
        answer.hole_width,
        answer.far_length,
        answer.far_width,
    )
    yield answer.seat_when
    yield Under("Why", answer.reasons)
    if (one := answer.wedge) is not None:
        tip = say(" and {} at its tip", one.tip) if one.tip.value > 0.0 else ", thinned to nothing"
        saw = "Saw the kerf {} deep; the wedge is {} long, {} at its head{}, 1 in 6."
        yield Under("Kerf and wedge", (say(saw, one.kerf_depth, one.length, one.thickness, tip),))
    yield Under("", (f"Shrinkage of {answer.wood}: {answer.source}",))
