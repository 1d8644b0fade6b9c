"""Weighs welds: one without a welding heat is none, and a straight bar has nothing to be closed."""

from __future__ import annotations

from typing import Final

from coach.fire.limits import burns_above, worked_at
from coach.forms import listed
from coach.forms.link import Link
from coach.forms.ring import Ring
from coach.forms.round_ring import RoundRing
from coach.ledger.hot_work import grades_in, steels_of
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.weigh_bigger import DRESSED_DOWN_TIMES, most_mm2
from coach.ledger.working import USUAL_HEATS
from coach.operations import Does, operation
from coach.operations.does import HeatKind
from coach.quantities import NOTHING, Figure, Kind, Words, as_words, celsius, mm, run_on, say
from coach.recipe.model import Piece, Step

#: What lays faces of one zone on each other, besides whatever keeps a section as it bends it.
_OPENS: Final = frozenset(
    {Does.BENDS, Does.PARTS, Does.GROOVES, Does.PUNCHES, Does.JOINS, Does.CLOSES, Does.FASTENS}
)
#: The heats of an operation that are to make the joint, by their name.
_MAKES_IT: Final = "weld"


def no_welding_heat(plan: Plan, step: Step) -> Words | None:
    """What welds or tacks and takes no heat to weld at; None for all else, and where it takes one.

    A step that is done in the heat of the one before it has the heat that was taken for that.
    """
    todo = operation(step.operation)
    if todo.HEAT_KIND is not HeatKind.WELDING:
        return None
    done = _done(plan, step)
    if done is None:
        return None
    metals = {metal.name: worked_at(metal, welding=True)[0].temperature for metal in grades_in(plan, step)}
    known = [low for low in metals.values() if low is not None]
    from_c = (
        say(" of {} or more", min(known, key=lambda low: low.value))
        if known and len(known) == len(metals)
        else NOTHING
    )
    wants = run_on((as_words("it wants a welding heat"), from_c), "")
    return say("{}, and {}: nothing takes. Write {} heats in its place.", wants, done, max(todo.HEATS, 1))


def _done(plan: Plan, step: Step) -> Words | None:
    """What a weld is done in that is no welding heat; None where it is one."""
    if step.heat_kind is HeatKind.COLD:
        return as_words("is to be done cold")
    if step.heat_kind is not HeatKind.WELDING:
        return say("is to be done in a {} heat", step.heat_kind.value)
    if step.heats == 0:
        before = _heated_before(plan, step)
        if before is None:
            return as_words("no step before it takes one")
        if before.heat_kind is HeatKind.WELDING:
            return None
        return say("the heat of step {}, {}, is none", before.number, before.title)
    names = operation(step.operation).HEAT_NAMES
    if step.heat_names and _MAKES_IT in names and _MAKES_IT not in step.heat_names:
        return as_words("none of its heats is one to weld at")
    return None


def _heated_before(plan: Plan, step: Step) -> Step | None:
    """The last step before one that takes heats at all and has its zone in the fire."""
    for one in reversed(plan.recipe.steps[: step.number - 1]):
        if one.heats and {*one.zones, *one.heated} & {*step.zones}:
            return one
    return None


def nothing_to_close(plan: Plan, stage: Stage) -> Words | None:
    """A zone that is to be welded to itself, and lies nowhere on itself; None where it may.

    What starts from layers has faces to weld, and so has what was bent, folded, split or cleft before.
    """
    step, zone = stage.step, stage.zone
    if not step.does(Does.CLOSES) or zone not in step.zones or stage.form_before.unbent() is not None:
        return None
    piece = plan.recipe.piece_of(zone)
    if piece.layers or piece.source:
        return None
    kin = _kin(piece, zone)
    for one in plan.recipe.steps[: step.number - 1]:
        if (operation(one.operation).KEEPS_SECTION or operation(one.operation).DOES & _OPENS) and (
            kin & {*one.zones, *one.parts}
        ):
            return None
    return say("{} is straight there and lies nowhere on itself: bend it or fold it before that.", zone)


def _kin(piece: Piece, zone: str) -> set[str]:
    """A zone, what it is split from and what it is split into."""
    kin = {zone, *piece.leaves_of(zone)}
    while (whole := piece.split_from(zone)) is not None:
        zone = whole
        kin.add(zone)
    return kin


#: A scarf is about one and a half times as long as what is scarfed is thick (common practice, no source);
#: shorter than once it is a butt, and the lap is thicker than the bar (judgement).
_SHORTEST_SCARF_TIMES: Final = 1.0


def left_open(stage: Stage, plan: Plan) -> Words | None:
    """A ring or a link of its own that is drawn closed and that no step welds; None for all else.

    An eye at the end of a bar is often left open.
    """
    zone, closed = stage.zone, stage.form_after
    if zone not in stage.step.zones or not isinstance(closed, Ring | RoundRing | Link):
        return None
    if len(plan.recipe.piece_of(zone).zones) > 1:
        return None
    if isinstance(stage.form_before, type(closed)) or not stage.step.does(Does.BENDS):
        return None
    welded = Does.CLOSES, Does.JOINS
    if any(
        one.does(what) for one in plan.recipe.steps for what in welded if zone in (*one.zones, *one.heated)
    ):
        return None
    return say(
        "{} is a closed {}, and no step welds it: is it left open? If not, weld shut: {} after this.",
        *(zone, closed.KIND, zone),
    )


