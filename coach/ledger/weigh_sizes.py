"""Weighs the sizes of a recipe: bar too short, gathered too long, steel off its seat, asked too fine."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import ceil
from typing import Final, NamedTuple

from coach.fire.upsetting import FREE_LENGTHS
from coach.forms import listed, said
from coach.forms.uneven_fork import UnevenFork
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan, PlannedPiece
from coach.ledger.reading import Reading, cold_reading
from coach.ledger.remedies.upset import MOST_LENGTHS
from coach.ledger.upset_heats import ACROSS, heats_to_upset
from coach.ledger.working import fixed_free_mm, reshapes, targets_of
from coach.operations import Does, operation
from coach.operations.gauges import FINEST, by_gauge
from coach.quantities import COVERAGE, NOTHING, Apart, Figure, Limits, Wanted, Words, mm, run_on, say
from coach.recipe.model import Step

#: A free size that is asked for may be missed by this share before it is told: what scale takes (judgement).
_SAME_SHARE: Final = 0.005
#: Steel may stand over its seat by this share and so many mm, and fall short of it across by that
#: (judgement).
_OVER_SHARE, _SHORT_SHARE, _SLACK_MM = 0.10, 0.15, 1.0
#: How far the shares of two branches may be apart before it is told: 5 % of the whole (judgement).
_SHARE_APART: Final = 0.05
#: The same of zones that are split from one (judgement).
_SHARE_APART_OF_ZONES: Final = 0.01
#: A tolerance that can be reached is told up to a tenth of a millimetre (our choice).
_TENTH_MM: Final = 0.1


def too_short(plan: Plan, piece: PlannedPiece) -> Words | None:
    """What a bar in hand lacks of its job; None where it suffices or nothing is said of it.

    Of a row of pieces that are taken from one bar, what it lacks of all of them.
    """
    if piece.bar is None or piece.left_over is None or piece.left_over.value >= 0.0:
        return None
    rows = (tuple(one.piece for one in row.pieces) for row in plan.rows)
    row = next((row for row in rows if piece.piece in row), ())
    needed = piece.bar._replace(value=piece.bar.value - piece.left_over.value)
    told = say(
        "The bar for {} is too short: it is {} long and the job needs {}, so {} is missing.",
        listed(row or (piece.piece,)),
        piece.bar,
        needed,
        Apart(needed, piece.bar),
    )
    fewer = _fewer(plan, row, piece.bar)
    return say("{} {}.", told, fewer) if fewer else told


def _fewer(plan: Plan, row: Sequence[str], bar: Figure) -> Words:
    """How many of the pieces of a row, all alike, a bar is enough for; nothing where it is for none."""
    lengths = [plan.pieces[one].length.value for one in row]
    if len(lengths) < 2 or max(lengths) - min(lengths) > _TENTH_MM:
        return NOTHING
    enough = int(bar.value / max(lengths))
    if not 0 < enough < len(lengths):
        return NOTHING
    return say("It is enough for {} of them, {} of it", enough, mm(enough * max(lengths)))


def first_step_on(plan: Plan, piece: str) -> int:
    """The first step that does anything with a piece; 0 where none does."""
    zones = set(plan.recipe.pieces[piece].zones)
    return next((step.number for step in plan.recipe.steps if zones & {*step.zones, *step.heated}), 0)


def split_otherwise(stage: Stage) -> Words | None:
    """Two branches of one split that are to have other shares of its metal than they were split to."""
    before, after = stage.form_before, stage.form_after
    if not (isinstance(before, UnevenFork) and isinstance(after, UnevenFork)):
        return None
    if abs(after.share - before.share) <= _SHARE_APART:
        return None
    wide_mm = before.tine_mm + before.other_tine_mm
    return say(
        "The split gave the first branch of {} {} of its metal, and this asks for {}: split it {} from the "
        "edge.",
        stage.zone,
        f"{100 * before.share:.0f} %",
        f"{100 * after.share:.0f} %",
        mm(wide_mm * after.share),
    )


def fitting_shares(plan: Plan, zone: str, dimension: str) -> Words:
    """What shares of a split the drawings of its branches want, where one comes out too long or too short."""
    piece = plan.recipe.piece_of(zone)
    whole = piece.split_from(zone)
    if whole is None or dimension != plan.stages[zone][-1].after.free:
        return NOTHING
    needs = {
        one.zone: plan.start_mm3[one.zone] * plan.wanted_mm3[one.zone] / plan.stages[one.zone][-1].after_mm3
        for one in piece.branches[whole]
    }
    fit = {name: needed / sum(needs.values()) for name, needed in needs.items()}
    if all(abs(one.share - fit[one.zone]) < _SHARE_APART_OF_ZONES for one in piece.branches[whole]):
        return NOTHING
    told = (say("{} {}", name, f"{100 * share:.0f} %") for name, share in fit.items())
    return say("By their drawings {} is split into {}.", whole, run_on(told, " and "))


def not_made(plan: Plan, stage: Stage) -> Words | None:
    """A size asked of a step that follows from the metal, and that the metal does not make there."""
    step, zone, free = stage.step, stage.zone, stage.after.free
    wanted = step.targets.get(free) if zone in step.zones else None
    made_mm = stage.form_after.sizes_mm().get(free)
    if wanted is None or made_mm is None or not reshapes(step, zone):
        return None
    if fixed_free_mm(step, stage.after) is not None or free in operation(step.operation).EXTRAS:
        return None
    if wanted == plan.recipe.drawing[zone].limits.get(free):
        return None  # the drawing's, which the last step is held against
    slack = _SAME_SHARE * made_mm
    if wanted.low - slack <= made_mm <= wanted.high + slack:
        return None
    follows = free != "length" and step.free in (None, free) and "length" in stage.after.shape.dimensions
    return say(
        "it asks for a {} of {}, and of the metal that {} has there comes {}: {}leave that size out, or ask "
        "for what comes.",
        *(said(free), Wanted(wanted), zone, mm(made_mm)),
        "write long free there where its length is to follow, " if follows else "",
    )


def driven_too_long(stage: Stage) -> Words | None:
    """An upset of more length than stands free in so many heats, or of a rod that folds anyhow.

    Source: Forging Industry Association, undated, `coach.fire.upsetting` (confirmed).
    """
    step, sizes = stage.step, stage.form_before.sizes_mm()
    upsets = operation(step.operation).GATHERS and step.does(Does.HAMMERS_A_SECTION)
    thick_mm = min((sizes[name] for name in ACROSS if name in sizes), default=0.0)
    if not upsets or stage.zone not in step.zones or "length" not in sizes or thick_mm <= 0.0:
        return None
    long_mm, free_mm = sizes["length"], FREE_LENGTHS * thick_mm
    if long_mm > MOST_LENGTHS * thick_mm:
        return say(
            "{} of bar {} thick is to be driven up: what is over {} times as long as thick folds wherever it "
            "is hottest. Take heavier stock, or forge the rest down from it.",
            *(mm(long_mm), mm(thick_mm), f"{MOST_LENGTHS:.0f}"),
        )
    needed = heats_to_upset(stage)
    if step.heats >= needed:
        return None
    return say(
        "{} of bar {} thick is to be driven up in {}: in one heat no more than {}, {} thicknesses, stands "
        "without bending. Plan {} or more, each on its own part, or take heavier stock.",
        *(mm(long_mm), mm(thick_mm), _heats(step.heats), mm(free_mm), f"{FREE_LENGTHS}", _heats(needed)),
    )


def all_proud(step: Step) -> Words | None:
    """A haft that is to stand out of its eye by as much as it is long, or more; None where it is not."""
    long, proud = step.targets.get("haft_length"), step.targets.get("proud")
    if long is None or proud is None or proud.nominal < long.nominal:
        return None
    return say(
        "the haft is {} long and is to stand {} proud of its eye: nothing of it is left to hold.",
        *(mm(long.nominal), mm(proud.nominal)),
    )


def can_be_upset(stage: Stage) -> bool:
    """Whether what is there before a step is short enough to be driven up without folding."""
    sizes = stage.form_before.sizes_mm()
    thick_mm = min((sizes[name] for name in ACROSS if name in sizes), default=0.0)
    return "length" in sizes and sizes["length"] <= MOST_LENGTHS * thick_mm


def more_metal(stage: Stage) -> Words:
    """How a section that is larger than its bar's is come by: an upset only of what stands one."""
    if can_be_upset(stage):
        heats = _heats(heats_to_upset(stage))
        return say("upset it first, or take heavier stock; the upset wants {} or more", heats)
    sizes = stage.form_before.sizes_mm()
    thick_mm = min((sizes[name] for name in ACROSS if name in sizes), default=0.0)
    if "length" not in sizes or not thick_mm:
        return say("take heavier stock")
    return say(
        "take heavier stock, for {} of bar {} thick folds when it is driven up",
        *(mm(sizes["length"]), mm(thick_mm)),
    )


