"""Weighs sections: what is bent, turned, rolled or headed has the section of the bar that it is made of."""

from __future__ import annotations

from math import ceil, dist, hypot, inf, pi, prod, sqrt
from typing import Final, NamedTuple

from coach.forms import Form, Loop, form_kind, listed
from coach.forms.flat import Flat
from coach.forms.fork import Fork
from coach.forms.ring import Ring
from coach.forms.twisted_bar import TwistedBar
from coach.forms.twisted_taper import TwistedTaper
from coach.forms.uneven_fork import UnevenFork
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan, finished_form
from coach.ledger.weigh_sizes import more_metal
from coach.ledger.working import reshapes
from coach.operations import Does, operation, operations
from coach.operations.does import Cause
from coach.quantities import NOTHING, Words, mm, run_on, say

#: A section may be so far beside its bar's, as a share, or by the limits that it is asked for with where they
#: are wider: what the bar's own tolerance and a light dressing make of it (judgement).
_BESIDE_SHARE: Final = 0.05
#: A step whose own scale takes more than this share says what to forge it to before that (our choice).
_SCALED_SHARE: Final = 0.03
#: A section is told up to a tenth of a millimetre, but for rounding (our choice).
_TENTH_MM: Final = 0.1
_SAME_SHARE: Final = 0.05
#: So many times as long as its bar a corner may become in a twist: one turn in a little more than the side
#: of a square bar. Tight twists take a turn in one and a half to two sides (common practice, no source);
#: beyond those the furrow closes and the bar twists off at its hottest place (judgement).
_STRETCHED_AT_MOST: Final = 4.0
#: What a section is called by the corners of its outline, and the most that one with corners has (by
#: definition).
_CALLED: Final = {6: "hexagon ", 8: "octagon "}
_CORNERS_AT_MOST, _RECTANGLE = 8, 4
_SIDES: Final = 2  # of a rectangle are told (by definition)


class Section(NamedTuple):
    """A section of a bar."""

    called: str  # "round ", "hexagon "…; empty for a rectangle
    across_mm: tuple[float, ...]  # the larger first
    ends_mm: tuple[float, ...] = ()  # the same at its far end, where that differs

    @property
    def words(self) -> Words:
        """As a recipe says it."""
        end = run_on((say(" to "), _across(self.ends_mm)), "") if self.ends_mm else NOTHING
        return run_on((say(self.called), _across(self.across_mm), end), "")

    @property
    def all_mm(self) -> tuple[float, ...]:
        """Its sizes at both ends."""
        return (*self.across_mm, *(self.ends_mm or self.across_mm))

    @property
    def turned(self) -> Section:
        """It with its ends exchanged."""
        return self._replace(across_mm=self.ends_mm, ends_mm=self.across_mm) if self.ends_mm else self


def _across(sizes_mm: tuple[float, ...]) -> Words:
    alike = len(sizes_mm) == 2 and abs(sizes_mm[0] - sizes_mm[1]) <= 1e-9 * sizes_mm[0]
    if alike:
        return say("square {}", mm(sizes_mm[0]))
    return run_on((say("{}", mm(one)) for one in sizes_mm), " × ")


def section_of(form: Form) -> Section:
    """The section of a straight bar, or of the one that something was bent from: first at its neighbour."""
    bar = form.unbent() or form
    called, start = _sized(bar.section(0.0).outline)
    _, end = _sized(bar.section(bar.length_mm).outline)
    if form.OPENS_AT_START:
        start, end = end, start
    differs = any(abs(one - other) > 1e-9 * one for one, other in zip(start, end, strict=True))
    return Section(called, start, end if differs else ())


def _sized(loop: Loop) -> tuple[str, tuple[float, ...]]:
    wide, thick = (max(one) - min(one) for one in zip(*loop, strict=True))
    if len(loop) == _RECTANGLE:
        return "", (max(wide, thick), min(wide, thick))
    called = _CALLED.get(len(loop), "") if len(loop) <= _CORNERS_AT_MOST else "round "
    return called, (min(wide, thick),)


