"""One step as it is told: what to do, to which sizes, how hot, and what to beware of."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from typing import TYPE_CHECKING

from coach.bench.blows_a_heat import BlowsAHeat
from coach.bench.step import StepToDo
from coach.bench.time_at_heat import TimeAtHeat
from coach.forms import label
from coach.quantities.figure import Span
from coach.quantities.words import NOTHING, Words, counted, say
from coach.telling.page import Line, Tone
from coach.telling.words import sentence, write
from coach.telling.writing import Shown

#: Blows whose ends lie so far apart are told in tens (our choice).
_FAR_APART = 50.0

if TYPE_CHECKING:
    from coach.bench.by_hand import ByHand


def step_lines(
    step: StepToDo,
    shown: Shown,
    told: Collection[str] = (),
    by_hand: Iterable[ByHand] = (),
    *,
    asked: Collection[str] | None = None,
) -> Iterator[Line]:
    """Everything a step asks for, in the order that it is wanted at the fire.

    `told` are the labels of the sizes whose limits are told beside it, `by_hand` what a way back asks for.
    `asked` are those that are to be read: where they are given, of any other size it is told that none asks.
    """
    targets = [(label(one.zone, one.dimension).strip(), one.wanted) for one in step.targets]
    wanted = [
        say("{} {}" if asked is None or target[0] in asked else "{} {}, not asked for", *target)
        for target in targets
        if target[0] not in told
    ]
    yield Line(fire_text(step, shown), "Heat")
    yield Line("\n".join(write(target, shown) for target in wanted), "To size", Tone.STRONG)
    for caution in step.cautions:
        yield Line(caution, "Caution", Tone.BAD)
    yield from hand_lines(by_hand, shown)
    yield Line(step.how, "Do")
    yield Line(step.watch, "Watch")
    for kept in step.keep:
        yield Line(kept, "Keep")
    yield Line(step.flux, "Flux")
    yield Line(step.quench, "Quench", Tone.STRONG)
    yield Line(write(working_words(step.hot), shown), "Time", Tone.STRONG)
    if step.blows is not None:
        yield Line(write(blows_words(step.blows, heats=step.heats_planned), shown), "Blows")
    for advice in step.advice:
        yield Line(write(advice, shown), "Know")


def blows_words(blows: BlowsAHeat, operation: str = "", heats: int = 0) -> Words:
    """`about 35 a heat, by 2 jobs of this shop and 3 heats of this job; about 105 in 3 heats`."""
    by = [f"{counted(blows.of_shop, 'job')} of this shop"] if blows.of_shop else []
    by += [f"{counted(blows.rests_on, 'heat')} of this job"] if blows.rests_on else []
    named = f"{operation}: " if operation else ""
    told = say("{}{:~} a heat, by {}", named, blows.a_heat, " and ".join(by))
    return say("{}; {} in {}", told, rough(blows.of(heats)), counted(heats, "heat")) if heats > 1 else told


def rough(blows: Span) -> Span:
    """How many blows, as it can be known beforehand: to tens, and few of them to fives."""
    to = 10.0 if blows.high - blows.low > _FAR_APART else 5.0
    return blows._replace(low=max(1.0, round(blows.low / to) * to), high=round(blows.high / to) * to)


def hand_lines(by_hand: Iterable[ByHand], shown: Shown) -> Iterator[Line]:
    """What is to be done by hand for a way back that was taken, each with what to take care of."""
    for one in by_hand:
        yield Line(write(one.words, shown), "By hand", Tone.CARE)
        yield Line(sentence(one.caution, shown) if one.caution else "", "Caution", Tone.BAD)


def fire_text(step: StepToDo, shown: Shown) -> str:
    """How many heats are planned, of which kind and how hot: `3 forging heats, light yellow, 1079 °C`."""
    count = counted(step.heats_planned, f"{step.heat_kind} heat") if step.heats_planned else ""
    return ", ".join(part for part in (count, *heat_texts(step, shown)) if part)


def heat_texts(step: StepToDo, shown: Shown) -> tuple[str, ...]:
    """The heat by its colour and by its temperature, as far as they are said."""
    degrees = write(say("{}", step.temperature), shown) if step.temperature is not None else ""
    return tuple(part for part in (step.colour, degrees) if part)


def working_words(hot: TimeAtHeat | None) -> Words:
    """How long the metal can be worked: `about 50 s of work, down to 900 °C, orange`."""
    if hot is None:
        return NOTHING
    down_to = say("{}, {}", hot.stop, hot.stop_colour)
    if hot.working is None:
        return say("back to the fire at {}", down_to)
    return say("{:~} of work, down to {}", hot.working, down_to)
