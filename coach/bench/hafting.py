"""The eye worked to a haft that is there: from the wood as measured to the sizes of the drift."""

from __future__ import annotations

from typing import NamedTuple

from coach.bench.entering import EntryFault
from coach.bench.replay import JobState
from coach.finish.haft import (
    USUAL_FIT_MM,
    EyeFor,
    MeasuredHaft,
    Oval,
    eye_for_haft,
    kerf_depth_mm,
    wood_called,
    woods,
)
from coach.ledger.amendment import Amendment, NewLimits, NewTarget
from coach.log.kinds.way_back import WayBackTaken
from coach.operations import operation
from coach.quantities import Figure, Limits, Words, mm, read_length_mm, say
from coach.quantities.units import System
from coach.recipe.model import Step
from coach.reckoner.asking.reading import NotReckoned, read_percent, read_two_sizes_mm
from coach.reckoner.haft import read_rings

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


class EyeForHaft(NamedTuple):
    """What a haft that is there asks of the eye."""

    zone: str  # the eye
    hole_length: Figure  # along the head where the haft goes in
    hole_width: Figure  # across it
    reasons: tuple[Words, ...]  # what was taken off and why
    seat_when: str  # whether the haft can be seated now
    kerf_depth: Figure  # how deep to saw for the wedge
    steps: tuple[int, ...]  # the steps ahead that will work to it

    @property
    def words(self) -> Words:
        """What to drift the eye to."""
        return say("Drift the {} to {} × {}.", self.zone, self.hole_length, self.hole_width)


def eye_for(asked: HaftAsked, system: System) -> EyeFor:
    """The eye that a haft needs; raises Refusal with one sentence for what cannot be read or be."""
    size = Oval(*read_two_sizes_mm(asked.size, "a haft", system))
    second = None
    if asked.second.strip():
        second = Oval(*read_two_sizes_mm(asked.second, "a haft's second place", system))
    haft = MeasuredHaft(
        size,
        wood_called(asked.wood),
        _percent(asked.moisture, "moisture"),
        _percent(asked.in_use, "moisture in use"),
        read_rings(asked.rings),
        second,
    )
    fit_mm = read_length_mm(asked.fit, system) if asked.fit.strip() else USUAL_FIT_MM
    # Without a flare: the recipe's own eye says how its mouths differ.
    return eye_for_haft(haft, fit_mm=fit_mm, flare_mm=0.0)


def wood_names() -> tuple[str, ...]:
    """Every wood whose shrinkage is known, those most used for hafts first."""
    return tuple(one.name for one in woods())


def _percent(told: str, what: str) -> float:
    try:
        return read_percent(told)
    except NotReckoned as error:
        raise EntryFault("The {} of the wood: {}", what, error.words) from None


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
    near = {"hole_length": eye.hole_length.value, "hole_width": eye.hole_width.value}
    new: dict[str, Limits] = {}
    for (name, size_mm), far in zip(near.items(), _MOUTHS[1], strict=True):
        new[name] = _moved(limits[name], size_mm)
        new[far] = _moved(limits[far], size_mm + limits[far].nominal - limits[name].nominal)
    ahead = state.plan.recipe.steps[len(state.records) :]
    finishing = max(
        (step.number for step in ahead if zone in step.zones and new.keys() & step.targets and _is_hot(step)),
        default=0,
    )
    # The last drift, and what is filed after it, keep what they leave to each other and to the haft.
    targets = tuple(
        NewTarget(
            step.number, name, _moved(wanted, wanted.nominal + new[name].nominal - limits[name].nominal)
        )
        for step in ahead
        if zone in step.zones
        for name, wanted in step.targets.items()
        if name in new and (step.number >= finishing or wanted == limits[name])
    )
    return Amendment(limits=tuple(NewLimits(zone, name, told) for name, told in new.items()), targets=targets)


def _is_hot(step: Step) -> bool:
    return not operation(step.operation).FIXES


def _moved(limits: Limits, nominal: float) -> Limits:
    by = nominal - limits.nominal
    return Limits(nominal, limits.low + by, limits.high + by, stated=True)


def eye_asked_for(state: JobState, asked: HaftAsked, system: System) -> EyeForHaft:
    """What a haft asks of the eye, before anything is entered; raises Refusal."""
    eye = eye_for(asked, system)
    zone = the_eye(state)
    drawn = state.plan.recipe.drawing[zone]
    depth_mm = drawn.limits[drawn.shape.options.get("through", "thickness")].nominal
    return EyeForHaft(
        zone=zone,
        hole_length=eye.hole_length,
        hole_width=eye.hole_width,
        reasons=eye.reasons,
        seat_when=eye.seat_when,
        kerf_depth=mm(kerf_depth_mm(depth_mm)),
        steps=tuple(sorted({target.step for target in amendment_for(state, eye).targets})),
    )


def haft_fitted(state: JobState, asked: HaftAsked, system: System) -> WayBackTaken:
    """The entry of an eye that is worked to a haft from now on; raises Refusal."""
    eye = eye_asked_for(state, asked, system)
    step = state.step
    return WayBackTaken(
        name="fit-the-haft",
        title=say("Fit the {} to a haft of {}", eye.zone, asked.size.strip()[:30]),
        changes=eye.words,
        step=step.number if step is not None else 0,
        amendment=amendment_for(state, eye_for(asked, system)),
    )
