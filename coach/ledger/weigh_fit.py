"""Weighs a part against what it is tried in: one that does not go in, or is looser than asked, or itself."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot
from typing import Final, NamedTuple

from coach.forms import Form
from coach.forms.eyed import Eyed
from coach.ledger.plan import Plan
from coach.operations import Does, operation
from coach.quantities import Words, mm, say
from coach.recipe.model import Step

#: An outline with more corners than an octagon is round (by definition).
_CORNERS_AT_MOST: Final = 8
#: Sizes may be so much beside each other in the plan before a word is said (our choice), mm.
_PLAY_MM: Final = 0.05
#: What brings a zone of a bar to another of it, besides whatever keeps a section as it bends it.
_TURNS: Final = frozenset({Does.BENDS, Does.PARTS, Does.PUNCHES, Does.GROOVES})
#: What is round inside by the size that it is bent to.
_INSIDE: Final = ("inside", "inner_diameter")
_ITSELF: Final = "{} is tried on itself: name the other part, or leave out what comes after to."
_ONE_BAR: Final = (
    "{} and {} are of one straight bar, and neither goes to the other: name the part that it is tried on."
)


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

    An eye that is bent or folded, and a ring, is the hole of its inside. A part may well be named by what it
    seats with: where another zone of its piece goes in all along, nothing is said.
    """
    if not operation(step.operation).TRIED_ON or not step.zones:
        return None
    others = [zone for name in step.tried_on for zone in _zones(plan, name)]
    own = step.zones[0]
    if own in others:
        return say(_ITSELF, own)
    for other in others:
        if _is_one_bar(plan, step, own, other):
            return say(_ONE_BAR, own, other)
    if _mouth(_form_at(plan, own, step)) is not None:
        pairs = [(other, own) for other in others]
    else:
        pairs = [(own, other) for other in others]
    pairs = [pair for pair in pairs if not _closes_on_its_own(plan, step, pair)]
    holes = {hole: mouth for _, hole in pairs if (mouth := _mouth(_form_at(plan, hole, step))) is not None}
    for part, hole in pairs:
        if hole not in holes or _mouth(_form_at(plan, part, step)) is not None:
            continue
        sections = _sections(_form_at(plan, part, step))
        others_of_it = [zone for zone in plan.recipe.piece_of(part).zones if zone != part]
        kin = [one for zone in others_of_it if (one := _sections(_form_at(plan, zone, step)))]
        if not sections or any(_goes_in(one, mouth) for one in sections for mouth in holes.values()):
            continue
        if any(all(_goes_in(one, mouth) for one in whole) for whole in kin for mouth in holes.values()):
            continue
        least = min(_sections(_form_at(plan, part, step)), key=lambda one: one.wide_mm, default=None)
        if least is not None:
            return _too_thick(part, least, hole, holes[hole])
    return _loose(plan, step, pairs, holes)


def _closes_on_its_own(plan: Plan, step: Step, pair: tuple[str, str]) -> bool:
    """Whether an eye is tried against the bar that it is bent of: that lies beside it, and not in it."""
    part, hole = pair
    same = plan.recipe.piece_of(part).name == plan.recipe.piece_of(hole).name
    return same and not isinstance(_form_at(plan, hole, step), Eyed)


def _is_one_bar(plan: Plan, step: Step, one: str, other: str) -> bool:
    """Whether two zones are of one bar that no step before bent, folded, parted or pierced."""
    piece = plan.recipe.piece_of(one)
    if plan.recipe.piece_of(other).name != piece.name or piece.branches:
        return False
    if not all(_sections(_form_at(plan, zone, step)) for zone in piece.zones):
        return False
    steps = plan.recipe.steps[: step.number - 1]
    before = (earlier for earlier in steps if {*earlier.zones} & {*piece.zones})
    return not any(
        operation(one_step.operation).KEEPS_SECTION or operation(one_step.operation).DOES & _TURNS
        for one_step in before
    )


def _too_thick(part: str, least: _Across, hole: str, mouth: _Across) -> Words:
    return say(
        "{} is {} there, and the hole of {} is {}: it does not go in. Make the part thinner, or the hole "
        "larger.",
        *(part, least.words, hole, mouth.words),
    )


def _loose(plan: Plan, step: Step, pairs: list[tuple[str, str]], holes: dict[str, _Across]) -> Words | None:
    """A round part in a round hole that stands off it all round by more than the gap that is asked for."""
    gap = step.targets.get("gap")
    if gap is None or len(pairs) != 1 or pairs[0][1] not in holes:
        return None
    part, hole = pairs[0]
    mouth, sections = holes[hole], _sections(_form_at(plan, part, step))
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


def _mouth(form: Form) -> _Across | None:
    """The larger mouth of a hole, or the inside of what is bent round one; None of what is neither."""
    if isinstance(form, Eyed):
        mouths = (sorted(form.near_mm), sorted(form.far_mm))
        wide_mm, thick_mm = (max(one[side] for one in mouths) for side in (1, 0))
        return _Across(form.hole == "round", wide_mm, thick_mm)
    if form.unbent() is None:
        return None
    sizes = form.sizes_mm()
    inside_mm = next((sizes[name] for name in _INSIDE if name in sizes), None)
    return _Across(True, inside_mm, inside_mm) if inside_mm is not None else None


def _goes_in(part: _Across, mouth: _Across) -> bool:
    if mouth.is_round and not part.is_round:
        return hypot(part.wide_mm, part.thick_mm) <= mouth.wide_mm + _PLAY_MM
    return part.wide_mm <= mouth.wide_mm + _PLAY_MM and part.thick_mm <= mouth.thick_mm + _PLAY_MM
