"""How deep the fire takes the carbon out of a steel in a row of heats, and what to leave for the grinder."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from coach.fire.limits import burning_words
from coach.metals.grade_file import Grade
from coach.metals.skin import (
    FINISH_MM,
    HIGHEST_C,
    KEPT_SHARE,
    LOWEST_C,
    Lying,
    allowance_mm,
    carbon_profile,
    skin_mm,
    spread_mm2,
)
from coach.metals.transformation import solidus_c
from coach.quantities import Figure, Kind, Words, celsius, read_duration_s, run_on, say, seconds, share
from coach.quantities.takes import Take, Typed
from coach.reckoner.asking.reading import NotReckoned, TypedHeat, read_heat
from coach.reckoner.asking.takes import HEAT, grade_named
from coach.reckoner.asking.told import Told, Under, rows

SUMMARY = "Tell how deep the fire takes the carbon out of a steel."
SOURCES = (
    "Sources: the diffusivity of J. Ågren 1986 (confirmed second-hand), Fick's second law (confirmed "
    "second-hand); nine tenths of the carbon and 0.1 mm beyond (judgement). An upper bound above 912 °C."
)
TAKES = (
    grade_named("such as 1084 or C45"),
    Take(
        "heats",
        f"{HEAT}, and how long it lies at it: 3 (min) or 90s; as often as it is heated",
        "HEAT MINUTES",
        typed=Typed.SEVERAL,
        needed=True,
    ),
)

#: The depths, in mm, that the carbon is told at (our choice).
PROFILE_MM: Final = (0.1, 0.2, 0.5, 1.0)
_HALF: Final = 0.5

_UPPER: Final = say(
    "This is the most it can be: it is reckoned for a fire with air to spare and a face held at no carbon "
    "at all. A deep reducing coal fire takes less, and scale takes some of the skin with it."
)
#: Below where iron itself turns, in °C (confirmed), a face without carbon is ferrite, and Fick's law in
#: austenite is not valid (facts of the iron-carbon diagram, edition not seen,
#: confirmed).
_IRON_TURNS_C: Final = 912.0
_FERRITE: Final = say(
    "From {} to {} a face that loses its carbon turns to ferrite, and that skin is not followed: it can be "
    "more than twice as deep as what is told of half, so this is not the most. Break or file a corner.",
    celsius(LOWEST_C),
    celsius(_IRON_TURNS_C),
)
_DIFFUSIVITY: Final = say(
    "Carbon moves more slowly where little is left, which is not followed: for 0.3 to 1.0 % of carbon the "
    "depth of nine tenths comes out 5 to 25 % too great, that of half 10 to 65 %."
)
_THICK: Final = say(
    "It holds for a piece much thicker than its skin; where the skins of two faces meet, less carbon is left."
)


class HeatInTheFire(NamedTuple):
    """One time that the piece lies hot in the fire."""

    temperature: Figure  # how hot
    time: Figure  # how long


class CarbonAtADepth(NamedTuple):
    """The carbon at one depth."""

    depth: Figure  # below the face
    carbon: Figure  # what is left there


class SkinAfterHeats(NamedTuple):
    """The skin that a row of heats leaves on each face; an upper bound where all lie above 912 °C."""

    metal: str  # the grade
    carbon: Figure  # inside
    heats: tuple[HeatInTheFire, ...]  # as they were told
    spread_mm2: float  # what all of them did together, Σ D t
    skin: (
        Figure | None
    )  # how deep less than nine tenths is left, doubted as the heats are; None: not reckoned
    half: Figure | None  # how deep less than half is left
    allowance: Figure | None  # what to leave on each face for the grinder
    profile: tuple[CarbonAtADepth, ...]  # empty where no skin is reckoned
    remarks: tuple[Words, ...]  # what was assumed


def read_heats(words: Sequence[str]) -> list[tuple[TypedHeat, float]]:
    """Heats and the minutes of each, in turn; raises NotReckoned, SizeError and NotKnown.

    >>> read_heats(["1100", "3", "light orange", "90s"])[1][1]
    1.5
    """
    if len(words) % 2 or not words:
        raise NotReckoned(
            "Heats and minutes were expected in turn, one time for each heat, as in 1100 3 950 10; add what "
            "is missing."
        )
    return [
        (read_heat(heat), read_duration_s(minutes) / 60.0)
        for heat, minutes in zip(words[::2], words[1::2], strict=True)
    ]


def reckon(grade: Grade, heats: Sequence[str]) -> SkinAfterHeats:
    """The skin of a grade after these heats and times, as typed; whatever their order.

    Raises NotReckoned for a grade whose carbon is not known, and OutOfRange. Source: Ågren 1986 (confirmed
    second-hand) and Fick's second law, by `coach.metals.skin`.

    >>> from coach.metals.grade import grade
    >>> round(reckon(grade("1084"), ["1100", "12"]).skin.value, 2)
    0.68
    """
    lying = read_heats(heats)
    carbon = grade.carbon_share
    if carbon is None:
        raise NotReckoned(
            f"The carbon of {grade.name} is not known, and without it no skin can be reckoned; name the "
            "steel that it is most like."
        )
    for heat, _ in lying:
        if heat.temperature_c >= solidus_c(carbon):
            raise NotReckoned(
                "{} melts {}, which begins at {}: there is no skin left to reckon.",
                *(celsius(heat.temperature_c), grade.name, celsius(solidus_c(carbon))),
            )
    if max(heat.temperature_c for heat, _ in lying) < LOWEST_C:
        return _not_reckoned(grade, carbon, lying)
    spreads = [
        spread_mm2(carbon, [Lying(heat.temperature_c + way * heat.doubt_c, time) for heat, time in lying])
        for way in (-1.0, 0.0, 1.0)
    ]
    least_mm, likely_mm, most_mm = map(skin_mm, spreads)
    most, likely, least = (carbon_profile(carbon, spread, PROFILE_MM) for spread in spreads)
    return SkinAfterHeats(
        grade.name,
        Figure(carbon, Kind.CONTENT),
        _as_told(lying),
        spreads[1],
        _fine(likely_mm, (most_mm - least_mm) / 2.0),
        _fine(skin_mm(spreads[1], _HALF)),
        _fine(allowance_mm(likely_mm)),
        tuple(
            CarbonAtADepth(_fine(depth_mm), Figure(likely[at], Kind.CONTENT, (most[at] - least[at]) / 2.0))
            for at, depth_mm in enumerate(PROFILE_MM)
        ),
        tuple(_remarks(grade, [heat.temperature_c for heat, _ in lying])),
    )


def _not_reckoned(grade: Grade, carbon: float, lying: Sequence[tuple[TypedHeat, float]]) -> SkinAfterHeats:
    """Heats that are all too cold for austenite: ferrite loses carbon too, and nothing here reckons it."""
    cold = say(
        "Below {} steel is not austenite, and what the fire takes there is not reckoned: hours of it leave a "
        "skin too. Break or file a corner to see.",
        celsius(LOWEST_C),
    )
    inside = Figure(carbon, Kind.CONTENT)
    return SkinAfterHeats(grade.name, inside, _as_told(lying), 0.0, None, None, None, (), (cold,))


def _as_told(lying: Sequence[tuple[TypedHeat, float]]) -> tuple[HeatInTheFire, ...]:
    return tuple(HeatInTheFire(celsius(heat.temperature_c), seconds(60.0 * time)) for heat, time in lying)


def told(answer: SkinAfterHeats) -> Iterator[Told]:
    """The depths, and what to leave."""
    heats = run_on((say("{} at {}", one.time, one.temperature) for one in answer.heats), ", ")
    after = say("{}, {} carbon, after {}", answer.metal, answer.carbon, heats)
    if answer.skin is None or answer.half is None or answer.allowance is None:
        yield say("{}: how much carbon that takes is not known.", after)
        yield from answer.remarks
        return
    if not answer.skin.value:
        yield say("{}: that takes no carbon out of it.", after)
        yield from answer.remarks
        return
    bound = "about" if _is_ferrite([one.temperature.value for one in answer.heats]) else "at most"
    deep = (
        f"{{}}: on each face {bound} {{:±}} has less than nine tenths of its carbon, and {{}} less than half."
    )
    yield say(deep, after, answer.skin, answer.half)
    yield say("Leave {} on each face for the grinder.", answer.allowance)
    below = rows((say("{} deep", one.depth), say("{} carbon", one.carbon)) for one in answer.profile)
    yield Under("Below the face", (below,))
    yield Under("", answer.remarks)


def _is_ferrite(heats_c: Sequence[float]) -> bool:
    """Whether the face is ferrite in a heat that counts."""
    return any(LOWEST_C <= one < _IRON_TURNS_C for one in heats_c)


def _fine(size_mm: float, doubt_mm: float | None = None) -> Figure:
    return Figure(size_mm, Kind.FINE, doubt_mm)


def _remarks(grade: Grade, heats_c: Sequence[float]) -> Iterator[Words]:
    yield from filter(None, (burning_words(grade, one) for one in dict.fromkeys(heats_c)))
    yield from (_FERRITE, _THICK) if _is_ferrite(heats_c) else (_UPPER, _DIFFUSIVITY, _THICK)
    yield say(
        "The skin has no sharp end: it is told to where {} of the carbon is left, and {} of sound steel is "
        "left for the last grinding (judgement).",
        share(KEPT_SHARE),
        _fine(FINISH_MM),
    )
    if min(heats_c) < LOWEST_C:
        below = "Below {} steel is not austenite: what such a heat takes is not reckoned, and adds to this."
        yield say(below, celsius(LOWEST_C))
    if max(heats_c) > HIGHEST_C:
        above = "Above {} nothing is published, and such a heat counts as that; steel burns there."
        yield say(above, celsius(HIGHEST_C))
