"""The eye worked to a haft that is there: from the wood as measured to the sizes of the drift."""

from __future__ import annotations

from functools import partial
from typing import NamedTuple

from coach.bench.entering import EntryFault
from coach.bench.replay import JobState
from coach.bench.standing import HaftView
from coach.finish.haft import USUAL_FIT_MM, EyeFor, MeasuredHaft, Oval, eye_for_haft, kerf_depth_mm
from coach.finish.wood import wood_called, woods
from coach.forms import listed
from coach.ledger.amendment import Amendment, NewLimits, NewTarget
from coach.log.kinds.way_back import WayBackTaken
from coach.quantities import Limits, Shown, read_length_mm, write_length
from coach.reckoner.asking.reading import NotReckoned, read_percent, read_two_sizes_mm
from coach.reckoner.haft import read_rings
from coach.telling.words import write

_MOUTHS = (("hole_length", "hole_width"), ("far_hole_length", "far_hole_width"))
#: A haft is used indoors and out at about this moisture (common practice, no source).
USUAL_IN_USE = "10"
USUAL_MOISTURE = "10"
USUAL_WOOD = "white ash"


class HaftAsked(NamedTuple):
    """A haft as it was measured, as typed."""

    size: str  # length along the head × width across it, where it is to fill the eye
    wood: str = USUAL_WOOD
    moisture: str = USUAL_MOISTURE  # per cent now
    in_use: str = USUAL_IN_USE  # per cent where it will be used
    second: str = ""  # of a natural haft, its size at a second place; turned when empty
    rings: str = "length"  # which way the growth rings run across the eye
    fit: str = ""  # what is left for scale and the file; the usual when empty


def eye_for(asked: HaftAsked, shown: Shown) -> EyeFor:
    """The eye that a haft needs; raises Refusal with one sentence for what cannot be read or be."""
    size = Oval(*read_two_sizes_mm(asked.size, "a haft", shown.system))
    second = None
    if asked.second.strip():
        second = Oval(*read_two_sizes_mm(asked.second, "a haft's second place", shown.system))
    haft = MeasuredHaft(
        size,
        wood_called(asked.wood),
        _percent(asked.moisture, "moisture"),
        _percent(asked.in_use, "moisture in use"),
        read_rings(asked.rings),
        second,
    )
    fit_mm = read_length_mm(asked.fit, shown.system) if asked.fit.strip() else USUAL_FIT_MM
    # Without a flare: the recipe's own eye says how its mouths differ.
    return eye_for_haft(haft, fit_mm=fit_mm, flare_mm=0.0)


def wood_names() -> tuple[str, ...]:
    """Every wood whose shrinkage is known, those most used for hafts first."""
    return tuple(one.name for one in woods())


def _percent(told: str, what: str) -> float:
    try:
        return read_percent(told)
    except NotReckoned as error:
        raise EntryFault(f"The {what} of the wood: {error}") from None


def eyes_of(state: JobState) -> tuple[str, ...]:
    """The zones of a job's drawing that have an eye."""
    drawing = state.plan.recipe.drawing
    return tuple(zone for zone, drawn in drawing.items() if drawn.shape.kind == "eyed")


def the_eye(state: JobState) -> str:
    """The one eyed zone of a job; raises EntryFault where there is none or more than one."""
    eyes = eyes_of(state)
    if len(eyes) != 1:
        raise EntryFault(
            "This job's drawing has no eye for a haft."
            if not eyes
            else f"This job has several eyes, {', '.join(eyes)}: only one can be fitted to a haft here."
        )
    return eyes[0]


def amendment_for(state: JobState, eye: EyeFor) -> Amendment:
    """What fitting the eye to a haft changes: its finished mouths, and every step ahead that works to them.

    Each mouth keeps its limits about its new size, and the far mouth is as much wider than the near one as
    the drawing has it.
    """
    zone = the_eye(state)
    limits = state.plan.recipe.drawing[zone].limits
    near = {"hole_length": eye.hole_length_mm, "hole_width": eye.hole_width_mm}
    new: dict[str, Limits] = {}
    for (name, size_mm), far in zip(near.items(), _MOUTHS[1], strict=True):
        new[name] = _moved(limits[name], size_mm)
        new[far] = _moved(limits[far], size_mm + limits[far].nominal - limits[name].nominal)
    ahead = state.plan.recipe.steps[len(state.records) :]
    targets = tuple(
        NewTarget(step.number, name, new[name])
        for step in ahead
        if zone in step.zones
        for name, wanted in step.targets.items()
        if name in new and wanted == limits[name]
    )
    return Amendment(limits=tuple(NewLimits(zone, name, told) for name, told in new.items()), targets=targets)


def _moved(limits: Limits, nominal: float) -> Limits:
    by = nominal - limits.nominal
    return Limits(nominal, limits.low + by, limits.high + by, stated=True)


def haft_view(state: JobState, asked: HaftAsked, shown: Shown) -> HaftView:
    """What a haft asks of the eye, before anything is entered."""
    eye = eye_for(asked, shown)
    zone = the_eye(state)
    drawn = state.plan.recipe.drawing[zone]
    depth_mm = drawn.limits[drawn.shape.options.get("through", "thickness")].nominal
    say = partial(write_length, shown=shown)
    return HaftView(
        zone=zone,
        hole_length=eye.hole_length_mm,
        hole_width=eye.hole_width_mm,
        text=f"Drift the {zone} to {say(eye.hole_length_mm)} × {say(eye.hole_width_mm)}.",
        reasons=tuple(write(reason, shown) for reason in eye.reasons),
        seat_when=eye.seat_when,
        kerf_depth=kerf_depth_mm(depth_mm),
        kerf_text=f"Saw the kerf {say(kerf_depth_mm(depth_mm))} deep, two thirds of the eye's depth.",
        steps=_steps_text(state, eye),
    )


def _steps_text(state: JobState, eye: EyeFor) -> str:
    numbers = sorted({target.step for target in amendment_for(state, eye).targets})
    if not numbers:
        return "No step ahead drifts the eye to its finished size any more: it is judged by the new one."
    return f"Step{'s' if len(numbers) > 1 else ''} {listed(map(str, numbers))} will work to it."


def haft_fitted(state: JobState, asked: HaftAsked, shown: Shown) -> WayBackTaken:
    """The entry of an eye that is worked to a haft from now on."""
    view = haft_view(state, asked, shown)
    step = state.step
    return WayBackTaken(
        name="fit-the-haft",
        title=f"Fit the {view.zone} to a haft of {asked.size.strip()[:30]}",
        changes=view.text,
        step=step.number if step is not None else 0,
        amendment=amendment_for(state, eye_for(asked, shown)),
    )
