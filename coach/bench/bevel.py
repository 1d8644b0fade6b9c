"""How a bevel will curve its bar, before it is forged and after its first heat is measured."""

from __future__ import annotations

from collections.abc import Iterator

from coach.finish.bevel import (
    BarToBevel,
    bevel_range,
    calibrated,
    predicted,
    radius_from_sagitta_mm,
)
from coach.ledger.course import Course
from coach.ledger.plan import Plan
from coach.operations import Does
from coach.quantities.figure import mm
from coach.quantities.refusal import OutOfRange
from coach.quantities.words import Words, say
from coach.recipe.model import Step

#: The straight-edge that a curve is measured over when the recipe names none (common practice, no source).
_USUAL_CHORD_MM = 100.0


def bevel_advice(plan: Plan, step: Step, course: Course | None) -> Iterator[Words]:
    """What a bevel step, or the bend that comes before it, should know of the curve."""
    ahead = step if step.does(Does.BEVELS) else _bevel_after(plan, step)
    bar = _bar(plan, ahead) if ahead is not None else None
    if ahead is None or bar is None:
        return
    try:
        found = bevel_range(bar)
    except OutOfRange as reason:
        if step is ahead:
            yield reason.words
        return
    pre_curve = say(
        "about {} radius at its back, somewhere from {} to {}",
        found.pre_curve,
        found.pre_curve_tightest or "as tight as it will bend",
        found.pre_curve_widest,
    )
    if step is not ahead:
        yield say(
            "Step {} thins the edge and draws it longer. To end straight, bend it the other way first: {}. "
            "Nobody can say it closer before the first bevel heat is measured.",
            ahead.number,
            pre_curve,
        )
        return
    learned = _learned(ahead, bar, course)
    if learned is not None:
        radius_mm, pre_curve_mm = learned
        yield say(
            "By what was measured, the whole bevel down to {} curves the back to about {} radius; a bar bent "
            "to {} the other way would end straight.",
            mm(bar.edge_mm),
            mm(radius_mm),
            mm(pre_curve_mm),
        )
        return
    yield say(
        "The edge grows as it thins, and the bar curves about its back: let be, to about {} radius, "
        "somewhere from {} to {}. Bent the other way beforehand it ends straight: {}.",
        found.radius,
        found.tightest,
        found.widest,
        pre_curve,
    )
    yield say(
        "After the first heat measure length, end thickness and the curve height: how far the middle has "
        "swung out over {} since before the heat. Then the coach says it closer.",
        mm(_chord_mm(ahead)),
    )


def _bevel_after(plan: Plan, step: Step) -> Step | None:
    if not step.does(Does.BENDS):
        return None
    later = plan.recipe.steps[step.number :]
    return next((one for one in later if one.does(Does.BEVELS) and one.zones == step.zones), None)


def _bar(plan: Plan, step: Step) -> BarToBevel | None:
    stage = plan.by_step[step.number].get(step.zones[0])
    if stage is None:
        return None
    before, after = stage.form_before.sizes_mm(), stage.form_after.sizes_mm()
    if "length" not in before or "thickness" not in before or "end_thickness" not in after:
        return None
    width_mm = before["length"]
    return BarToBevel(
        width_mm,
        before["thickness"],
        after["end_thickness"],
        min(step.amounts.get("bevel_mm", width_mm), width_mm),
    )


def _chord_mm(step: Step) -> float:
    return step.amounts.get("chord_mm", _USUAL_CHORD_MM)


def _learned(step: Step, bar: BarToBevel, course: Course | None) -> tuple[float, float] | None:
    """Radius and pre-curve for the whole bevel, by a heat that was measured part of the way; None without."""
    if course is None or course.step.number != step.number:
        return None
    read = {name: course.last(step.zones[0], name) for name in ("length", "end_thickness", "curve_height")}
    sizes = {
        name: one.mark.reading.size_mm for name, one in read.items() if one is not None and not one.questioned
    }
    if len(sizes) < len(read) or not sizes["curve_height"]:
        return None
    try:
        radius_mm = radius_from_sagitta_mm(_chord_mm(step), sizes["curve_height"])
        half_way = bar._replace(edge_mm=sizes["end_thickness"])
        taught = calibrated(half_way, width_after_mm=sizes["length"], radius_mm=radius_mm)
        found = predicted(taught, bar)
    except OutOfRange:
        return None
    return found.radius_mm, found.pre_curve_mm
