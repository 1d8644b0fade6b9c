"""How much of the steel that was laid on a zone lies in the end that is gone."""

from __future__ import annotations

from collections.abc import Mapping

from coach.forms import Form
from coach.ledger.in_cleft import stands_out_mm
from coach.ledger.plan import Plan
from coach.ledger.shortening import shorter
from coach.ledger.skinning import skins
from coach.ledger.workpiece import Workpiece, volume_name

#: The steel is drawn with the iron, and no more of what went can have been steel (judgement).
_MOST_SHARE = 0.98


def steel_gone_mm3(
    plan: Plan, now: Workpiece, zone: str, form: Form, length_mm: float, gone_mm3: float
) -> Mapping[str, float]:
    """How much of each steel goes with so much of a zone's free end, mm³; nothing where it holds none.

    Steel that is laid on the end is all that lies there. Any other reaches the end with its thick end, and
    has been drawn since it was welded as the zone was: what is gone of it is the outermost part of the form
    that it was laid on with (elementary geometry).

    Args:
        plan: as the job follows it.
        now: what is believed of the metal.
        zone: the one whose end is gone.
        form: of the zone, with its steel.
        length_mm: of the end.
        gone_mm3: all the metal of that.
    """
    on_end = {one.steel for one in skins(plan) if one.grinding and one.grinding.dimension == "length"}
    found: dict[str, float] = {}
    for steel in now.zones[zone].parts[1:]:
        weld, name = plan.recipe.welds.get(steel), volume_name(steel)
        if weld is None or weld.zones[0] != zone or name not in now.belief:
            continue
        there_mm3 = now.belief.mean(name)
        own = plan.stages[steel]
        laid = own[-1].form_after if own else plan.bar_of(steel)
        if steel in on_end:
            gone = min(there_mm3, gone_mm3)
        elif "length" in laid.sizes_mm() and "length" in form.sizes_mm():
            gone = there_mm3 * _share(plan, zone, steel, laid, form, length_mm)
        else:
            gone = 0.0
        left_mm3 = _MOST_SHARE * gone_mm3 - sum(found.values())
        if (gone := min(gone, left_mm3)) > 0.0:
            found[steel] = gone
    return found


def shortened_steels(plan: Plan, now: Workpiece, zone: str) -> tuple[str, ...]:
    """The steels in a zone of which some went with its end, beyond what the steps take."""
    laid = now.zones[zone].parts[1:]
    return tuple(steel for steel in laid if plan.recipe.drawing[steel].taken_back_mm > 0.0)


def _share(plan: Plan, zone: str, steel: str, laid: Form, form: Form, length_mm: float) -> float:
    """Which share of a steel goes with so much of the end that it reaches."""
    welded = next(one for one in plan.stages[zone] if one.lays == steel)
    ahead = (one.after.shape for one in plan.stages[zone] if one.step.number > welded.step.number)
    out_mm = stands_out_mm(welded.step, laid, welded.form_after, welded.after.shape, ahead)
    stretch = form.size_mm("length") / (welded.form_after.size_mm("length") + out_mm)
    long_mm = laid.size_mm("length")
    gone_mm = length_mm / stretch
    if gone_mm >= long_mm:
        return 1.0
    thick_at_start = laid.end_area_mm2("start") > laid.end_area_mm2("finish")
    left = laid.with_sizes(shorter(laid, gone_mm, at_start=thick_at_start))
    return 1.0 - left.volume_mm3() / laid.volume_mm3()