def twisted_off(stage: Stage) -> Words | None:
    """A twist that stretches the bar's corner further than hot metal follows."""
    after = stage.form_after
    if stage.zone not in stage.step.zones or not isinstance(after, TwistedBar | TwistedTaper):
        return None
    if not reshapes(stage.step, stage.zone) or isinstance(stage.form_before, TwistedBar | TwistedTaper):
        return None
    bar = after.unbent()
    ends = (bar.section(0.0).outline, bar.section(bar.length_mm).outline)
    corner_mm = max(2.0 * dist(point, (0.0, 0.0)) for outline in ends for point in outline)
    stretched = hypot(1.0, pi * corner_mm / after.turn_mm)
    if stretched <= _STRETCHED_AT_MOST:
        return None
    return say(
        "one turn in {} makes a corner {} times as long as the bar: it tears, and the bar twists off. Give "
        "one turn {} or more.",
        mm(after.turn_mm),
        f"{stretched:.2g}",
        mm(pi * corner_mm / sqrt(_STRETCHED_AT_MOST**2 - 1.0)),
    )


def other_section(plan: Plan, stage: Stage) -> Words | None:
    """What is made of a bar that has not its section, and is neither drawn nor gathered to it on the way.

    Nor is what opens at the free end of its piece made of a bar that tapers the other way.
    """
    step, after = stage.step, stage.form_after
    todo = operation(step.operation)
    if stage.zone not in step.zones or not reshapes(step, stage.zone) or after.unbent() is None:
        return None
    if not todo.KEEPS_SECTION:
        return _bent_by_no_bend(stage) if stage.form_before.KIND != after.KIND else None
    have, wanted = section_of(stage.form_before), section_of(after)
    slack_mm = _slack_mm(stage, wanted)
    if have.called == wanted.called and _is_made(have, wanted, slack_mm):
        opens_beside = after.OPENS_AT_START and len(plan.recipe.piece_of(stage.zone).finished_zones) > 1
        if not opens_beside or _is_near(have.all_mm, wanted, slack_mm):
            return None
        return say(_EXCHANGED, stage.zone, have.words, have.turned.words)
    if lies_on_its_face(plan, stage):
        return say(_ON_ITS_FACE, stage.zone, *map(mm, have.across_mm), *map(mm, reversed(have.across_mm)))
    cure = _tines_there(plan, stage) or _more_than_there(plan, stage, wanted)
    return say(
        "{} is {} there, and it is made of {}: {}; {}.",
        stage.zone,
        have.words,
        wanted.words,
        todo.KEEPS_SECTION,
        cure or say(_THINNER, _before_scale(stage, wanted).words),
    )


def _more_than_there(plan: Plan, stage: Stage, wanted: Section) -> Words | None:
    """What helps where the bar has not the metal across it for a section; None where it is drawn to it."""
    have = section_of(stage.form_before)
    if min(wanted.across_mm) > min(have.across_mm) * (1.0 + _BESIDE_SHARE):
        return more_metal(stage)
    bar = stage.form_after.unbent()
    assert bar is not None
    there_mm2, wanted_mm2 = (
        max(one.section(at_mm).area_mm2 for at_mm in (0.0, one.length_mm)) for one in (stage.form_before, bar)
    )
    if wanted_mm2 <= there_mm2 * (1.0 + _BESIDE_SHARE):
        return None
    drawn = [
        one for one in plan.stages[stage.zone] if one.step.number < stage.step.number and _asks_across(one)
    ]
    if drawn:
        words = "step {}, {}, leaves too little across for that: ask for {} there, and begin with as much"
        return say(words, drawn[-1].step.number, drawn[-1].step.title, wanted.words)
    largest = max((one for one in (wanted.across_mm, wanted.ends_mm) if one), key=prod)
    return say(
        "it has too little metal across for that: begin with {}", Section(wanted.called, largest).words
    )


def _asks_across(stage: Stage) -> bool:
    """Whether a step works a bar to a section that it says."""
    return reshapes(stage.step, stage.zone) and not stage.step.targets.keys().isdisjoint(_ACROSS)