def short_scarf(stage: Stage) -> Words | None:
    """A scarf that is shorter than its bar is thick; None where it is not."""
    scarf = stage.step.targets.get("scarf_length")
    if scarf is None or stage.zone not in stage.step.zones:
        return None
    have = (stage.form_before.unbent() or stage.form_before).sizes_mm()
    thick_mm = min((have[name] for name in _THICK if name in have), default=0.0)
    if scarf.nominal >= _SHORTEST_SCARF_TIMES * thick_mm:
        return None
    return say(
        "a scarf of {} on {}, which is {} thick, is no lap: one and a half times as long as "
        "it is thick is usual. Is it meant so?",
        *(mm(scarf.nominal), stage.zone, mm(thick_mm)),
    )


_THICK: Final = ("end_thickness", "thickness", "side", "diameter", "across_flats", "width")


def without_flux(plan: Plan, step: Step) -> Words | None:
    """A weld with steel in it that says no flux; None for all else.

    Iron is often welded clean in its own heat, at which its scale runs; steel is welded below that, where
    scale is solid and keeps the faces apart (common practice, no source).
    """
    if operation(step.operation).HEAT_KIND is not HeatKind.WELDING or step.flux or not step.heats:
        return None
    steels = [metal.name for metal in steels_of(plan, step)]
    if not steels:
        return None
    told = (
        "no flux is said: {} is welded at a heat where scale is still solid and keeps the faces apart: "
        "write flux: borax under the step, or under usual."
    )
    return say(told, listed(steels))


def counted_too_hot(plan: Plan, step: Step) -> Words | None:
    """A weld that says no heat, of a metal for which none is published and that the counted one burns.

    None for all else: of other metals the page tells the heat to weld at.
    """
    if operation(step.operation).HEAT_KIND is not HeatKind.WELDING or not step.heats:
        return None
    if step.temperature_c is not None:
        return None
    counted_c = USUAL_HEATS[HeatKind.WELDING].temperature_c
    for metal in grades_in(plan, step):
        unknown = worked_at(metal, welding=True)[1].temperature is None
        burns = burns_above(metal, counted_c) if unknown else None
        if burns is not None:
            told = (
                "no heat is said, and none is published for {}: a weld that says none is counted at {}, and "
                "it must be feared to burn above {}. Say one below that, and weld and bend a coupon first."
            )
            return say(told, metal.name, celsius(counted_c), burns)
    return None


def drawn_by_weld(stage: Stage) -> Words | None:
    """What steel is laid on and is drawn down in the heats of its weld; None of all else.

    The steel itself is left out of account, so that what is asked about is less than what is drawn.
    """
    step, before, after = stage.step, stage.form_before, stage.form_after
    if stage.lays is None or not step.does(Does.JOINS) or "length" not in before.DIMENSIONS:
        return None
    if "length" not in after.DIMENSIONS or before.unbent() is not None or after.unbent() is not None:
        return None
    have_mm2, left_mm2 = most_mm2(before), most_mm2(after)
    if have_mm2 <= DRESSED_DOWN_TIMES * left_mm2:
        return None
    return say(
        "{} has {} across it before its steel is laid on and is to leave the weld with {}: its heats set a "
        "joint and draw no bar. Ask for the section it has, and draw it in a step after.",
        *(stage.zone, Figure(have_mm2, Kind.AREA), Figure(left_mm2, Kind.AREA)),
    )


def drawn_shut(stage: Stage) -> Words | None:
    """What is welded to itself and is to come out of that far thinner than it went in; None of all else.

    Of an eye or a ring it is the section of its bar that is compared: its lap, where two lie on each other,
    is brought down to that by its weld.
    """
    step, before, after = stage.step, stage.form_before, stage.form_after
    if not step.does(Does.CLOSES) or stage.zone not in step.zones:
        return None
    round_before = before.unbent() is not None
    if round_before != (after.unbent() is not None):
        return None
    have_mm2, left_mm2 = most_mm2(before), most_mm2(after)
    if have_mm2 <= DRESSED_DOWN_TIMES * left_mm2:
        return None
    told = (
        "{} is bent of a bar with {} across it and is to leave its weld with {}: its heats set a joint and "
        "draw no bar. Draw the bar to that before it is bent, or ask for the section it has."
        if round_before
        else "{} has {} across it before it is welded shut and is to leave the weld with {}: its heats set a "
        "joint and draw no bar. Ask for the section it has, and draw it in a step after."
    )
    return say(told, stage.zone, Figure(have_mm2, Kind.AREA), Figure(left_mm2, Kind.AREA))
