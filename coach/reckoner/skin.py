"""How deep the fire takes the carbon out of a steel in a row of heats, and what to leave for the grinder."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from coach.metals.diffusion import HIGHEST_C, LOWEST_C
from coach.metals.grade import Grade
from coach.metals.skin import (
    FINISH_MM,
    KEPT_SHARE,
    Lying,
    allowance_mm,
    carbon_profile,
    skin_mm,
    spread_mm2,
)
from coach.quantities import Shown, read_duration_s, write_duration, write_share, write_temperature
from coach.reckoner.asking.reading import NotReckoned, TypedHeat, read_heat, write_fine

#: The depths, in mm, that the carbon is told at.
PROFILE_MM: Final = (0.1, 0.2, 0.5, 1.0)
_HALF: Final = 0.5

_UPPER: Final = (
    "This is the most it can be: it is reckoned for a fire with air to spare and a face held at no carbon at "
    "all. A deep reducing coal fire takes less, and scale takes some of the skin with it."
)
_DIFFUSIVITY: Final = (
    "Carbon moves more slowly where little is left, which is not followed: for 0.3 to 1.0 % of carbon the "
    "depth of nine tenths comes out 5 to 25 % too great, that of half 10 to 65 %."
)


_THICK: Final = (
    "It holds for a piece much thicker than its skin; where the skins of two faces meet, less carbon is left."
)


class HeatInFireView(NamedTuple):
    """One time that the piece lies hot in the fire."""

    temperature_c: float  # how hot
    temperature_text: str
    minutes: float  # how long
    minutes_text: str


class CarbonAtView(NamedTuple):
    """The carbon at one depth."""

    depth: float  # below the face
    depth_text: str
    carbon: float  # per cent by mass


class SkinDepthView(NamedTuple):
    """The skin that a row of heats leaves on each face; every depth is an upper bound."""

    metal: str  # the grade
    carbon: float  # per cent by mass, inside
    heats: tuple[HeatInFireView, ...]  # a list of heats, as they were told
    spread: float  # Σ D t, mm²
    skin: float  # nine tenths of the carbon are left here
    skin_text: str
    skin_low: float  # with every heat colder by its doubt
    skin_high: float  # and hotter by it
    skin_range_text: str
    half: float  # half of it is left here
    half_text: str
    allowance: float  # to leave on each face for the grinder
    allowance_text: str
    profile: tuple[CarbonAtView, ...]  # the carbon at a list of depths
    remarks: tuple[str, ...]  # sentences on what was assumed


def read_heats(words: Sequence[str]) -> list[tuple[TypedHeat, float]]:
    """Heats and the minutes of each, in turn; raises NotReckoned, SizeError and UnknownColour.

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


def skin(grade: Grade, heats: Sequence[tuple[TypedHeat, float]], shown: Shown) -> SkinDepthView:
    """The skin of a grade after these heats, in °C and minutes, whatever their order.

    Raises NotReckoned for a grade whose carbon is not known, and NoSkin. Source: Ågren 1986 (confirmed
    second-hand) and Fick's second law, by `coach.metals.skin`.

    >>> from coach.metals.grade import grade
    >>> skin(grade("1084"), [(TypedHeat(1100, 15), 12.0)], Shown()).skin_text
    '0.68 mm'
    """
    carbon_share = grade.carbon_share
    if carbon_share is None:
        raise NotReckoned(
            f"The carbon of {grade.name} is not known, and without it no skin can be reckoned; name the "
            "steel that it is most like."
        )
    low, likely, high = (
        spread_mm2(
            carbon_share, [Lying(heat.temperature_c + way * heat.doubt_c, told) for heat, told in heats]
        )
        for way in (-1.0, 0.0, 1.0)
    )
    skins_mm = [skin_mm(spread) for spread in (low, likely, high)]
    half_mm, leave_mm = skin_mm(likely, _HALF), allowance_mm(skins_mm[1])
    return SkinDepthView(
        metal=grade.name,
        carbon=carbon_share,
        heats=tuple(
            HeatInFireView(
                heat.temperature_c,
                write_temperature(heat.temperature_c, shown),
                told,
                write_duration(60.0 * told),
            )
            for heat, told in heats
        ),
        spread=likely,
        skin=skins_mm[1],
        skin_text=write_fine(skins_mm[1], shown),
        skin_low=skins_mm[0],
        skin_high=skins_mm[2],
        skin_range_text=f"{write_fine(skins_mm[0], shown)} to {write_fine(skins_mm[2], shown)}",
        half=half_mm,
        half_text=write_fine(half_mm, shown),
        allowance=leave_mm,
        allowance_text=write_fine(leave_mm, shown),
        profile=tuple(
            CarbonAtView(depth_mm, write_fine(depth_mm, shown), carbon)
            for depth_mm, carbon in zip(
                PROFILE_MM, carbon_profile(carbon_share, likely, PROFILE_MM), strict=True
            )
        ),
        remarks=tuple(_remarks(heats, shown)),
    )


def _remarks(heats: Sequence[tuple[TypedHeat, float]], shown: Shown) -> Iterator[str]:
    yield _UPPER
    yield _DIFFUSIVITY
    yield _THICK
    yield (
        f"The skin has no sharp end: it is told to where {write_share(KEPT_SHARE)} of the carbon is left, "
        f"and {write_fine(FINISH_MM, shown)} of sound steel is left for the last grinding (judgement)."
    )
    if any(heat.temperature_c < LOWEST_C for heat, _ in heats):
        yield (
            f"Below {write_temperature(LOWEST_C, shown)} steel is not austenite, and such a heat counts for "
            "nothing."
        )
    if any(heat.temperature_c > HIGHEST_C for heat, _ in heats):
        yield (
            f"Above {write_temperature(HIGHEST_C, shown)} nothing is published, and such a heat counts as "
            "that; steel burns there."
        )
