"""Drive up: a zone that came out too long is driven back on itself, as far as its section has room for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import ceil

from coach.fire.upsetting import FREE_LENGTHS
from coach.forms import Form, FormError, label
from coach.ledger.amendment import Amendment, NewHeats, NewTarget, Regained
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.ledger.remedies.upset import MOST_LENGTHS
from coach.ledger.verdict import conformance
from coach.ledger.zone_forecast import FinishedSize
from coach.operations.does import HeatKind
from coach.quantities import Limits, Words, mm, run_on, say
from coach.recipe.model import Step

#: Heats that it takes (judgement).
_HEATS = 2
#: How well the section is known after it, and by it the length, as a share (common practice, no source).
_SCATTER_SHARE = 0.02
#: Less likely than this both come inside, and it is no way back (judgement).
_LEAST_CHANCE = 0.5
#: Lengths that are looked at, from as it is to the one drawn (our choice).
_PLACES = 40
#: The sizes of a section that is driven up evenly (our choice).
_SECTION = frozenset({"side", "diameter", "width", "thickness"})


class DriveUp(Remedy):
    """What is too long goes into the section, which has its own limits."""

    NAME = "drive up"
    SOUNDNESS = Soundness.WITH_CARE

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every plain zone that stays too long, and is thick enough not to fold."""
        if situation.course is None:
            return
        for size in situation.stays_too_long():
            if not situation.is_bent(size.zone) and not situation.is_ground(size.zone):
                yield from _driven_up(situation, size)


def _driven_up(situation: Situation, size: FinishedSize) -> Iterator[Idea]:
    course, zone = situation.course, size.zone
    state, form = situation.now.zones[zone], situation.left(size).form(zone)
    sizes = form.sizes_mm()
    section = {name: one for name, one in sizes.items() if name != "length"}
    if course is None or not {name.removeprefix("end_") for name in section} <= _SECTION:
        return
    length_mm, thinnest_mm = size.expected.value, min(section.values())
    if length_mm > MOST_LENGTHS * thinnest_mm:
        return
    drawn = situation.plan.recipe.drawing[zone].limits
    aim = _best(section, length_mm, drawn)
    if aim is None:
        return
    regained = tuple(Regained(zone, name, one, _SCATTER_SHARE * one) for name, one in aim.items())
    to_mm = _length_at(form, length_mm, aim)
    # A square grows alike: it is told once.
    told = {one: name for name, one in reversed(aim.items()) if name in drawn}
    grown = run_on(
        (say("{} {}", label(zone, name), mm(one, _SCATTER_SHARE * one)) for one, name in told.items()), ", "
    )
    cautions: list[Words] = []
    if length_mm > FREE_LENGTHS * thinnest_mm:
        cautions.append(
            say(
                "{} times as long as thick, and beyond {} it buckles, which no chance counts: "
                "heat a short stretch at a time, cool the rest, straighten often",
                f"{length_mm / thinnest_mm:.1f}",
                FREE_LENGTHS,
            )
        )
    if len(state.parts) > 1:
        cautions.append(say("driving up welded work can open the weld: look at the line after every heat"))
    cold = course.step.heat_kind is HeatKind.COLD
    planned = course.step.heats if cold else max(course.step.heats, ceil(course.heats)) + _HEATS
    worked = course.step.targets if zone in course.step.zones else {}
    yield Idea(
        about=zone,
        title=say("Drive the {} up to {} length", zone, mm(to_mm)),
        changes=say("Its section takes what the length gives: {}.", grown),
        amendment=Amendment(
            # The step in hand is not to draw it out again.
            targets=tuple(_aimed(course.step, name, one) for name, one in aim.items() if name in worked),
            heats=(NewHeats(course.step.number, planned),),
            regained=regained,
        ),
        heats=_HEATS,
        price_mm=length_mm - to_mm,
        caution=run_on(cautions, "; "),
    )


def _aimed(step: Step, dimension: str, size_mm: float) -> NewTarget:
    was = step.targets[dimension]
    limits = Limits(size_mm, min(was.low, size_mm), max(was.high, size_mm), was.stated)
    return NewTarget(step.number, dimension, limits)


def _best(
    section: Mapping[str, float], length_mm: float, limits: Mapping[str, Limits]
) -> dict[str, float] | None:
    """The section, driven up evenly, by which the least sure of it and of the length is the surest."""
    found: tuple[float, dict[str, float]] | None = None
    for place in range(1, _PLACES + 1):
        to_mm = length_mm + (limits["length"].nominal - length_mm) * place / _PLACES
        grown = (length_mm / to_mm) ** 0.5
        sizes = {name: one * grown for name, one in section.items()}
        chances = [
            conformance(one, _SCATTER_SHARE * one, limits[name])
            for name, one in sizes.items()
            if name in limits
        ]
        least = min([*chances, conformance(to_mm, 2.0 * _SCATTER_SHARE * to_mm, limits["length"])])
        if found is None or least > found[0]:
            found = least, sizes
    return found[1] if found is not None and found[0] >= _LEAST_CHANCE else None


def _length_at(form: Form, length_mm: float, section: Mapping[str, float]) -> float:
    try:
        as_it_is = form.with_sizes({"length": length_mm})
        return as_it_is.with_sizes(section).solved("length", as_it_is.volume_mm3()).size_mm("length")
    except FormError:
        return length_mm
