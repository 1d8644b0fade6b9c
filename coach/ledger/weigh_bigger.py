"""Weighs what is to come out bigger where nothing gathers metal, and what is upset and comes out smaller."""

from __future__ import annotations

from math import pi, sqrt
from types import MappingProxyType
from typing import Final

from coach.fire.passes import FOLDS_FROM, Rectangle, draw
from coach.forms import Form, said
from coach.forms.eyed import Eyed
from coach.ledger.nominal import THICKER_SHARE, Stage
from coach.ledger.plan import Plan
from coach.ledger.weigh_section import lies_on_its_face, made_up_for_scale, other_section
from coach.ledger.weigh_sizes import more_metal
from coach.ledger.working import reshapes, targets_of
from coach.operations import Does, operation
from coach.operations.does import Cause
from coach.operations.shape import CROSS_SIZES
from coach.quantities import Figure, Kind, Words, mm, say
from coach.quantities.refusal import OutOfRange

#: A length may lose this share to scale and rounding before it counts as gathered up (judgement).
_SHORTER_SHARE: Final = 0.03
#: An eye's cheeks bulge round what opens it, and it may come out so much shorter by that (judgement).
_BULGING_SHARE: Final = 0.1
#: A section may be asked for this share above what there is anywhere: both its sizes a little more, each for
#: its tolerance and the bar's (judgement).
_MORE_SHARE: Final = (1.0 + THICKER_SHARE) ** 2 - 1.0
#: A size is told and written to about this share of it (judgement).
_ROUNDED_SHARE: Final = 0.01
#: A bar so many times as wide as thick is the widest that is fullered in from both edges, each half standing
#: no taller on edge than it does without folding; of a wider one the sides are cut off (judgement).
_FULLERED_FROM: Final = 2.0 * FOLDS_FROM
#: Of a bar that is forged from the square of as much metal, that square's side for each mm across it: a
#: round's √π/2, a hexagon's √(√3/2), and an octagon's hardly less (by definition).
_SQUARE_SHARES: Final = MappingProxyType({"diameter": sqrt(pi) / 2.0, "across_flats": sqrt(sqrt(3.0) / 2.0)})
#: An upset section may come out so much less than there was for its scale and for rounding (judgement).
_LESS_SHARE: Final = 0.01
#: The blows that set and dress a joint or a punched eye take its section down by no more than so many times;
#: what is drawn further wants forging heats of its own (judgement).
DRESSED_DOWN_TIMES: Final = 1.25
#: Places along a zone at which its section is looked at, besides those where it turns (our choice).
_PLACES: Final = 8


def put_on(stage: Stage) -> Words | None:
    """A size across that a step which only takes metal away is to bring above what there is."""
    todo = operation(stage.step.operation)
    if not todo.FIXES or not reshapes(stage.step, stage.zone):
        return None
    have, sheds = stage.form_before.sizes_mm(), type(stage.form_after).SHEDS
    for name, wanted_mm in targets_of(stage.step, stage.zone).items():
        source = stage.after.shape.worked_from(name, wanted_mm, have)
        if source is None or sheds.get(name, 0.0) >= 0.0 or name == stage.after.free:
            continue
        limits, has_mm = stage.step.targets[name], have[source]
        if wanted_mm > has_mm * (1.0 + THICKER_SHARE) or (limits.stated and limits.low > has_mm):
            return say(
                "to {} only takes metal away: the {} of {} is {} there and is to come out {}. Forge it "
                "larger before, take heavier stock, or leave that size out.",
                *(stage.step.operation, said(name), stage.zone, mm(has_mm), mm(wanted_mm)),
            )
    have_mm2, wanted_mm2 = most_mm2(stage.form_before), most_mm2(stage.form_after)
    if not _is_straight(stage.form_before, stage.form_after) or wanted_mm2 <= have_mm2 * (1.0 + _MORE_SHARE):
        return None
    return say(
        "to {} only takes metal away: {} has at most {} across it there and comes out with {}. Forge it to "
        "that shape before, or take heavier stock.",
        *(stage.step.operation, stage.zone, Figure(have_mm2, Kind.AREA), Figure(wanted_mm2, Kind.AREA)),
    )


def gathered(plan: Plan, stage: Stage) -> Words | None:
    """A section that grows, or a length that gets shorter, where nothing upsets it."""
    step, zone = stage.step, stage.zone
    todo = operation(step.operation)
    if not reshapes(step, zone) or todo.GATHERS or todo.FIXES or stage.laid_mm3:
        return None
    if todo.KEEPS_SECTION and other_section(plan, stage) is not None:
        return None  # it has not the section: told as that alone
    way = (one for one in plan.stages[zone] if one.step.number < step.number and one.step.does(Does.PARTS))
    if any(other_section(plan, one) is not None for one in way):
        return None  # what is split to a section that it has not: told as that alone
    return _thickened(stage) or _shortened(stage) or _heavier(stage)


