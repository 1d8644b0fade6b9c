"""Weighs a part against the hole that it is tried in: one that does not go in, or is looser than is asked."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot
from typing import Final, NamedTuple

from coach.forms import Form
from coach.forms.eyed import Eyed
from coach.ledger.plan import Plan
from coach.operations import operation
from coach.quantities import Words, mm, say
from coach.recipe.model import Step

#: An outline with more corners than an octagon is round (by definition).
_CORNERS_AT_MOST: Final = 8
#: Sizes may be so much beside each other in the plan before a word is said (our choice), mm.
_PLAY_MM: Final = 0.05


class _Across(NamedTuple):
    """A section across."""

    is_round: bool
    wide_mm: float
    thick_mm: float

    @property
    def words(self) -> Words:
        if self.is_round:
            return say("round {}", mm(self.wide_mm))
        return say("{} × {}", mm(self.wide_mm), mm(self.thick_mm))


def badly_fitted(plan: Plan, step: Step) -> Words | None:
    """What is wrong with a part that is tried in a hole; None where it fits, or neither of them is a hole.

    A part may well be named by what it seats with: where another zone of its piece goes in, nothing is said.
    """
    if not operation(step.operation).TRIED_ON or not step.zones:
        return None
    others = [zone for name in step.tried_on for zone in _zones(plan, name)]
    own = step.zones[0]
    if isinstance(_form_at(plan, own, step), Eyed):
        pairs = [(other, own) for other in others]
    else:
        pairs = [(own, other) for other in others]
    holes = {hole: form for _, hole in pairs if isinstance(form := _form_at(plan, hole, step), Eyed)}
    for part, hole in pairs:
        if hole not in holes or isinstance(_form_at(plan, part, step), Eyed):
            continue
        kin = [part, *(zone for zone in plan.recipe.piece_of(part).zones if zone != part)]
        sections = [one for zone in kin for one in _sections(_form_at(plan, zone, step))]
        if not sections or any(_goes_in(one, eye) for one in sections for eye in holes.values()):
            continue
        least = min(_sections(_form_at(plan, part, step)), key=lambda one: one.wide_mm, default=None)
        if least is not None:
            return _too_thick(part, least, hole, _mouth(holes[hole]))
    return _loose(plan, step, pairs, holes)


def _too_thick(part: str, least: _Across, hole: str, mouth: _Across) -> Words:
    return say(
        "{} is {} there, and the hole of {} is {}: it does not go in. Make the part thinner, or the hole "
        "larger.",
        *(part, least.words, hole, mouth.words),
    )


def _loose(plan: Plan, step: Step, pairs: list[tuple[str, str]], holes: dict[str, Eyed]) -> Words | None:
    """A round part in a round hole that stands off it all round by more than the gap that is asked for."""
    gap = step.targets.get("gap")
    if gap is None or len(pairs) != 1 or pairs[0][1] not in holes:
        return None
    part, hole = pairs[0]
    mouth, sections = _mouth(holes[hole]), _sections(_form_at(plan, part, step))
    if not mouth.is_round or not sections or not all(one.is_round for one in sections):
        return None
    thickest = max(sections, key=lambda one: one.wide_mm)
    off_mm = 0.5 * (mouth.wide_mm - thickest.wide_mm)
    if off_mm <= gap.high + _PLAY_MM:
        return None
    return say(
        "{} is {} there, and the hole of {} is {}: it stands off by {} all round, and at most {} is "
        "asked for.",
        *(part, thickest.words, hole, mouth.words, mm(off_mm), mm(gap.high)),
    )


def _zones(plan: Plan, name: str) -> Iterator[str]:
    """The zone of a name, or those of the piece that has it."""
    if name in plan.recipe.drawing:
        yield name
    elif name in plan.recipe.pieces:
        yield from plan.recipe.pieces[name].finished_zones


def _form_at(plan: Plan, zone: str, step: Step) -> Form:
    """What a zone is when a step begins."""
    before = [one for one in plan.stages[zone] if one.step.number < step.number]
    return before[-1].form_after if before else plan.bar_of(zone)


def _sections(form: Form) -> list[_Across]:
    """The sections at both ends of a straight part; none of what is bent or has a hole."""
    if isinstance(form, Eyed) or form.unbent() is not None or "length" not in form.DIMENSIONS:
        return []
    found = []
    for at_mm in (0.0, form.length_mm):
        outline = form.section(at_mm).outline
        sizes = sorted(max(one) - min(one) for one in zip(*outline, strict=True))
        found.append(_Across(len(outline) > _CORNERS_AT_MOST, sizes[1], sizes[0]))
    return found


def _mouth(eye: Eyed) -> _Across:
    """The larger mouth of a hole."""
    mouths = (sorted(eye.near_mm), sorted(eye.far_mm))
    return _Across(eye.hole == "round", max(one[1] for one in mouths), max(one[0] for one in mouths))


def _goes_in(part: _Across, eye: Eyed) -> bool:
    mouth = _mouth(eye)
    if mouth.is_round and not part.is_round:
        return hypot(part.wide_mm, part.thick_mm) <= mouth.wide_mm + _PLAY_MM
    return part.wide_mm <= mouth.wide_mm + _PLAY_MM and part.thick_mm <= mouth.thick_mm + _PLAY_MM