def _heats(number: int) -> str:
    return "1 heat" if number == 1 else f"{number} heats"


def off_its_seat(plan: Plan, step: Step) -> Words | None:
    """Steel that is larger than what it is laid on, or too narrow for it; None where it fits.

    On a face it may lie on the end or along a side, and need not reach along the whole of that.
    """
    laid = _laid(plan, step)
    if laid is None:
        return None
    zone, (name, wide_mm, steel, host, seats, *_) = step.zones[0], laid
    if "inset_mm" in step.amounts:
        seat_mm = max([host.get("end_width", 0.0), *seats])
        if _covers(wide_mm, seat_mm):
            return None
        told = "the {} is {} wide and the cleft of {} is {}: {}."
        return say(told, name, mm(wide_mm), zone, mm(seat_mm), _cure(wide_mm, seat_mm))
    outlines = [(wide_mm, steel["length"]), (steel["length"], wide_mm)]
    outlines += [] if "width" in steel else [(wide_mm, wide_mm)]
    ends = [(max(seats), min(seats)), (min(seats), max(seats))]
    ends += (
        [(host["end_width"], host["end_thickness"])]
        if "end_thickness" in host and "end_width" in host
        else []
    )
    on_end = any(_covers(a, c) and _covers(b, d) for a, b in outlines for c, d in ends)
    along = any(_covers(a, c) and not _is_over(b, host["length"]) for a, b in outlines for c in seats)
    if on_end or along:
        return None
    cure: Words | str = _cure(max(wide_mm, steel["length"]), max(seats))
    if (longest_mm := longest_on_seat_mm(plan, step)) is not None:
        words = "cut it to {} at the most, for it is drawn out with {} afterwards, or weld it on later"
        cure = say(words, mm(longest_mm), zone)
    return say(
        "the {} is {} × {} where it lies, and {} is {} × {} on its end and {} long: {}.",
        *(name, mm(wide_mm), mm(steel["length"]), zone, mm(max(seats)), mm(min(seats))),
        *(mm(host["length"]), cure),
    )


