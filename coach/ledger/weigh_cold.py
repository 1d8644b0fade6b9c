"""Weighs work done cold by how far its metal follows: bends too tight, sections hammered too thin, heads set.

That a section of hard steel or iron is not hammered cold at all `weigh_heat` says; here is what a metal that
does give cold no longer stands, and what is bent, turned, rolled or headed of one that hardly does.
"""

from __future__ import annotations

from math import dist, hypot, inf, pi
from typing import Final

from coach.fire.limits import gives_cold
from coach.forms import Form
from coach.forms.rivet import Rivet
from coach.forms.twisted_bar import TwistedBar
from coach.forms.twisted_taper import TwistedTaper
from coach.ledger.hot_work import grades_in, reduction_of
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.weigh_bend import across_bend_mm, inside_radius_mm
from coach.ledger.weigh_heat import snaps_cold
from coach.metals.grade_file import Grade
from coach.operations import Does, operation
from coach.operations.does import HeatKind
from coach.quantities import Words, mm, say
from coach.recipe.model import Step

#: How tight a bar is bent cold, its inside radius in thicknesses, by the most carbon in per cent: annealed or
#: normalised steel, along the bar (common practice, no source).
_TIGHTEST_BY_CARBON: Final = ((0.30, 0.5), (0.60, 2.0), (inf, 4.0))
#: Of an unknown steel as of the hardest (judgement).
_UNKNOWN_CARBON: Final = 1.0
#: The same of wrought iron along its fibres (common practice, no source).
_TIGHTEST_IRON: Final = 1.5
#: Soft steel is hammered cold to no less than one so many times as thin before it is annealed (common
#: practice, no source).
_THINNER_AT_ONCE: Final = 2.0
#: And to no less than a section so many times as small, as at a taper's end (common practice, no source).
_SMALLER_AT_ONCE: Final = 4.0
#: Twisted cold, a corner of it becomes no more than so many times as long (common practice, no source).
_LONGER_AT_ONCE: Final = 1.25
#: Rivets of soft steel and iron are headed cold up to so thick, mm (common practice, no source).
_HEADED_COLD_MM: Final = 10.0

_BENT: Final = (
    "{} is bent cold there to {} inside on a thickness of {}: {} bent cold tighter than {} cracks. Say a "
    "heat."
)
_HAMMERED: Final = (
    "{} is hammered cold there to one {} times as {}: {} stiffens, and cracks beyond {} times. Say a heat, "
    "or anneal it half-way."
)
_TWISTED: Final = (
    "cold, one turn in {} makes a corner of {} {} times as long, and beyond {} times it tears. Say a heat."
)
_HEADED: Final = "no heat is said, and {} headed cold cracks: head it hot, or take a rivet of soft steel."
_THICK_HEAD: Final = (
    "a rivet {} thick is headed hot: cold, no hand hammer fills its hole beyond {}. Say a heat."
)


def overworked_cold(plan: Plan, step: Step) -> Words | None:
    """What a cold step asks of its metal that this does not stand; None where it does, or is heated."""
    if step.heat_kind is not HeatKind.COLD or operation(step.operation).HEAT_KIND is HeatKind.COLD:
        return None
    if snaps_cold(plan, step):
        return None  # hard from a quench: told as that
    grades = grades_in(plan, step._replace(heated=()))
    for zone in step.zones:
        stage = plan.by_step[step.number].get(zone)
        if stage is None or operation(step.operation).FIXES:
            continue
        for metal in grades:
            words = _headed(stage, metal) if isinstance(stage.form_after, Rivet) else None
            words = words or _bent(stage, metal) or _twisted(stage, metal) or _hammered(stage, metal)
            if words is not None:
                return words
    return None


def _bent(stage: Stage, metal: Grade) -> Words | None:
    """A bend that is tighter than its metal follows cold."""
    if not (stage.step.does(Does.BENDS) or stage.form_after.unbent() is not None):
        return None
    radius_mm, thick_mm = (
        inside_radius_mm(stage),
        _across_mm(stage.form_after.unbent() or stage.form_before),
    )
    if stage.step.does(Does.ON_EDGE):
        thick_mm = across_bend_mm(stage)
    if radius_mm is None or thick_mm <= 0.0:
        return None
    least_mm = _tightest(metal) * thick_mm
    if radius_mm >= least_mm:
        return None
    return say(_BENT, stage.zone, mm(radius_mm), mm(thick_mm), metal.name, mm(least_mm))


def _tightest(metal: Grade) -> float:
    if "iron" in metal.name:
        return _TIGHTEST_IRON
    carbon = metal.carbon_share if metal.carbon_share is not None else _UNKNOWN_CARBON
    return next(times for most, times in _TIGHTEST_BY_CARBON if carbon < most)


def _across_mm(form: Form, along: float = 0.0) -> float:
    """The least that a form is across, at a share of its length."""
    outline = form.section(along * form.length_mm).outline
    across: tuple[float, ...] = tuple(max(one) - min(one) for one in zip(*outline, strict=True))
    return min(across)


def _twisted(stage: Stage, metal: Grade) -> Words | None:
    after = stage.form_after
    if not isinstance(after, TwistedBar | TwistedTaper) or after.KIND == stage.form_before.KIND:
        return None
    corner_mm = max(2.0 * dist(point, (0.0, 0.0)) for point in after.unbent().section(0.0).outline)
    longer = hypot(1.0, pi * corner_mm / after.turn_mm)
    if longer <= _LONGER_AT_ONCE:
        return None
    return say(_TWISTED, mm(after.turn_mm), metal.name, f"{longer:.2g}", f"{_LONGER_AT_ONCE:g}")


def _hammered(stage: Stage, metal: Grade) -> Words | None:
    """A section that is hammered thinner, or driven up more, than soft steel follows at once."""
    if stage.form_after.unbent() is not None or not operation(stage.step.operation).RESHAPES:
        return None
    if not gives_cold(metal):
        return None  # which is not hammered cold at all
    times = max(reduction_of(stage), *(_thinner(stage, end) for end in (0.0, 1.0)))
    if times > _THINNER_AT_ONCE:
        return say(_HAMMERED, stage.zone, f"{times:.2g}", "thin", metal.name, f"{_THINNER_AT_ONCE:g}")
    times = max(_smaller(stage, end) for end in (0.0, 1.0))
    if times > _SMALLER_AT_ONCE:
        return say(_HAMMERED, stage.zone, f"{times:.2g}", "small", metal.name, f"{_SMALLER_AT_ONCE:g}")
    return None


def _smaller(stage: Stage, along: float) -> float:
    """How many times as small the section of one end becomes."""
    before, after = stage.form_before, stage.form_after
    if "length" not in before.sizes_mm() or "length" not in after.sizes_mm():
        return 1.0
    have, left = (form.section(along * form.length_mm).area_mm2 for form in (before, after))
    return have / left if left > 0.0 else inf


def _thinner(stage: Stage, along: float) -> float:
    """How many times as thin one end becomes: by its least thickness, of what was there."""
    before, after = stage.form_before, stage.form_after
    if "length" not in before.sizes_mm() or "length" not in after.sizes_mm():
        return 1.0
    have, left = (_across_mm(form, along) for form in (before, after))
    return have / left if left > 0.0 else inf


def _headed(stage: Stage, metal: Grade) -> Words | None:
    if not gives_cold(metal) and "iron" not in metal.name:
        return say(_HEADED, metal.name)
    thick_mm = stage.form_after.size_mm("diameter")
    if thick_mm > _HEADED_COLD_MM:
        return say(_THICK_HEAD, mm(thick_mm), mm(_HEADED_COLD_MM))
    return None
