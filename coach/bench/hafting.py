"""The eye worked to a haft that is there: from the wood as measured to the sizes of the drift."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from coach.bench.entering import EntryFault
from coach.bench.file_amended import A_MARK_MOVES_MM
from coach.bench.job_state import JobState
from coach.bench.standing import Standing
from coach.bench.stood import Stood
from coach.finish.haft import (
    USUAL_FIT_MM,
    EyeFor,
    MeasuredHaft,
    Oval,
    eye_for_haft,
    kerf_depth_mm,
    wood_called,
)
from coach.ledger.amendment import Amendment, NewLimits, NewTarget
from coach.ledger.remedies.accept import LEAST_SHARE, MOST_SHARE
from coach.ledger.verdict import PlanState
from coach.log.kinds.way_back import WayBackTaken
from coach.operations import operation
from coach.operations.measures import MARK
from coach.quantities import NOTHING, Figure, Limits, Words, mm, read_length_mm, run_on, say
from coach.quantities.units import System
from coach.recipe.model import ZoneDrawing
from coach.reckoner.asking.reading import NotReckoned, read_two_sizes_mm
from coach.reckoner.haft import read_moisture, read_rings

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
    cheek: Figure | None  # how thick each cheek is then, at the drawn size across; `null` where none is left
    cheek_drawn: Figure | None  # the same by the drawing as it is now
    steps: tuple[int, ...]  # the steps ahead that will work to it
    cannot: Words = NOTHING  # why the job could not be worked to it; empty when it could
    fitted: Stood | None = None  # how it would stand then; `null` where it cannot be
    is_worse: bool = False  # whether that is called worse than it is now

    @property
    def words(self) -> Words:
        """What to drift the eye to."""
        return say("Drift the {} to {} × {}.", self.zone, self.hole_length, self.hole_width)


def _eye_for(asked: HaftAsked, system: System) -> EyeFor:
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


def _percent(told: str, what: str) -> float:
    try:
        return read_moisture(told)
    except NotReckoned as error:
        raise EntryFault("The {} of the wood: {}", what, error.words) from None


def _the_eye(drawing: Mapping[str, ZoneDrawing]) -> str:
    """The one eyed zone of a drawing; raises EntryFault where there is none or more than one."""
    eyes = [zone for zone, drawn in drawing.items() if drawn.shape.kind == "eyed"]
    if len(eyes) != 1:
        raise EntryFault(
            "This job's drawing has no eye for a haft."
            if not eyes
            else f"This job has several eyes, {', '.join(eyes)}: only one can be fitted to a haft here."
        )
    return eyes[0]


def _amendment(state: JobState, zone: str, eye: EyeFor) -> Amendment:
    """What fitting the eye to a haft changes: its finished mouths, and every step ahead that works to them.

    Each mouth keeps its limits about its new size, and the far mouth is as much wider than the near one as
    the drawing has it.
    """
    recipe = state.plan.as_written
    limits = recipe.drawing[zone].limits
    new: dict[str, Limits] = {}
    for name, size in (("hole_length", eye.hole_length), ("hole_width", eye.hole_width)):
        far = f"far_{name}"
        new[name] = _moved(limits[name], size.value)
        new[far] = _moved(limits[far], size.value + limits[far].nominal - limits[name].nominal)
    ahead = recipe.steps[len(state.records) :]
    hot = (step for step in ahead if zone in step.zones and not operation(step.operation).FIXES)
    finishing = max((step.number for step in hot if new.keys() & step.targets), default=0)
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


def _moved(limits: Limits, nominal: float) -> Limits:
    by = nominal - limits.nominal
    return Limits(nominal, limits.low + by, limits.high + by, stated=True)


def _cheek(drawn: ZoneDrawing, hole_mm: float) -> Figure | None:
    """How thick either cheek is halfway between the mouths, the near one of this width; None for nothing."""
    limits, through = drawn.limits, drawn.shape.options.get("through", "thickness")
    across = limits.get("width" if through == "thickness" else "thickness")
    if across is None:
        return None
    flare_mm = limits["far_hole_width"].nominal - limits["hole_width"].nominal
    cheek_mm = 0.5 * (across.nominal - hole_mm - 0.5 * flare_mm)
    return mm(cheek_mm) if cheek_mm > 0.0 else None


def fitting(state: JobState, asked: HaftAsked, system: System) -> tuple[EyeForHaft, WayBackTaken]:
    """What a haft asks of the eye, and the entry by which it is worked to it from now on; raises Refusal."""
    drawing, step = state.plan.recipe.drawing, state.step
    eye = _eye_for(asked, system)
    zone = _the_eye(drawing)
    limits, shape = drawing[zone].limits, drawing[zone].shape
    depth_mm = limits[shape.options.get("through", "thickness")].nominal
    amendment = _amendment(state, zone, eye)
    told = EyeForHaft(
        zone=zone,
        hole_length=eye.hole_length,
        hole_width=eye.hole_width,
        reasons=eye.reasons,
        seat_when=eye.seat_when,
        kerf_depth=mm(kerf_depth_mm(depth_mm)),
        cheek=_cheek(drawing[zone], eye.hole_width.value),
        cheek_drawn=_cheek(drawing[zone], limits["hole_width"].nominal),
        steps=tuple(sorted({target.step for target in amendment.targets})),
        cannot=_is_another_tool(asked, eye, state.plan.as_written.drawing[zone].limits),
    )
    return told, WayBackTaken(
        name=WayBackTaken.TO_HAFT,
        title=say("Fit the {} to a haft of {}", zone, asked.size.strip()[:30]),
        changes=told.words,
        caution=NOTHING,
        step=step.number if step is not None else 0,
        amendment=amendment,
    )


def with_marks(told: Words, before: Standing, after: Standing) -> Words:
    """What was changed, and the marks of the step in hand that are to be made elsewhere by it."""
    was = {one.name: one.wanted.limits.nominal for one in before.checks if one.wanted is not None}
    moved = (
        say("{} at {}, was {}", one.zone, mm(one.wanted.limits.nominal), mm(was[one.name]))
        for one in after.checks
        if one.dimension == MARK and one.is_open and one.wanted is not None and one.name in was
        if abs(one.wanted.limits.nominal - was[one.name]) >= A_MARK_MOVES_MM
    )
    places = run_on(moved, "; ")
    return run_on((told, say("The marks lie elsewhere by it: {}.", places) if places else NOTHING), " ")


def _is_another_tool(asked: HaftAsked, eye: EyeFor, limits: Mapping[str, Limits]) -> Words:
    """Why no eye of a drawing is worked to a haft that it has no room for; nothing where it has."""
    for name, size, way in (("hole_length", eye.hole_length, "long"), ("hole_width", eye.hole_width, "wide")):
        drawn_mm = limits[name].nominal
        if not LEAST_SHARE * drawn_mm <= size.value <= MOST_SHARE * drawn_mm:
            return say(
                "A haft of {} wants an eye {} {}, where the drawing has {}: that is another tool. Take a "
                "haft that is nearer to the eye drawn, or begin a recipe with such an eye",
                *(asked.size.strip()[:30], size, way, mm(drawn_mm)),
            )
    return NOTHING


def fitted_eye(eye: EyeForHaft, now: Standing, then: Standing) -> EyeForHaft:
    """What a haft asks of the eye, with how the job stands `then`, once it works to that."""
    called = list(PlanState)
    return eye._replace(
        fitted=Stood.of(then),
        is_worse=called.index(then.verdict) > called.index(now.verdict),
    )
