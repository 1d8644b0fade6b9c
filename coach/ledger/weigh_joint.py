"""Weighs what is riveted: the rivet against its holes, its grip and the head that is made of it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from coach.forms import listed
from coach.forms.eyed import Eyed
from coach.forms.rivet import Rivet
from coach.forms.row_of_holes import RowOfHoles
from coach.ledger.plan import Plan, finished_form
from coach.ledger.weigh_hole import makes_holes
from coach.operations import Does
from coach.operations.rivet import HEAD_TAKES
from coach.quantities import Words, mm, say
from coach.recipe.model import Step

#: A hole is so much wider than its rivet at most: 1/16 in, as of structural rivets driven hot (AISC manual,
#: from memory; IS 800 has 1.5 mm, and 2 mm over 25 mm, from memory). Of a thin rivet it is a quarter
#: (judgement).
_WIDER_MM, _WIDER_SHARE = 1.6, 0.25
#: A round head is made of 1.5 diameters of the shank that stand out (`coach.operations.rivet`). Of less
#: than 0.8 not even a countersunk head comes (from memory), and more than 2.5 bends over, short of the three
#: that stand free (`coach.fire.upsetting`) (judgement).
_LEAST_HEAD, _MOST_HEAD = 0.8, 2.5
#: What is held may be so much thicker or thinner than the grip, as a share and at least in mm (judgement).
_GRIP_SHARE, _GRIP_MM = 0.05, 0.5
#: Of more holes that a rivet fits than this nobody tells which it holds (our choice).
_MOST_FITTING = 8


def held_zones(plan: Plan, step: Step) -> tuple[str, ...]:
    """The zones that a joint holds by what its line says; of a whole piece, those that have a hole."""
    recipe = plan.recipe
    found: list[str] = []
    for name in step.holds:
        if name in recipe.drawing:
            found.append(name)
        elif name in recipe.pieces:
            found += [zone for zone in recipe.pieces[name].zones if _eyed(plan, zone) is not None]
    return tuple(dict.fromkeys(found))


def _eyed(plan: Plan, zone: str) -> Eyed | RowOfHoles | None:
    if zone not in plan.recipe.piece_of(zone).finished_zones:
        return None  # what is split is no more when the piece is finished: its branches are
    form = finished_form(plan.recipe, zone)
    return form if isinstance(form, Eyed | RowOfHoles) else None


def badly_riveted(plan: Plan, step: Step) -> Iterator[Words]:
    """What is wrong with a rivet as it is set."""
    if not step.does(Does.FASTENS) or not step.zones:
        return
    zone = step.zones[0]
    stage = plan.by_step[step.number].get(zone)
    rivet = stage.form_after if stage is not None else None
    if not isinstance(rivet, Rivet):
        return
    yield from _holed_later(plan, step)
    yield from _through_no_hole(plan, step)
    yield from _in_its_holes(plan, step, rivet)
    if step.holds:
        yield from _over_its_grip(plan, step, rivet)
    else:
        yield from _beside_what_it_fits(plan, step, rivet)
    yield from _headed(rivet)


def _holed_later(plan: Plan, step: Step) -> Iterator[Words]:
    """A hole that is made after what goes through it is set."""
    held = held_zones(plan, step)
    for later in plan.recipe.steps[step.number :]:
        zones = [zone for zone in held if zone in later.zones]
        if zones and makes_holes(later) and not later.again:
            yield say(
                "step {}, {}, makes the hole of {} after it: make it first.",
                *(later.number, later.title, listed(zones)),
            )


def undrawn_holes(plan: Plan, step: Step) -> Iterator[tuple[str, Words]]:
    """What a rivet holds and has no hole drawn: each zone or piece, and what to ask."""
    if not step.does(Does.FASTENS) or not step.zones or _is_tenon(plan, step):
        return
    stage = plan.by_step[step.number].get(step.zones[0])
    if stage is None or not isinstance(stage.form_after, Rivet):
        return
    for name in step.holds:
        recipe = plan.recipe
        zones = recipe.pieces[name].finished_zones if name in recipe.pieces else (name,)
        if name == recipe.piece_of(step.zones[0]).name or step.zones[0] in zones:
            continue
        if not any(zone in recipe.drawing and _eyed(plan, zone) is not None for zone in zones):
            yield name, say("no hole is drawn in {}, which it goes through: is it drilled there?", name)


def _through_no_hole(plan: Plan, step: Step) -> Iterator[Words]:
    """A zone without a hole that is named beside one of its piece that has it; others may not be drawn."""
    own = plan.recipe.piece_of(step.zones[0]).zones
    for zone in step.holds:
        if zone in own or zone not in plan.recipe.drawing or _eyed(plan, zone) is not None:
            continue
        piece = plan.recipe.piece_of(zone)
        holed = [one for one in piece.finished_zones if _eyed(plan, one) is not None]
        if holed:
            yield say(
                "{} has no hole for it to go through, and {} of the same piece has.", zone, listed(holed)
            )


def _in_its_holes(plan: Plan, step: Step, rivet: Rivet) -> Iterator[Words]:
    """A rivet that does not go in, or is slack; where nothing says what it holds, in any hole there is."""
    own = plan.recipe.piece_of(step.zones[0]).zones
    is_fitted = any(one.tried_on and step.zones[0] in one.zones for one in plan.recipe.steps)
    if is_fitted and not step.holds:
        return  # what it goes into is named there, and weighed there
    zones = held_zones(plan, step) or tuple(plan.recipe.drawing)
    holes = {zone: eyed for zone in zones if zone not in own and (eyed := _eyed(plan, zone)) is not None}
    wider_mm = min(_WIDER_MM, _WIDER_SHARE * rivet.diameter_mm)
    told = {}
    for zone, eyed in holes.items():
        hole_mm = min(*eyed.near_mm, *eyed.far_mm)
        if rivet.diameter_mm > hole_mm:
            words = "the rivet is {} and the hole of {} is {}: it does not go in. Take one of {} or thinner."
            told[zone] = say(words, mm(rivet.diameter_mm), zone, mm(hole_mm), mm(hole_mm))
        elif hole_mm - rivet.diameter_mm > wider_mm:
            words = (
                "the rivet is {} and the hole of {} is {}: it bends there before it fills it. A hole is {} "
                "wider than its rivet at most."
            )
            told[zone] = say(words, mm(rivet.diameter_mm), zone, mm(hole_mm), mm(wider_mm))
    if step.holds or len(told) == len(holes):
        yield from list(told.values())[:1]


def _over_its_grip(plan: Plan, step: Step, rivet: Rivet) -> Iterator[Words]:
    """What is held together is thicker or thinner than the grip; not reckoned where a hole is not drawn."""
    own = set(plan.recipe.piece_of(step.zones[0]).zones)
    holes = [_eyed(plan, zone) for zone in held_zones(plan, step) if zone not in own]
    held_by = {*step.holds} - own - {plan.recipe.piece_of(step.zones[0]).name}
    thick_mm = sum(one.depth_mm for one in holes if one is not None)
    if not holes or (rivet.heads == "one" and not _is_tenon(plan, step)):
        return
    if None in holes or len(holes) < len(held_by):
        if thick_mm > rivet.grip_mm + max(_GRIP_MM, _GRIP_SHARE * thick_mm):
            words = "its grip is {}, and what is drawn of what it holds is {} thick already."
            yield say(words, mm(rivet.grip_mm), mm(thick_mm))
        return
    if abs(thick_mm - rivet.grip_mm) <= max(_GRIP_MM, _GRIP_SHARE * thick_mm):
        return
    limits = step.targets.get("grip")
    if limits is not None and limits.low <= thick_mm <= limits.high:
        return
    long_mm = thick_mm + HEAD_TAKES * rivet.diameter_mm
    words = (
        "its grip is {}, and what it holds is {} thick, {}. From under a head that is there it is {} long: "
        "that, and {} diameters for a round head."
    )
    held = listed([zone for zone in held_zones(plan, step) if zone not in own])
    yield say(words, mm(rivet.grip_mm), mm(thick_mm), held, mm(long_mm), f"{HEAD_TAKES:g}")


def _beside_what_it_fits(plan: Plan, step: Step, rivet: Rivet) -> Iterator[Words]:
    """Where nothing says what it holds: a grip that no two or more of the holes it fits have together.

    With one such hole, or none, what it holds besides is not drawn.
    """
    own = plan.recipe.piece_of(step.zones[0]).zones
    if rivet.heads == "one":
        return  # it is not set yet, or it is a tenon
    wider_mm = min(_WIDER_MM, _WIDER_SHARE * rivet.diameter_mm)
    fit = {
        zone: eyed.depth_mm
        for zone in plan.recipe.drawing
        if zone not in own
        and (eyed := _eyed(plan, zone)) is not None
        and 0.0 <= min(*eyed.near_mm, *eyed.far_mm) - rivet.diameter_mm <= wider_mm
    }
    if not 2 <= len(fit) <= _MOST_FITTING:
        return
    limits = step.targets.get("grip")
    thick_mm = sum(fit.values())
    for count in range(2, len(fit) + 1):
        for some in combinations(fit.values(), count):
            near = abs(sum(some) - rivet.grip_mm) <= max(_GRIP_MM, _GRIP_SHARE * sum(some))
            if near or (limits is not None and limits.low <= sum(some) <= limits.high):
                return
    words = "its grip is {}, and the holes that it fits, of {}, are in metal {} thick together."
    yield say(words, mm(rivet.grip_mm), listed(tuple(fit)), mm(thick_mm))


def _is_tenon(plan: Plan, step: Step) -> bool:
    return len(plan.recipe.piece_of(step.zones[0]).zones) > 1


def _headed(rivet: Rivet) -> Iterator[Words]:
    """Too little or too much of the shank for a head."""
    diameter_mm = rivet.diameter_mm
    stands_mm = rivet.head_mm3 / (math.pi / 4 * diameter_mm**2)
    if _LEAST_HEAD * diameter_mm <= stands_mm <= _MOST_HEAD * diameter_mm:
        return
    wrong = "too little to hold" if stands_mm < diameter_mm else "and so much bends over instead"
    words = (
        "beyond its grip of {} stand {} for a head, {} times its thickness, {}: a round head takes {} times, "
        "{}."
    )
    times = f"{stands_mm / diameter_mm:.2g}"
    takes_mm = HEAD_TAKES * diameter_mm
    yield say(words, mm(rivet.grip_mm), mm(stands_mm), times, wrong, f"{HEAD_TAKES:g}", mm(takes_mm))