def longest_on_seat_mm(plan: Plan, step: Step) -> float | None:
    """How long steel may be at most where a step lays it along a face, in mm; None where it is no longer.

    What its zone is drawn to afterwards is made of both: each mm off the steel leaves so much more of the bar
    that it lies on, until the two are as long (arithmetic: what they hold together stays).
    """
    laid = _laid(plan, step)
    if laid is None or "inset_mm" in step.amounts:
        return None
    steel_mm, seat_mm = laid.steel["length"], laid.host["length"]
    if not _is_over(steel_mm, seat_mm) or _is_over(laid.wide_mm, max(laid.seats)):
        return None
    together_mm2 = laid.steel_mm2 + laid.host_mm2
    return (steel_mm * laid.steel_mm2 + seat_mm * laid.host_mm2) / together_mm2 if together_mm2 else seat_mm


class _Laid(NamedTuple):
    """Steel and what a step lays it on, as both are there, mm."""

    name: str
    wide_mm: float
    steel: Mapping[str, float]  # its sizes
    host: Mapping[str, float]
    seats: list[float]  # what the host is across
    steel_mm2: float  # the section of each, as it is on average
    host_mm2: float


def _laid(plan: Plan, step: Step) -> _Laid | None:
    """None where a step lays nothing, or either of the two has no length or nothing across."""
    if step.lays is None:
        return None
    way = plan.stages[step.lays]
    host_form = plan.by_step[step.number][step.zones[0]].form_before
    steel_form = way[-1].form_after if way else plan.bar_of(step.lays)
    host, steel = host_form.sizes_mm(), steel_form.sizes_mm()
    across = [steel[name] for name in ("width", "side", "diameter", "across_flats") if name in steel]
    seats = [host[name] for name in ACROSS if name in host]
    if not across or not seats or "length" not in host or "length" not in steel:
        return None
    mm2 = [form.volume_mm3() / max(form.sizes_mm()["length"], 1e-9) for form in (steel_form, host_form)]
    return _Laid(step.lays, across[0], steel, host, seats, *mm2)


