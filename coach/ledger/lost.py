"""Metal that is gone without a step having taken it: what it changes of the account."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import hypot, sqrt
from typing import NamedTuple

from coach.forms import Form
from coach.ledger.amendment import Amendment, Moved, Regained, TakenBack
from coach.ledger.course import Course
from coach.ledger.half_way import HalfWay, half_way
from coach.ledger.lip import as_bar_mm
from coach.ledger.plan import Plan
from coach.ledger.shortening import shorter
from coach.ledger.steel_at_end import steel_gone_mm3
from coach.ledger.working import LedgerError, piece_density_g_mm3, reshapes
from coach.ledger.workpiece import Workpiece, volume_name
from coach.quantities import COVERAGE, Figure, Words, grams, mm, say
from coach.recipe.model import Step

_END = "end_"
#: How well what is gone is known, as a share of it, and how well a length (common practice, no source).
_DOUBT_SHARE, _CUT_MM = 0.1, 1.0
#: A corner that burnt off is a triangle no nearer than that, as a share of it: it may be eaten in, or round
#: (judgement).
_CORNER_SHARE = 0.2
#: No more of a zone than this can go and leave a zone (judgement).
_MOST_SHARE = 0.9
#: How well the section is known where an end came off, as a share of each size (common practice, no source).
_SCATTER_SHARE = 0.02
#: A length is found to a ten-thousandth of the zone's (our choice).
_HALVINGS = 14
_LEFT_HALF_WAY = (
    "about {} of the {} is left, by the heats that it has had: how much went hangs on how far it was drawn, "
    "so measure what is there"
)


class Lost(NamedTuple):
    """What is gone of a zone: a length off its end, or else a weight."""

    zone: str
    length_mm: float = 0.0
    mass_g: float = 0.0
    at_start: bool = False  # of a zone with two free ends: the one that the bar's marks begin at
    off_end: bool = False  # of a weight: whether it went off the end, as what burns does
    corner_mm: tuple[float, float] | None = None  # of a corner: along the end, and along the side


class Loss(NamedTuple):
    """What that changes."""

    amendment: Amendment
    mass: Figure  # of the metal that is gone
    left: Words  # what is left of the zone


def loss_of(plan: Plan, course: Course | None, finished: Workpiece, lost: Lost) -> Loss:
    """What so much less metal changes of the account, in the step in hand or, None, of the finished tool.

    A step that is not begun has shaped nothing yet: what is gone is gone of the zone as it lay before.
    Raises LedgerError where the zone cannot have lost it.
    """
    if course is None:
        return _loss(plan, finished, _of_its_lip(plan, None, finished, lost))
    if course.is_begun or course.heats or not reshapes(course.step, lost.zone):
        lost = _of_its_lip(plan, course.step, course.now, lost)
        return _loss(plan, course.now, lost, half_way(plan, course, lost.zone))
    loss = _loss(plan, course.start, _of_its_lip(plan, course.step, course.start, lost))
    return loss._replace(amendment=loss.amendment._replace(regained=()))


def _of_its_lip(plan: Plan, step: Step | None, now: Workpiece, lost: Lost) -> Lost:
    """A length of an end that was scarfed as so much of the bar as it holds."""
    state = now.zones[lost.zone]
    if not (lost.length_mm and state.has_form and {"length", "thickness"} <= {*state.shape.dimensions}):
        return lost
    thick_mm = now.form(lost.zone).size_mm("thickness")
    return lost._replace(length_mm=as_bar_mm(plan, step, lost.zone, lost.length_mm, thick_mm))


def _loss(plan: Plan, now: Workpiece, lost: Lost, on_its_way: HalfWay | None = None) -> Loss:
    if lost.length_mm:
        return _off_the_end(plan, now, lost, on_its_way)
    if lost.corner_mm is not None:
        return _off_a_corner(plan, now, lost, lost.corner_mm, on_its_way)
    by_weight = _by_weight(plan, now, lost)
    length_mm = _length_of(plan, now, lost, on_its_way) if lost.off_end else 0.0
    if not length_mm:
        return by_weight
    off_end = _off_the_end(plan, now, lost._replace(length_mm=length_mm), on_its_way)
    amendment = off_end.amendment
    if on_its_way is not None:  # its weight is known, however far it was drawn
        amendment = amendment._replace(moved=_as_shared(by_weight.amendment.moved[0], amendment.moved))
    return Loss(amendment, by_weight.mass, by_weight.left)


def _as_shared(moved: Moved, like: Sequence[Moved]) -> tuple[Moved, ...]:
    """What is gone of a zone, shared out among it and its steel as other metal was."""
    share = moved.volume_mm3 / sum(one.volume_mm3 for one in like)
    return _shared(moved, {one.zone: -share * one.volume_mm3 for one in like[1:]})


def _length_of(plan: Plan, now: Workpiece, lost: Lost, on_its_way: HalfWay | None) -> float:
    """How much of a zone's end weighs so much, mm, where that runs out or holds steel; else 0.

    By the volume that stands there (elementary geometry).
    """
    state = now.zones[lost.zone]
    ends = [name for name in state.shape.dimensions if name.startswith(_END)]
    with_steel = len(state.parts) > 1
    if not (
        state.has_form and (ends or with_steel) and state.bare_ends[1] and "length" in state.shape.dimensions
    ):
        return 0.0
    form = now.form(lost.zone) if on_its_way is None else on_its_way.likely
    gone_mm3 = lost.mass_g / piece_density_g_mm3(plan.recipe.piece_of(lost.zone))
    length_mm = form.size_mm("length")
    least_mm, most_mm = 0.0, _MOST_SHARE * length_mm
    for _ in range(_HALVINGS):
        middle_mm = 0.5 * (least_mm + most_mm)
        left = form.with_sizes(shorter(form, middle_mm))
        least_mm, most_mm = (
            (middle_mm, most_mm)
            if form.volume_mm3() - left.volume_mm3() < gone_mm3
            else (least_mm, middle_mm)
        )
    return most_mm if most_mm < _MOST_SHARE * length_mm else 0.0


def _off_a_corner(
    plan: Plan, now: Workpiece, lost: Lost, corner_mm: tuple[float, float], on_its_way: HalfWay | None
) -> Loss:
    """A triangle, as thick as the zone is at its centroid, a third of its side from the end.

    By elementary geometry.
    """
    zone, state = lost.zone, now.zones[lost.zone]
    if not state.has_form:
        raise LedgerError(
            "{}: type what is lost of the {} by weight, such as 20 g.",
            *(state.where_it_is, zone if state.parts else state.instead),
        )
    sizes = (now.form(zone) if on_its_way is None else on_its_way.likely).sizes_mm()
    if (side_mm := sizes.get("side")) is not None:  # a square has corners as well
        sizes |= {"width": side_mm, "thickness": side_mm}
    if not {"thickness", "width", "length"} <= sizes.keys():
        told = "The {} has no width and thickness for a corner: type what is lost by weight, such as 20 g."
        raise LedgerError(told, zone)
    along_end, along_side = corner_mm
    at_start = state.bare_ends[0] and (lost.at_start or not state.bare_ends[1])
    if not (state.bare_ends[1] or at_start):
        told = "The {} has no free end with corners: type what is lost of it by weight, such as 20 g."
        raise LedgerError(told, zone)
    ends = {name: (sizes[name], sizes.get(f"{_END}{name}", sizes[name])) for name in ("width", "thickness")}
    (wide, _), (thick, thin) = (both if at_start else both[::-1] for both in ends.values())
    if along_end > wide or along_side > sizes["length"]:
        there = mm(wide), mm(sizes["length"])
        told = "The {} is {} wide at that end and {} long: a corner of it is no bigger."
        raise LedgerError(told, zone, *there)
    deep = thick + (thin - thick) * along_side / 3.0 / sizes["length"]
    gone_mm3 = 0.5 * along_end * along_side * deep
    by_weight = _by_weight(
        plan, now, lost._replace(mass_g=gone_mm3 * piece_density_g_mm3(plan.recipe.piece_of(zone)))
    )
    moved = tuple(one._replace(doubt_mm3=_CORNER_SHARE * gone_mm3) for one in by_weight.amendment.moved)
    mass = grams(by_weight.mass.value, _CORNER_SHARE * by_weight.mass.value)
    return by_weight._replace(amendment=Amendment(moved=moved), mass=mass)


def _off_the_end(plan: Plan, now: Workpiece, lost: Lost, on_its_way: HalfWay | None) -> Loss:
    """By similar triangles where the end runs out: what is left of it is thicker.

    Of one that is on its way by how far its heats have brought it: the bar is thick, what is drawn is not.
    """
    zone, state = lost.zone, now.zones[lost.zone]
    if not state.has_form:
        raise LedgerError(
            "{}: type a length of the {}'s end, or what is lost of the {} by weight, such as 20 g.",
            *(state.where_it_is, state.instead, zone if state.parts else state.instead),
        )
    at_start = state.bare_ends[0] and (lost.at_start or not state.bare_ends[1])
    if "length" not in state.shape.dimensions or not (state.bare_ends[1] or at_start):
        raise LedgerError(
            "The {} has no free end to lose a length of: type what is lost of it by weight, such as 20 g.",
            zone,
        )
    form = now.form(zone)
    sizes = form.sizes_mm()
    share = lost.length_mm / sizes["length"]
    if share > _MOST_SHARE:
        raise LedgerError(
            "The {} is {} long: so much of it cannot be lost and leave any; where the whole of it is gone, "
            "begin a new piece.",
            *(zone, mm(sizes["length"])),
        )
    after = shorter(form, lost.length_mm, at_start=at_start)
    follows = now.size(zone, state.free, form)  # and is as doubtful as the section that it follows from
    gone_mm3, section_share = _gone_mm3(form, lost, at_start=at_start), follows.doubt / follows.value
    if on_its_way is not None:
        gone_mm3, section_share = _gone_half_way(on_its_way, lost, at_start=at_start)
    doubt_mm3 = hypot(_DOUBT_SHARE, _CUT_MM / lost.length_mm, section_share) * gone_mm3
    regained = tuple(
        Regained(zone, name, size_mm, between_mm(now, zone, name, size_mm, share))
        for name, size_mm in after.items()
        if name != state.free
    )
    with_steel = len(state.parts) > 1 and not at_start
    density = piece_density_g_mm3(plan.recipe.piece_of(zone))
    left = say("about {} of the {}'s length is left", mm(after["length"]), zone)
    if on_its_way is not None:
        there_g = form.volume_mm3() * density
        left = say(_LEFT_HALF_WAY, grams(there_g - gone_mm3 * density, doubt_mm3 * density), zone)
    stands = form if on_its_way is None else on_its_way.likely
    steel = steel_gone_mm3(plan, now, zone, stands, lost.length_mm, gone_mm3) if with_steel else {}
    for part, part_mm3 in steel.items():
        part_density = piece_density_g_mm3(plan.recipe.piece_of(part))
        there_mm3 = now.belief.mean(volume_name(part)) - part_mm3
        left = say(
            "{}; {} of what is gone is {}, of which about {} is left",
            *(left, grams(part_mm3 * part_density), part, grams(there_mm3 * part_density)),
        )
    return Loss(
        Amendment(
            moved=_shared(Moved(zone, -gone_mm3, doubt_mm3), steel),
            regained=regained,
            taken_back=(TakenBack(zone, lost.length_mm),) if with_steel else (),
        ),
        grams(gone_mm3 * density, doubt_mm3 * density if on_its_way is not None else None),
        left,
    )


def _shared(moved: Moved, steel: Mapping[str, float]) -> tuple[Moved, ...]:
    """What is gone of a zone and of each steel in it, the doubt of all of it shared out among them."""
    all_mm3 = -moved.volume_mm3
    parts = {moved.zone: all_mm3 - sum(steel.values()), **steel}
    return tuple(
        Moved(part, -gone_mm3, moved.doubt_mm3 * sqrt(gone_mm3 / all_mm3)) for part, gone_mm3 in parts.items()
    )


def _gone_mm3(form: Form, lost: Lost, *, at_start: bool) -> float:
    """How much metal so much of a form's length is, where it has that much and something is left."""
    length_mm = min(lost.length_mm, _MOST_SHARE * form.size_mm("length"))
    return form.volume_mm3() - form.with_sizes(shorter(form, length_mm, at_start=at_start)).volume_mm3()


