"""Weighs holes: no drift and no file makes one smaller, or turns it; and the cheeks beside them."""

from __future__ import annotations

from typing import Final

from coach.forms import holes
from coach.forms.eyed import Eyed
from coach.forms.row_of_holes import RowOfHoles
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.operations import Does, operation
from coach.operations.does import HeatKind
from coach.quantities import Words, mm, say
from coach.recipe.model import Step

#: The way round a hole may come out shorter by this share before it is told: rounding and a plan's own play
#: (judgement).
_SHORTER_SHARE: Final = 0.02
#: Cold steel that a hand hammer drives a punch through, at the most, mm (judgement).
_THICKEST_COLD_MM: Final = 6.0
#: A hole lies along the bar, or across it, where one of its sizes is larger by this share (judgement).
_LIES_SHARE: Final = 0.2

#: A cheek thinner than this, in mm, or than this share of the hole beside it, tears under the drift or burns
#: through before the rest is hot (judgement).
_THIN_CHEEK_MM: Final = 1.5
_THIN_CHEEK_SHARE: Final = 0.1
#: A hot punch narrower than this share of what it goes through is asked about (judgement).
_NARROW_SHARE: Final = 0.25

_Mouth = tuple[float, float]


def hole_closed(stage: Stage) -> Words | None:
    """A hole that what opens it is to leave smaller, or lying the other way; None where it opens.

    A drift and a file stretch the way round a hole or leave it; a slot may well come out shorter where it
    comes out so much wider (elementary geometry).
    """
    before, after, todo = stage.form_before, stage.form_after, operation(stage.step.operation)
    if not (isinstance(before, Eyed) and isinstance(after, Eyed)) or stage.zone not in stage.step.zones:
        return None
    if not (stage.after.shape.kind == todo.FORM or todo.FIXES):
        return None  # a hammer on the block can close it
    asked = stage.step.targets
    mouths = [("hole", before.near_mm, after.near_mm), ("far hole", before.far_mm, after.far_mm)]
    for name, was, comes in mouths:
        aims = [asked.get(f"{name.replace(' ', '_')}_{side}") for side in ("length", "width")]
        left = comes
        if todo.FIXES and any(aims):  # of a size that it does not reach a file leaves what there is
            kept = [aim.nominal if aim is not None else has for aim, has in zip(aims, was, strict=True)]
            round_mm = next(aim.nominal for aim in aims if aim is not None)
            left = (round_mm, round_mm) if after.hole == "round" else (kept[0], kept[1])
        if _around(after.hole, left) < _around(before.hole, was) * (1.0 - _SHORTER_SHARE):
            return say(
                "the {} of {} is {} and is to come out {}: to {} opens a hole and never closes one. "
                "Make it smaller where it is made, or take the larger one.",
                *(name, stage.zone, _told(before.hole, was), _told(after.hole, left), stage.step.operation),
            )
        if _lies(was) * _lies(left) < 0:
            return say(
                "the {} of {} is {} along the bar and {} across it, and is to come out {} and {}: to {} "
                "does not turn a hole. Write its length along the bar first.",
                *(name, stage.zone, mm(was[0]), mm(was[1]), mm(left[0]), mm(left[1])),
                stage.step.operation,
            )
    return None


def drifted_solid(stage: Stage) -> Words | None:
    """A hole that is opened where there is none; None where there is one, or the step makes it."""
    todo = operation(stage.step.operation)
    if todo.FORM != Eyed.KIND or stage.step.does(Does.PUNCHES) or stage.zone not in stage.step.zones:
        return None
    if isinstance(stage.form_before, Eyed) or not isinstance(stage.form_after, Eyed):
        return None
    return say(
        "{} has no hole there to {}: punch one before it, as in punch: {}, slot hole 24 x 8.",
        *(stage.zone, stage.step.operation, stage.zone),
    )


def slug_too_thick(stage: Stage) -> Words | None:
    """A slug thicker than the metal that it is punched out of; None where it is not (by definition)."""
    after, slug_mm = stage.form_after, stage.step.amounts.get("slug_mm", 0.0)
    if not isinstance(after, Eyed | RowOfHoles) or stage.zone not in stage.step.zones:
        return None
    have, through = stage.form_before.sizes_mm(), after.through if isinstance(after, Eyed) else "thickness"
    thick_mm = max(after.depth_mm, have.get(through, have.get("side", have.get("diameter", 0.0))))
    if slug_mm <= thick_mm * (1.0 + _SHORTER_SHARE):
        return None
    return say(
        "its slug is to be {} thick, and {} is {} thick where it is punched: a slug is at most as thick as "
        "that, and from both sides about a fifth of it.",
        *(mm(slug_mm), stage.zone, mm(thick_mm)),
    )