def _is_over(size_mm: float, seat_mm: float) -> bool:
    return size_mm > seat_mm * (1.0 + _OVER_SHARE) + _SLACK_MM


def _covers(size_mm: float, seat_mm: float) -> bool:
    return not _is_over(size_mm, seat_mm) and size_mm >= seat_mm * (1.0 - _SHORT_SHARE) - _SLACK_MM


def _cure(size_mm: float, seat_mm: float) -> str:
    if size_mm > seat_mm:
        return "forge or cut it to what it lies on, or take the seat wider"
    return "what it leaves bare stays iron; take it as wide as what it lies on"


def too_fine(plan: Plan) -> Iterator[tuple[int, str, Words]]:
    """Limits that no gauge of the shop can tell on forged metal: the step, the zone and what is wrong.

    A size is inside for sure when its reading lies within the limits less what the reading may be off, which
    must leave something (ISO 14253-1:2017, as in `coach.ledger.verdict.judge`).
    """
    for zone, drawing in plan.recipe.drawing.items():
        asked = [
            (stage.step.number, name, stage.step.targets[name])
            for stage in plan.stages[zone]
            for name in targets_of(stage.step, zone)
        ]
        told = set()
        for name, limits in drawing.limits.items():  # also where a step aims beside it, for its scale
            if words := _too_fine(zone, name, limits):
                told.add((name, round(limits.high - limits.low, 6)))
                yield next((number for number, one, _ in asked if one == name), 0), zone, words
        for number, name, limits in asked:
            if (name, round(limits.high - limits.low, 6)) in told:
                continue
            if words := _too_fine(zone, name, limits):
                told.add((name, round(limits.high - limits.low, 6)))
                yield number, zone, words


def _too_fine(zone: str, dimension: str, limits: Limits) -> Words | None:
    if not limits.stated or not limits.is_two_sided:
        return None
    guard_mm = COVERAGE * cold_reading(Reading(zone, dimension, limits.nominal, FINEST)).doubt_mm
    if limits.high - limits.low >= 2.0 * guard_mm:
        return None
    reached_mm = ceil(guard_mm / _TENTH_MM) * _TENTH_MM
    return say(
        "The {} of {}, {}, is held closer than can be told of forged metal {}: ±{} can be reached.",
        *(said(dimension), zone, Wanted(limits), by_gauge(FINEST), mm(reached_mm)),
    )