def _gone_half_way(on_its_way: HalfWay, lost: Lost, *, at_start: bool) -> tuple[float, float]:
    """How much metal is gone of a zone that is on its way, mm³, and its standard uncertainty as a share.

    That covers what it was before the step as well as what it is to be, as far as either may be.
    """
    likely, *others = (_gone_mm3(form, lost, at_start=at_start) for form in on_its_way)
    return likely, max(abs(other - likely) for other in others) / (COVERAGE * likely)


def as_known_then(now: Workpiece, amendment: Amendment) -> Amendment:
    """A loss of a step in hand, once that is done: its sizes are known as those they lie between.

    When it was entered they were still on their way, and doubted as such.
    """

    def no_more(one: Regained) -> Regained:
        there, start = now.zones[one.zone].shape.dimensions, one.dimension.removeprefix(_END)
        other = start if start != one.dimension else f"{_END}{start}"
        if one.dimension not in there or other not in there:
            return one
        known_mm = max(now.size(one.zone, name).doubt for name in (one.dimension, other))
        return one._replace(doubt_mm=min(one.doubt_mm, hypot(_SCATTER_SHARE * one.size_mm, known_mm)))

    return amendment._replace(regained=tuple(no_more(one) for one in amendment.regained))


def between_mm(now: Workpiece, zone: str, name: str, size_mm: float, share: float) -> float:
    """How well a size is known that lies where another was: no better than the sizes that it lies between."""
    before_mm = now.size(zone, name).doubt
    if name == "length":
        return hypot(_CUT_MM, before_mm)
    other = name.removeprefix(_END) if name.startswith(_END) else f"{_END}{name}"
    taken_mm = (1.0 - share) * before_mm + share * now.size(zone, other).doubt
    return hypot(_SCATTER_SHARE * size_mm, taken_mm)


def _by_weight(plan: Plan, now: Workpiece, lost: Lost) -> Loss:
    zone = lost.zone
    density = piece_density_g_mm3(plan.recipe.piece_of(zone))
    gone_mm3 = lost.mass_g / density
    there_g = sum(
        now.belief.mean(volume_name(part)) * piece_density_g_mm3(plan.recipe.piece_of(part))
        for part in now.zones[zone].parts or (zone,)
    )
    if gone_mm3 > _MOST_SHARE * now.belief.mean(volume_name(zone)):
        raise LedgerError(
            "The {} weighs about {}: so much of it cannot be lost and leave any; where the whole of it is "
            "gone, begin a new piece.",
            *(zone, grams(there_g)),
        )
    with_steel = " and its steel" if len(now.zones[zone].parts) > 1 else ""
    return Loss(
        Amendment(moved=(Moved(zone, -gone_mm3, _DOUBT_SHARE * gone_mm3),)),
        grams(lost.mass_g),
        say("about {} of the {}{} is left", grams(there_g - lost.mass_g), zone, with_steel),
    )
