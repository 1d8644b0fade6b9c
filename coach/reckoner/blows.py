"""How many blows and heats it takes to forge a bar down."""

from __future__ import annotations

import math
import re
from typing import Final, NamedTuple

from coach.fire.blows import HAND_HAMMER, SLEDGE, Striker, forging_work_j, power_hammer, reckon, stiffness
from coach.fire.colours import colour_name
from coach.fire.limits import STEEL_TURNS_BELOW_C
from coach.metals.grade import Grade
from coach.quantities import Shown, write_duration, write_length, write_temperature
from coach.reckoner.asking import NotReckoned, TypedBar
from coach.reckoner.heat import working_curve
from coach.reckoner.spread import USUAL_BITE_SHARE, drawing_of

_WAYS: Final = "hand, sledge or power with the mass of the ram, as in power 25"


class BlowsView(NamedTuple):
    """Blows and heats for one forging, which may be wrong by `doubt_share` of themselves."""

    section: str  # the bar as shown
    metal: str  # the grade
    length: float  # how much of it is forged
    length_text: str
    target: str  # what it is forged to
    temperature_c: float  # how hot it leaves the fire
    temperature_text: str
    colour: str  # what White and Taylor call it
    mean_c: float  # of a heat, at which its stiffness is taken
    by: str  # what it is struck with
    work: float  # J
    blows: int  # how many blows
    heats: int  # how many heats
    doubt_share: float  # by what share of themselves both may be wrong
    seconds_per_heat: float  # how long a heat lasts at the anvil
    seconds_text: str
    stop_c: float  # back to the fire
    stop_text: str
    remarks: tuple[str, ...]  # sentences on what was assumed


def read_striker(text: str) -> Striker:
    """The way to strike that a text names: `hand`, `sledge`, `power 25`; raises NotReckoned, CannotReckon.

    >>> read_striker("power 25 kg").mass_kg
    25.0
    """
    told = text.strip().lower()
    if told in ("hand", "sledge"):
        return HAND_HAMMER if told == "hand" else SLEDGE
    ram = re.fullmatch(r"power\s+([0-9]{1,6}(?:[.,][0-9]{1,3})?)\s*(?:kg)?", told)
    if ram is None:
        raise NotReckoned(f"{text[:30]!r} is no way to strike: give {_WAYS}.")
    return power_hammer(float(ram[1].replace(",", ".")))


def blows(
    bar: TypedBar,
    length_mm: float,
    grade: Grade,
    temperature_c: float,
    striker: Striker,
    shown: Shown,
    *,
    thickness_mm: float | None,
    target: TypedBar | None,
) -> BlowsView:
    """The blows and heats that bring a length of bar to a thickness or to a section.

    The work is σ V ln(h0/h1), pass by pass where both sections have four sides and else by their areas; a
    heat lasts from the temperature to the grade's lowest forging heat, worked at the anvil, and its mean
    decides the stiffness, as in a plan. Raises
    NotReckoned where nothing is left to forge or it is too cold, and as the functions beneath do.
    Sources: `coach.fire.flow_stress`, `coach.fire.blows`, `coach.fire.cooling`.
    """
    stop_c = grade.forging_low_c if grade.forging_low_c is not None else STEEL_TURNS_BELOW_C
    stop = write_temperature(stop_c, shown)
    if temperature_c <= stop_c:
        raise NotReckoned(
            f"At {write_temperature(temperature_c, shown)} it is too cold to forge, as {grade.name} goes "
            f"back to the fire below {stop}; give a hotter --at."
        )
    remarks = []
    volume_mm3 = bar.area_mm2 * length_mm
    if target is None:
        squeezes = [_squeeze(bar, thickness_mm, shown)]
        told = f"{write_length(squeezes[0][1], shown)} thick"
    else:
        squeezes, by_areas = _squeezes(bar, target, length_mm, shown)
        told = target.text(shown)
        if by_areas:
            remarks.append("It is reckoned by the areas alone, without what goes sideways: there are more.")
    mean_c = (temperature_c + stop_c) / 2.0
    work_j = math.fsum(
        forging_work_j(grade, mean_c, volume_mm3, from_mm, to_mm) for from_mm, to_mm in squeezes
    )
    curve, _ = working_curve(bar, grade, temperature_c, stop_c, anvil=True)
    count = reckon(work_j, striker, curve.seconds)
    remark = stiffness(grade, mean_c).remark
    return BlowsView(
        section=bar.text(shown),
        metal=grade.name,
        length=length_mm,
        length_text=write_length(length_mm, shown),
        target=told,
        temperature_c=temperature_c,
        temperature_text=write_temperature(temperature_c, shown),
        colour=colour_name(temperature_c),
        mean_c=mean_c,
        by=striker.name,
        work=work_j,
        blows=count.blows,
        heats=count.heats,
        doubt_share=count.share_doubt,
        seconds_per_heat=curve.seconds,
        seconds_text=write_duration(curve.seconds),
        stop_c=stop_c,
        stop_text=stop,
        remarks=(*remarks, *((remark,) if remark else ())),
    )


def _squeeze(bar: TypedBar, thickness_mm: float | None, shown: Shown) -> tuple[float, float]:
    if thickness_mm is None:
        raise NotReckoned("Nothing was given to forge it to: give a thickness or a section, as in --to 20.")
    if not bar.has_four_sides:
        raise NotReckoned(
            f"Nothing is published for flattening {bar.text(shown)}; give the section to forge it to, as in "
            "--to 30x10."
        )
    if thickness_mm >= bar.thickness_mm:
        raise NotReckoned(
            f"{bar.text(shown).capitalize()} is {write_length(bar.thickness_mm, shown)} thick, so nothing is "
            f"left to forge down to {write_length(thickness_mm, shown)}; give a smaller thickness."
        )
    return bar.thickness_mm, thickness_mm


def _squeezes(
    bar: TypedBar, target: TypedBar, length_mm: float, shown: Shown
) -> tuple[list[tuple[float, float]], bool]:
    """The heights before and after each pass, and whether they are only those of the areas."""
    if bar.has_four_sides and target.has_four_sides:
        drawing = drawing_of(bar, target, USUAL_BITE_SHARE * bar.width_mm, length_mm)
        if not drawing.passes:
            raise NotReckoned(f"{bar.text(shown).capitalize()} is at {target.text(shown)} already.")
        return [(one.from_mm, one.to_mm) for one in drawing.passes], False
    if target.area_mm2 >= bar.area_mm2:
        raise NotReckoned(
            f"{bar.text(shown).capitalize()} has no more section than {target.text(shown)}, and drawing only "
            "takes section away; give a smaller section."
        )
    return [(bar.area_mm2, target.area_mm2)], True