def makes_holes(step: Step) -> bool:
    """Whether a step makes a hole where there was none, or several."""
    return step.does(Does.PUNCHES) or step.does(Does.PIERCES)


def punched_cold(stage: Stage) -> Words | None:
    """A hole that is punched cold through more than it is wide, or than a hand hammer drives it; None else.

    The punch is no thicker than its hole, and bends or breaks before it is through (common practice, no
    source).
    """
    step, after = stage.step, stage.form_after
    if not makes_holes(step) or step.heat_kind is not HeatKind.COLD or stage.zone not in step.zones:
        return None
    if not isinstance(after, Eyed | RowOfHoles):
        return None
    wide_mm = min(after.near_mm)
    if after.depth_mm <= wide_mm * (1.0 + _SHORTER_SHARE):
        if after.depth_mm <= _THICKEST_COLD_MM:
            return None
        return say(
            "a hole of {} is punched cold through {} of {}: cold no hand hammer drives a punch through more "
            "than {}. Say a heat; or is it drilled?",
            *(mm(wide_mm), mm(after.depth_mm), stage.zone, mm(_THICKEST_COLD_MM)),
        )
    return say(
        "a hole of {} is punched cold through {} of {}: cold a punch goes through no more than its hole is "
        "wide, and breaks. Say a heat; or is it drilled?",
        *(mm(wide_mm), mm(after.depth_mm), stage.zone),
    )


def punched_thin(stage: Stage) -> Words | None:
    """A hole so narrow beside its depth that no punch goes through hot; None where it is not.

    A slot's punch is stiff by its longer side, and goes as deep as an eye is.
    """
    step, after = stage.step, stage.form_after
    if not makes_holes(step) or step.heat_kind is HeatKind.COLD or stage.zone not in step.zones:
        return None
    if not isinstance(after, Eyed | RowOfHoles) or max(after.near_mm) >= _NARROW_SHARE * after.depth_mm:
        return None
    return say(
        "a hole of {} is punched through {} of {}: a punch so thin goes soft and bends in the hot metal. Is "
        "its decimal mark in the right place, or is it drilled?",
        *(mm(max(after.near_mm)), mm(after.depth_mm), stage.zone),
    )


def thin_cheeks(stage: Stage) -> Words | None:
    """Cheeks that a step leaves so thin that they hardly outlast it; None where they are not."""
    after = stage.form_after
    todo = operation(stage.step.operation)
    opens = stage.after.shape.kind == todo.FORM and stage.zone in stage.step.zones
    if not opens or not isinstance(after, Eyed | RowOfHoles):
        return None
    hole_mm = max(after.near_mm[1], after.far_mm[1])
    cheek_mm = ((after.across_mm if isinstance(after, Eyed) else after.width_mm) - hole_mm) / 2
    if cheek_mm >= max(_THIN_CHEEK_MM, _THIN_CHEEK_SHARE * hole_mm):
        return None
    return say(
        "beside a hole of {} the cheeks of {} are {} thick, and tear under the {}: is that meant?",
        *(mm(hole_mm), stage.zone, mm(cheek_mm), "drift" if isinstance(after, Eyed) else "punch"),
    )


def thin_end(stage: Stage, plan: Plan) -> Words | None:
    """A hole that leaves hardly anything to the free end of its piece; None where it does, or none is near.

    Towards a neighbour the metal goes on, and a hole may well reach as far as its zone does.
    """
    step, after = stage.step, stage.form_after
    if not makes_holes(step) or stage.zone not in step.zones or not isinstance(after, Eyed):
        return None
    if stage.zone not in {(zones := plan.recipe.piece_of(stage.zone).finished_zones)[0], zones[-1]}:
        return None
    hole_mm = max(after.near_mm[0], after.far_mm[0])
    end_mm = (after.length_mm - hole_mm) / 2
    if end_mm >= max(_THIN_CHEEK_MM, _THIN_CHEEK_SHARE * min(after.near_mm)):
        return None
    return say(
        "a hole {} long leaves {} at the end of {}, which is {} long there, and tears out: is that meant?",
        *(mm(hole_mm), mm(end_mm), stage.zone, mm(after.length_mm)),
    )


def _around(shape: str, mouth: _Mouth) -> float:
    return holes.perimeter_mm(shape, *mouth)


def _lies(mouth: _Mouth) -> int:
    """1 for a hole that lies along the bar, -1 for one across it, 0 for one that is about as long as wide."""
    length_mm, width_mm = mouth
    if length_mm > width_mm * (1.0 + _LIES_SHARE):
        return 1
    return -1 if width_mm > length_mm * (1.0 + _LIES_SHARE) else 0


def _told(shape: str, mouth: _Mouth) -> Words:
    if shape == "round":
        return say("{} round", mm(mouth[0]))
    return say("{} × {}", *map(mm, mouth))