def welded_bigger(plan: Plan, stage: Stage) -> Words | None:
    """What is to come out of a weld with more metal across it than went into it: no weld gathers any."""
    step = stage.step
    if step.does(Does.CLOSES) and stage.zone in step.zones:
        way = plan.stages[stage.zone]
        if any(one.step.number < step.number and lies_on_its_face(plan, one) for one in way):
            return None  # its bar is told the other way about: told as that alone
        return _closed_thicker(stage)
    if step.lays is None or not stage.laid_mm3:
        return None
    way = plan.stages[step.lays]
    laid = way[-1].form_after if way else plan.bar_of(step.lays)
    have_mm2, more_mm2, wanted_mm2 = map(most_mm2, (stage.form_before, laid, stage.form_after))
    if wanted_mm2 <= (have_mm2 + more_mm2) * (1.0 + _MORE_SHARE):
        return None
    return say(
        "{} has at most {} across it, and {} {} more; where it comes out heaviest it wants {}, and to {} "
        "gathers no metal: ask for a smaller section there, or for heavier bars.",
        *(stage.zone, Figure(have_mm2, Kind.AREA), step.lays, Figure(more_mm2, Kind.AREA)),
        *(Figure(wanted_mm2, Kind.AREA), step.operation),
    )


def _closed_thicker(stage: Stage) -> Words | None:
    """The bar of what is welded shut: its lap is drawn down to it, and its heats take scale off it."""
    have, leaves = stage.form_before.sizes_mm(), stage.form_after.sizes_mm()
    if type(stage.form_before) is not type(stage.form_after):
        return None  # what is told of that is how it comes to its form
    for name in ("thickness", "diameter", "side"):
        if name in have and name in leaves and leaves[name] > have[name] * (1.0 + _ROUNDED_SHARE):
            return say(
                "the {} of {} is {} before its weld and is to come out {}: to {} makes no bar thicker and "
                "its heats take scale. Ask for less there, or for more before.",
                *(said(name), stage.zone, mm(have[name]), mm(leaves[name]), stage.step.operation),
            )
    return None


def _thickened(stage: Stage) -> Words | None:
    """A thickness that the bar has not got: an upset thickens it, and blows on edge a little.

    It may be asked for as a square's side or a round's diameter.
    """
    have, targets = stage.form_before.sizes_mm(), targets_of(stage.step, stage.zone)
    for end in ("", "end_"):
        for name in (f"{end}thickness", *(end + one for one in CROSS_SIZES if end + one not in have)):
            wanted_mm = targets.get(name)
            source = f"{end}thickness" if f"{end}thickness" in have else "thickness"
            if wanted_mm is None or _turned(stage, wanted_mm):
                continue
            if name == f"{end}thickness":
                source = stage.after.shape.worked_from(name, wanted_mm, have) or ""
            has_mm, needs_mm = have.get(source), wanted_mm * _SQUARE_SHARES.get(name.removeprefix(end), 1.0)
            if has_mm is None or needs_mm <= has_mm * (1.0 + THICKER_SHARE):
                continue
            if not _comes_on_edge(stage, needs_mm):
                if (words := _folds_on_edge(stage, has_mm, wanted_mm)) is not None:
                    return words
                return say(
                    "{} is {} thick and is to come out {}; to {} gathers no metal: {}.",
                    stage.zone,
                    mm(has_mm),
                    mm(wanted_mm),
                    stage.step.operation,
                    more_metal(stage),
                )
    return None


def _folds_on_edge(stage: Stage, has_mm: float, wanted_mm: float) -> Words | None:
    """Why a wide bar that has the metal for it comes to be no thicker; None where it is not that."""
    wide_mm, most_mm = stage.form_before.sizes_mm().get("width", 0.0), _FULLERED_FROM * has_mm
    if not stage.step.does(Does.HAMMERS_A_SECTION) or wide_mm <= most_mm:
        return None
    if most_mm2(stage.form_after) > most_mm2(stage.form_before):
        return None
    return say(
        "{} is {} thick and is to come out {}, and a bar {} wide folds over when it is struck on its edge: "
        "begin with one no wider than {}, or with a thicker one.",
        *(stage.zone, mm(has_mm), mm(wanted_mm), mm(wide_mm), mm(most_mm)),
    )


