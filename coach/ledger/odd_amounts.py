"""Asks about amounts of a step that hardly any job has: a digit too many, a unit mistaken, a mark lost."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.forms import said
from coach.ledger.plan import Plan
from coach.operations import Does
from coach.quantities import Wanted, Words, mm, say, seconds
from coach.recipe.model import Step

#: More heats than this are seldom planned for one step (judgement).
_MOST_HEATS: Final = 15
#: A hacksaw takes 1 to 1.5 mm, a band or a thin disc up to 3 (common practice, no source).
_WIDEST_KERF_MM: Final = 4.0
#: What is set straight is seldom let be by more than this share of its length (judgement).
_STRAIGHT_SHARE: Final = 0.05
#: A tang goes through its haft and is riveted over it, but for less than this share of it (judgement).
_SHORTEST_HAFT_SHARE: Final = 0.5
#: A haft seldom stands out of its eye by more than this share of its length (judgement).
_MOST_PROUD_SHARE: Final = 0.15
#: A temper is held for at least so long in its fire or oven, s (common practice, no source).
_LEAST_TEMPER_S: Final = 600.0


def odd_amounts(plan: Plan, step: Step) -> Iterator[Words]:
    """Everything to be asked about the amounts of one step."""
    for words in (
        _heats(step),
        _kerf(step),
        *_straight(plan, step),
        _haft(plan, step),
        _haft_there(plan, step),
        _soak(step),
    ):
        if words is not None:
            yield say("Step {}, {}: {}", step.number, step.title, words)


def _heats(step: Step) -> Words | None:
    if step.heats <= _MOST_HEATS:
        return None
    if not step.heats_said:  # nobody wrote that number
        return say(
            "{} heats are reckoned for this step, by hand hammer: begin with a bar nearer to it, part the "
            "step, or write the heats that it takes you.",
            f"{step.heats}",
        )
    return say("{} heats for one step: is that number meant?", f"{step.heats}")


def _kerf(step: Step) -> Words | None:
    kerf_mm = step.amounts.get("kerf_mm", 0.0)
    if kerf_mm <= _WIDEST_KERF_MM:
        return None
    return say("a kerf of {}, where a saw takes some {}: is it meant?", mm(kerf_mm), mm(1.5))


def _straight(plan: Plan, step: Step) -> Iterator[Words]:
    lengths = (_length_mm(plan, step, zone) for zone in step.zones)
    long_mm = sum(one for one in lengths if one is not None)
    for name in ("bow", "wind"):
        if name in step.targets and 0.0 < long_mm * _STRAIGHT_SHARE < step.targets[name].nominal:
            limits = Wanted(step.targets[name])
            yield say("a {} of {} on a length of {}: is it meant?", name, limits, mm(long_mm))


def _haft(plan: Plan, step: Step) -> Words | None:
    """A haft that is much shorter than what goes into it."""
    wanted, proud = step.targets.get("haft_length"), step.targets.get("proud")
    if wanted is None or not step.does(Does.FITS_A_HAFT):
        return None
    if proud is not None and _MOST_PROUD_SHARE * wanted.nominal < proud.nominal < wanted.nominal:
        return say(
            "{} of a haft of {} is to stand proud of its eye: is it meant?",
            *(mm(proud.nominal), mm(wanted.nominal)),
        )
    long_mm = max((_length_mm(plan, step, zone) or 0.0 for zone in step.zones), default=0.0)
    if wanted.nominal >= _SHORTEST_HAFT_SHARE * long_mm:
        return None
    return say(
        "a {} of {}, shorter than {}, which is {} long: is it meant?",
        *(said("haft_length"), mm(wanted.nominal), step.zones[0], mm(long_mm)),
    )


def _haft_there(plan: Plan, step: Step) -> Words | None:
    """A haft on what has an edge along it: that is the blade, and hands hold its tang."""
    if not step.does(Does.FITS_A_HAFT):
        return None
    edged = [zone for zone in step.zones if "reach" in plan.recipe.drawing[zone].limits]
    others = [zone for zone in plan.recipe.drawing if zone not in edged]
    if not edged or not others:
        return None
    return say("a haft on {}, which has the edge: is another zone meant?", edged[0])


def _soak(step: Step) -> Words | None:
    soak = step.targets.get("soak")
    if soak is None or not step.does(Does.TEMPERS) or soak.nominal >= _LEAST_TEMPER_S:
        return None
    return say(
        "a temper held for {}, where one in a fire or an oven takes {} or more: is it meant? One run by "
        "its colour has no soak.",
        seconds(soak.nominal),
        seconds(_LEAST_TEMPER_S),
    )


def _length_mm(plan: Plan, step: Step, zone: str) -> float | None:
    stage = plan.by_step[step.number].get(zone)
    return stage.form_after.sizes_mm().get("length") if stage is not None else None
