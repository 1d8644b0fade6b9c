"""Weighs what is filed or ground off as a share: it comes off the section, whose new size a step must say."""

from __future__ import annotations

from typing import Final

from coach.forms import Form, said
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.weigh_section import section_of
from coach.operations import operation
from coach.operations.does import Cause
from coach.quantities import Words, mm, say
from coach.recipe.model import Step

#: So much thinner, as a share of it, a section may come out of its last clean-up without a word (judgement).
_UNSAID_SHARE: Final = 0.02
#: Nor is it told where it is less than a calliper tells on what was forged, mm (judgement).
_UNSAID_MM: Final = 0.1
#: The sizes across a bar and a taper, which are told as its section.
_OF_A_BAR: Final = frozenset(
    f"{end}{name}"
    for end in ("", "end_")
    for name in ("width", "thickness", "side", "diameter", "across_flats")
)
#: No layer takes more than this share of the half section (our choice).
_MOST_SHARE: Final = 0.99
#: How unsure the layer is, as a share of it (judgement).
_DOUBT_SHARE: Final = 0.1
#: Halvings in which the layer that comes off every face is found (our choice).
_HALVINGS: Final = 40


def filed_thinner(plan: Plan, stage: Stage) -> Words | None:
    """A share or a mass that is filed off a zone of which the step says no section; None where it is little.

    A file takes metal from the section, and lengths stay: the account of the metal alone would give the zone
    a longer piece of bar for it, at the section it had.
    """
    step, zone = stage.step, stage.zone
    lost = stage.taken_mm3.get(Cause.STATED, 0.0)
    if zone not in step.zones or not _takes_a_share(step) or lost <= 0.0 or stage.after.free != "length":
        return None
    before = stage.form_before
    across = {name: shed for name, shed in type(before).SHEDS.items() if shed < 0.0 and name != "length"}
    if not across or across.keys() & step.targets.keys():
        return None
    left, off_mm = _thinner(before, across, lost / stage.before_mm3)
    name = _is_beside(plan, zone, before, left, across)
    if not name:
        return None
    is_bar = across.keys() <= _OF_A_BAR
    told = [
        section_of(one).words if is_bar else say("{} {}", said(name), mm(one.size_mm(name)))
        for one in (left, before)
    ]
    return say(
        "what is taken off comes off the section, and the length stays: about {} off every face leaves {} of "
        "{}, and its length is marked out for {}. Say what is left, as in {}: {}, {}.",
        mm(off_mm, _DOUBT_SHARE * off_mm),
        *(told[0], zone, told[1], step.operation, zone, told[0]),
    )


def _takes_a_share(step: Step) -> bool:
    loses = step.loses
    return operation(step.operation).FIXES and bool(loses.share or loses.mass_g)


def _thinner(before: Form, across: dict[str, float], share: float) -> tuple[Form, float]:
    """What is left of a form once a layer off every face took that share of its metal, and the layer."""
    sizes = before.sizes_mm()
    goal = before.volume_mm3() * (1.0 - share)

    def less(layer_mm: float) -> Form:
        return before.with_sizes({name: sizes[name] + shed * layer_mm for name, shed in across.items()})

    low, high = 0.0, _MOST_SHARE * min(-sizes[name] / shed for name, shed in across.items())
    for _ in range(_HALVINGS):
        layer_mm = 0.5 * (low + high)
        low, high = (layer_mm, high) if less(layer_mm).volume_mm3() > goal else (low, layer_mm)
    return less(low), low


def _is_beside(plan: Plan, zone: str, before: Form, left: Form, across: dict[str, float]) -> str:
    """The first size that is plainly less, and less than the drawing allows; empty where none is."""
    limits = plan.recipe.drawing[zone].limits
    for name in across:
        have, now = before.size_mm(name), left.size_mm(name)
        if name not in limits:
            continue
        least = limits[name].low if limits[name].stated else limits[name].nominal * (1.0 - _UNSAID_SHARE)
        if now < min(have * (1.0 - _UNSAID_SHARE), have - _UNSAID_MM, least):
            return name
    return ""