def _comes_on_edge(stage: Stage, thick_mm: float) -> bool:
    """Whether a bar comes to be so thick by blows on its edge, as it is drawn to that section.

    What it spreads by must suffice, and it may be no wider than what is fullered in from both edges.
    """
    step, have, leaves = stage.step, stage.form_before.sizes_mm(), stage.form_after.sizes_mm()
    share = operation(step.operation).BITE_SHARE
    if not step.does(Does.HAMMERS_A_SECTION) or share is None or not {"width", "thickness"} <= have.keys():
        return False
    start = Rectangle(have["width"], have["thickness"])
    if start.width_mm > _FULLERED_FROM * start.height_mm:
        return False
    target = Rectangle(min(leaves.get("width", thick_mm), start.width_mm), thick_mm)
    try:
        bite_mm = share * start.height_mm  # of what lies across the blow, on edge
        ends = draw(start, target, bite_mm, length_mm=have.get("length", bite_mm)).end
    except OutOfRange:
        return False
    return ends.height_mm * (1.0 + THICKER_SHARE) >= thick_mm


def _turned(stage: Stage, wanted_mm: float) -> bool:
    """Whether a bend lays the bar's other side that way: a hoop is as thick as its bar is wide."""
    wide_mm = stage.form_before.sizes_mm().get("width", 0.0)
    return stage.step.does(Does.BENDS) and wanted_mm <= wide_mm * (1.0 + THICKER_SHARE)


def _shortened(stage: Stage) -> Words | None:
    """A length that would have to shorten, also where the step says it and another size follows."""
    before, after = stage.form_before.sizes_mm().get("length"), stage.form_after.sizes_mm().get("length")
    if before is None or after is None:
        return None
    before_mm = before * (1.0 - stage.taken_mm3.get(Cause.STATED, 0.0) / stage.before_mm3)
    if after >= before_mm * (1.0 - _SHORTER_SHARE):
        return None
    bulges = stage.after.free != "length" and not _is_straight(stage.form_before, stage.form_after)
    least_mm = 0.0 if stage.step.does(Does.PUNCHES) else before_mm * (1.0 - _BULGING_SHARE)
    if bulges and after >= least_mm:
        return None
    return say(
        "{} would have to shorten from {} to {} to make that section, and to {} gathers no metal: {}.",
        *(stage.zone, mm(before), mm(after), stage.step.operation),
        made_up_for_scale(stage) or _draws_nothing(stage) or more_metal(stage),
    )


def _draws_nothing(stage: Stage) -> Words | None:
    """What is drawn to the section that it has: its fires only take scale of it, and it gets shorter."""
    before, after = stage.form_before, stage.form_after
    if type(before) is not type(after) or not stage.step.does(Does.HAMMERS_A_SECTION):
        return None
    for share in (0.0, 1.0):
        have_mm2, left_mm2 = (form.section(share * form.length_mm).area_mm2 for form in (before, after))
        if abs(have_mm2 - left_mm2) > _SHORTER_SHARE * left_mm2:
            return None
    return say("it has that section already, and its fires only take scale of it: leave that step out")


def _heavier(stage: Stage) -> Words | None:
    """A place where more metal stands across the zone than stood anywhere in it before."""
    before, after = stage.form_before, stage.form_after
    if not _is_straight(before, after):
        return None
    have_mm2, wanted_mm2 = most_mm2(before), most_mm2(after)
    if wanted_mm2 <= have_mm2 * (1.0 + _MORE_SHARE):
        return None
    return say(
        "{} has at most {} across its bar there, and where it is to come out heaviest it wants {}; to {} "
        "gathers no metal: {}.",
        *(stage.zone, Figure(have_mm2, Kind.AREA), Figure(wanted_mm2, Kind.AREA), stage.step.operation),
        more_metal(stage),
    )


def not_upset(stage: Stage) -> Words | None:
    """An upset that leaves less metal across its zone everywhere than there was: that is drawn down."""
    step, before, after = stage.step, stage.form_before, stage.form_after
    upsets = operation(step.operation).GATHERS and step.does(Does.HAMMERS_A_SECTION)
    if not upsets or stage.zone not in step.zones or not reshapes(step, stage.zone):
        return None
    if not _is_straight(before, after):
        return None
    least = 1.0 - _LESS_SHARE
    for share in (at / _PLACES for at in range(_PLACES + 1)):
        have_mm2, left_mm2 = (form.section(share * form.length_mm).area_mm2 for form in (before, after))
        if left_mm2 >= have_mm2 * least:
            return None
    have, left = (Figure(most_mm2(form), Kind.AREA) for form in (before, after))
    return say(
        "{} has {} across its bar there and is to come out with {}: to {} makes a section bigger. Write "
        "draw, spread or taper for it, or give it a larger section.",
        *(stage.zone, have, left, step.operation),
    )


def _is_straight(*forms: Form) -> bool:
    """Whether they are bars that are laid out as they are; an eye's cheeks bulge round what opens it."""
    return all(
        form.unbent() is None and "length" in form.DIMENSIONS and not isinstance(form, Eyed) for form in forms
    )


def most_mm2(form: Form) -> float:
    """The largest section along a form, mm²."""
    shares = {*form.landmarks(), *(at / _PLACES for at in range(_PLACES + 1))}
    return max(form.section(share * form.length_mm).area_mm2 for share in shares)