def _tines_there(plan: Plan, stage: Stage) -> Words | None:
    """How wide a chisel leaves the tines, where they are drawn in a step after it; None elsewhere."""
    after, before = stage.form_after, stage.form_before
    if not isinstance(after, Fork | UnevenFork) or isinstance(before, Fork | UnevenFork):
        return None
    draws = (
        one.step.number > stage.step.number
        and reshapes(one.step, stage.zone)
        and one.step.does(Does.HAMMERS_A_SECTION)
        for one in plan.stages[stage.zone]
    )
    if not any(draws):
        return None
    wide = [point[0] for point in before.section(0.0).outline]
    left_mm = (max(wide) - min(wide)) * (1.0 - _scaled_share(stage))
    if isinstance(after, Fork):
        return say("say there how wide it leaves them, tine {}", mm(_to_tenth(left_mm / 2.0)))
    tine_mm = _to_tenth(left_mm * after.tine_mm / (after.tine_mm + after.other_tine_mm))
    words = "say there how wide it leaves them, tine {}, other tine {}"
    return say(words, mm(tine_mm), mm(_to_tenth(left_mm - tine_mm)))


def _to_tenth(size_mm: float) -> float:
    return round(size_mm / _TENTH_MM) * _TENTH_MM


def lies_on_its_face(plan: Plan, stage: Stage) -> bool:
    """Whether a ring is drawn of its bar on edge, and its bar is told as one that is bent on its face."""
    if form_kind(plan.recipe.drawing[stage.zone].shape.kind) is not Ring:
        return False
    drawn, bar = finished_form(plan.recipe, stage.zone), section_of(stage.form_before).across_mm
    if not isinstance(drawn, Ring) or not isinstance(stage.form_before, Flat) or len(bar) != _SIDES:
        return False
    before, after = stage.form_before.sizes_mm(), drawn.unbent().sizes_mm()
    turned = before["width"] > before["thickness"] and after["width"] < after["thickness"]
    return turned and is_section(section_of(stage.form_before), section_of(drawn))


_ON_ITS_FACE: Final = (
    "{} is drawn as a ring of its bar on edge, and its bar is written {} × {}: the first size of a ring's "
    "bar is its wall. Write it {} x {}."
)
_EXCHANGED: Final = (
    "{} is {} there, and so it would open where it meets its neighbour: are its two ends exchanged? "
    "Make it {} in a step before this. The first size is where it meets its neighbour."
)


def drawn_by_piercing(stage: Stage) -> Words | None:
    """A bar that comes plainly smaller across out of a step that only punches a row of holes through it."""
    if not stage.step.does(Does.PIERCES) or stage.zone not in stage.step.zones:
        return None
    have, wanted = section_of(stage.form_before), section_of(stage.form_after)
    pairs = zip(have.across_mm, wanted.across_mm, strict=False)
    if all(one >= has * (1.0 - _BESIDE_SHARE) for has, one in pairs):
        return None
    return say(
        "{} is {} there, and is to come out {}: to {} draws no bar; {}.",
        *(stage.zone, have.words, wanted.words, stage.step.operation, say(_THINNER, wanted.words)),
    )


def made_up_for_scale(stage: Stage) -> Words | None:
    """What to forge before a step whose own fire takes more off than its section stands; None elsewhere."""
    if not operation(stage.step.operation).KEEPS_SECTION or _scaled_share(stage) <= _SCALED_SHARE:
        return None
    if stage.form_after.unbent() is None:
        return None
    wanted = _before_scale(stage, section_of(stage.form_after))
    return say("its fire takes so much off that it is forged to {} in a step before this", wanted.words)


def _scaled_share(stage: Stage) -> float:
    return stage.taken_mm3.get(Cause.SCALE, 0.0) / stage.before_mm3


def _before_scale(stage: Stage, wanted: Section) -> Section:
    """A section as thick as it must be for what the scale of the step itself takes, where that is much."""
    share = _scaled_share(stage)
    if share <= _SCALED_SHARE or len(wanted.across_mm) == 1:
        return wanted
    if isinstance(stage.form_after, Fork | UnevenFork) and "thickness" not in stage.step.targets:
        return _as_wide_before(stage, share)
    thick_mm = [one[-1] / (1.0 - share) for one in (wanted.across_mm, wanted.ends_mm) if one]
    across, *ends = [ceil(one / _TENTH_MM - _SAME_SHARE) * _TENTH_MM for one in thick_mm]
    return wanted._replace(
        across_mm=(wanted.across_mm[0], across),
        ends_mm=(wanted.ends_mm[0], ends[0]) if ends else (),
    )


def _as_wide_before(stage: Stage, share: float) -> Section:
    """What is split to tines of a stated width keeps its thickness: the scale must leave it its width."""
    bar = stage.form_after.unbent()
    assert bar is not None
    sizes, thick_mm = bar.sizes_mm(), section_of(stage.form_before).across_mm[-1]
    near, far = (
        (ceil(sizes[one] / (1.0 - share) / _TENTH_MM - _SAME_SHARE) * _TENTH_MM, thick_mm)
        for one in ("width", "end_width")
    )
    return Section("", near, far if far != near else ())


_THINNER: Final = "forge it to {} in a step before this"


def is_section(have: Section, wanted: Section) -> bool:
    """Whether a bar has a section, but for what its own tolerance makes of it."""
    slack_mm = tuple(_BESIDE_SHARE * one for one in wanted.all_mm)
    return have.called == wanted.called and _is_made(have, wanted, slack_mm)


def _is_made(have: Section, wanted: Section, slack_mm: tuple[float, ...]) -> bool:
    """Whether the bar is what is asked for, or is it the other way about."""
    return any(_is_near(one.all_mm, wanted, slack_mm) for one in (have, have.turned))


def _is_near(sizes_mm: tuple[float, ...], wanted: Section, slack_mm: tuple[float, ...]) -> bool:
    return all(
        abs(one - other) <= slack for one, other, slack in zip(sizes_mm, wanted.all_mm, slack_mm, strict=True)
    )


def _slack_mm(stage: Stage, wanted: Section) -> tuple[float, ...]:
    """How far each size of the section may be off: by the limits that the step asks for it with."""
    form = stage.form_after
    bar = form.unbent()
    assert bar is not None
    sizes, off = bar.sizes_mm(), dict.fromkeys(bar.DIMENSIONS, 0.0)
    for name, limits in stage.step.targets.items():
        if name not in form.DIMENSIONS:
            continue
        most = dict.fromkeys(sizes, 0.0)
        for size_mm in (limits.low, limits.high):
            if size_mm <= 0.0 or size_mm == inf:
                continue
            other = form.with_sizes({name: size_mm}).unbent()
            assert other is not None
            most = {one: max(far, abs(other.size_mm(one) - sizes[one])) for one, far in most.items()}
        off = {one: far + most[one] for one, far in off.items()}
    across = sorted((one for one in sizes if one in _ACROSS), key=lambda one: -sizes[one])
    ends = [f"end_{one}" if f"end_{one}" in sizes else one for one in across]
    names = (*ends, *across) if form.OPENS_AT_START else (*across, *ends)
    pairs = zip(wanted.all_mm, names, strict=True)
    return tuple(max(_BESIDE_SHARE * size, off[one]) for size, one in pairs)


#: What a straight bar is measured across by.
_ACROSS: Final = ("width", "thickness", "diameter")


def _bent_by_no_bend(stage: Stage) -> Words:
    """A bar that an operation is to curl, turn or head that does no such thing."""
    kind = stage.form_after.KIND
    able = [name for name, one in operations().items() if one.KEEPS_SECTION and kind == one.FORM]
    able = able or [
        name
        for name, one in operations().items()
        if one.KEEPS_SECTION and one.FORM is None and Does.ON_EDGE not in one.DOES
    ]
    if operation(stage.step.operation).DOES & {Does.CLOSES}:
        return say(
            "to {} makes no {} of a bar: {} it to one in a step before, as in {}: {}, {}.",
            *(stage.step.operation, kind, listed(able, "or"), able[0], stage.zone, kind),
        )
    return say(
        "to {} makes no {} of a bar: give it its section, {}, there, and {} it in a step of its own.",
        *(stage.step.operation, kind, section_of(stage.form_after).words, listed(able, "or")),
    )
