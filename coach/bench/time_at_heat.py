"""What the fire says of a step: how long it can be worked, how many heats that makes, and how it is drawn."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from functools import partial
from math import inf
from typing import Final, NamedTuple

from coach.fire.blows import COUNT_DOUBT_SHARE, BlowsAndHeats, power_hammer
from coach.fire.colours import HEAT_COLOURS
from coach.fire.how_to_draw import (
    cautions_along,
    cautions_in_hand,
    flat_only,
    fullered_in,
    how_to,
    on_edge_too_far,
)
from coach.fire.limits import HeatsInCommon, burns_above, too_cold
from coach.fire.passes import FLAT_FROM, Rectangle, draw
from coach.fire.upsetting import FREE_LENGTHS, STRAIGHTEN_FROM
from coach.ledger.hot_work import HotWork, grades_in, heats_by, hot_work
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.running import coefficient, published_coefficient, undressed_mm
from coach.ledger.weigh_narrowed import is_brought_in
from coach.metals.grade_file import Grade
from coach.operations import Does, operation
from coach.operations.does import HeatKind
from coach.quantities.figure import COVERAGE, Figure, Kind, celsius, mm
from coach.quantities.refusal import OutOfRange
from coach.quantities.words import Words, run_on, say
from coach.recipe.model import Step

#: A power hammer to set beside the hand: a light one, such as stands in small shops (judgement).
_RAM_KG = 25.0
#: No face and no peen of a hand hammer bites longer (common practice, no source).
_HAND_BITE_MM = 40.0
#: Planned and reckoned heats are both told when one is more than so many times the other (our choice).
_TOLD_APART = 2
#: An edge that runs less than this share beyond its size needs no word (judgement).
_RUNS_WIDE = 1.03
#: Brought in to less than this share of its width, a bar is not dressed back any more (judgement).
_FAR_IN_SHARE = 0.5
#: How well it is known how far (common practice, no source).
_RUN_DOUBT_SHARE = 0.05


#: How far along a taper its ends are, by what they are called where something is told of them alone
#: (our choice).
_ENDS: Final = {"where it begins": 0.0, "at its end": 1.0}

#: A welding heat this short is for the first blows alone (judgement).
_FIRST_BLOWS_S = 5.0


class WeldHeats(NamedTuple):
    """Between which heats the metals of a weld take."""

    low: Figure | None  # the least that all of them weld at; None where no heat suits them all
    low_set_by: str  # the metal that asks for it
    burns_above: Figure | None  # above it the first of them must be feared to burn
    burns_first: str  # that metal


class TimeAtHeat(NamedTuple):
    """How long a step's metal can be worked, and what else the fire says of the step."""

    start: Figure  # as it leaves the fire
    stop: Figure  # back to the fire at this
    stop_colour: str  # the colour it has then
    working: Figure | None  # how long it can be worked; None where that cannot be told
    blows: Figure | None  # of a hand hammer, for the whole step; None where that cannot be reckoned
    heats: Figure | None  # that they make by hand
    power_heats: Figure | None  # with a power hammer of 25 kg
    welds: WeldHeats | None  # None where nothing is welded
    advice: tuple[Words, ...]


def time_at_heat(
    plan: Plan, step: Step, spread_offset: float, worked_back: Collection[str] = ()
) -> TimeAtHeat | None:
    """What the fire says of a step; None for cold work and for treatments.

    `spread_offset` is that of the shop's own spread coefficient from the published one. Of zones that a way
    back has `worked_back` in this step nothing is told that begins with the bar as it came to the step.
    """
    hot = hot_work(plan, step)
    if hot is None:
        return None
    hand, power = None, None
    if not {*worked_back} & {*step.zones}:
        hand, power = heats_by(plan, step, hot), heats_by(plan, step, hot, power_hammer(_RAM_KG))
    together = hot.together
    welds = WeldHeats(together.low, together.low_set_by, *_burns_first(grades_in(plan, step)))
    return TimeAtHeat(
        start=celsius(hot.start_c),
        stop=celsius(hot.stop_c),
        stop_colour=HEAT_COLOURS.name_of(hot.stop_c),
        working=hot.working,
        blows=_count(hand.blows) if hand else None,
        heats=_count(hand.heats) if hand else None,
        power_heats=_count(power.heats) if power else None,
        welds=welds if step.heat_kind is HeatKind.WELDING else None,
        advice=tuple(_advice(plan, step, hot, (hand, power), spread_offset, worked_back)),
    )


def _burns_first(grades: Iterable[Grade]) -> tuple[Figure | None, str]:
    """Above which heat the first of some metals must be feared to burn, and its name; None, "" if unknown."""
    known = ((burns_above(one, inf), one.name) for one in grades)
    found = [(limit, name) for limit, name in known if limit is not None]
    return min(found, key=lambda one: one[0].value, default=(None, ""))


def _count(number: int) -> Figure:
    return Figure(number, Kind.COUNT, COUNT_DOUBT_SHARE / COVERAGE * number)


def _advice(
    plan: Plan,
    step: Step,
    hot: HotWork,
    reckoned: tuple[BlowsAndHeats | None, BlowsAndHeats | None],
    offset: float,
    worked_back: Collection[str],
) -> Iterator[Words]:
    if hot.burns:
        yield say(
            "{} burns {}: what throws sparks is lost and must be cut off.", celsius(hot.start_c), hot.burns
        )
    elif step.heat_kind is HeatKind.WELDING:
        yield _weld_heat(hot, hot.together, step)
        joins = _welds(step) or step.again
        if joins and hot.working is not None and hot.working.value <= _FIRST_BLOWS_S:
            yield say(
                "The joint's rim is that hot for {:~}, so set it with the first blows. Its inside holds "
                "longer; a side that is open after them takes another heat.",
                hot.working,
            )
    elif hot.together.ceiling is None:
        taken = say("What is told here is that of carbon steel, down to {}.", celsius(hot.stop_c))
        yield run_on((hot.together.sentence, taken))
    elif hot.together.ceiling.value < hot.start_c:
        yield hot.together.sentence
    for metal in grades_in(plan, step):
        if metal.name == "wrought iron" and step.heat_kind is HeatKind.FORGING:
            cold = too_cold(metal)
            light = cold.back_below is not None and hot.stop_c < cold.back_below.value
            if light and cold.stop_below is not None:
                yield say("Not one blow below {}: the fibres of {} split.", cold.stop_below, metal.name)
            else:
                yield cold.sentence
    hand, power = reckoned
    if hand is not None and step.heats:
        most, least = max(hand.heats, step.heats), min(hand.heats, step.heats)
        if most > _TOLD_APART * max(least, 1):
            yield _other_heats(step, hand, power)
    for zone in (one for one in step.zones if one not in worked_back):
        stage = plan.by_step[step.number].get(zone)
        upsets = operation(step.operation).GATHERS and step.does(Does.HAMMERS_A_SECTION)
        if stage is not None and upsets:
            yield from _upset_advice(stage)
        if stage is not None and operation(step.operation).BITE_SHARE is not None:
            yield from _drawing_advice(step, stage, offset)


def _welds(step: Step) -> bool:
    return step.does(Does.JOINS) or step.does(Does.CLOSES)


def _weld_heat(hot: HotWork, together: HeatsInCommon, step: Step) -> Words:
    """At what heat two metals weld, where the step says another, in the light of that."""
    low, ceiling = together.low, together.ceiling
    if low is None and ceiling is not None and hot.start_c < ceiling.value:
        return say(
            "No welding heat suits them all: at {} with borax, with the heat on the {} and the {}, which "
            "stands no more than {}, kept back from it.",
            *(celsius(hot.start_c), together.low_set_by, together.high_set_by, ceiling),
        )
    if low is not None and hot.start_c < low.value and not _welds(step):
        return say("At {} it only holds: the weld that follows wants at least {}.", celsius(hot.start_c), low)
    return together.sentence


def _other_heats(step: Step, hand: BlowsAndHeats, power: BlowsAndHeats | None) -> Words:
    by_power = say("; with a {} kg ram, {:~}", f"{_RAM_KG:.0f}", _count(power.heats)) if power else ""
    return say(
        "{} heats are planned; by the work it is {:~}, by hand, in {:~} blows{}.",
        step.heats,
        _count(hand.heats),
        _count(hand.blows),
        by_power,
    )


def _upset_advice(stage: Stage) -> Iterator[Words]:
    """How much of a bar may stand free as it is driven up."""
    sizes = stage.form_before.sizes_mm()
    across = [
        size for name, size in sizes.items() if name in ("side", "diameter", "thickness", "across_flats")
    ]
    if not across or "length" not in sizes:
        return
    free = sizes["length"] / min(across)
    if free > FREE_LENGTHS:
        yield say(
            "{} stand free on a thickness of {}, {} times that; more than {} times bends instead of "
            "thickening: heat {} at a time, cool the rest, and straighten at once what begins to bend.",
            mm(sizes["length"]),
            mm(min(across)),
            f"{free:.1f}",
            f"{FREE_LENGTHS}",
            mm(FREE_LENGTHS * min(across)),
        )
    elif free > STRAIGHTEN_FROM:
        yield say(
            "{} stand free on a thickness of {}: straighten often.", mm(sizes["length"]), mm(min(across))
        )


def _drawing_advice(step: Step, stage: Stage, offset: float) -> Iterator[Words]:
    have, leaves = stage.form_before.sizes_mm(), stage.form_after.sizes_mm()
    wide = undressed_mm(step, stage.after.shape, have, leaves, offset)
    for name, run_mm in wide.items():
        if run_mm > _RUNS_WIDE * leaves[name] and not (
            _is_turned(have, leaves, name) or _goes_far_in(have, leaves, name)
        ):
            end = name.removesuffix("width").replace("_", " ")
            yield say(
                "Let be, the {}width runs to about {}: dress the edges back to {} as you go.",
                end,
                mm(run_mm, _RUN_DOUBT_SHARE * run_mm),
                mm(leaves[name]),
            )
    start, target = _section(have), _section(leaves)
    if start is None or target is None or "length" not in have:
        return
    published = published_coefficient(step, start.width_mm)
    usual = min((operation(step.operation).BITE_SHARE or 0.5) * start.width_mm, _HAND_BITE_MM)
    bite = min(step.amounts.get("bite_mm", usual), have["length"])
    drawn = partial(
        draw,
        bite_mm=bite,
        length_mm=have["length"],
        coefficient=None if published is None else coefficient(published, offset),
    )
    try:
        drawing = drawn(start, target)
        tapers = any(name.startswith("end_") for name in leaves)
        middle = ("By the section in its middle:",) if tapers else ()
        if on_edge_too_far(drawing):
            # As it becomes lying flat; what is brought in from its edges is no thinner by that.
            thinner = target.height_mm < start.height_mm and not is_brought_in(have, leaves)
            how = flat_only(start.height_mm, target.height_mm) if thinner else fullered_in(start)
            yield run_on((*middle, how))
            return
        yield run_on((*middle, *how_to(drawing, leaves.get("length"))))
        if not tapers:
            yield from (caution.sentence for caution in cautions_in_hand(drawing))
            return
        ends = {}
        for where, share in _ENDS.items():
            begins, ends_as = _section(have, share), _section(leaves, share)
            if begins is not None and ends_as is not None:
                ends[where] = drawn(begins, ends_as)
        yield from (caution.sentence for caution in cautions_along(drawing, ends))
    except OutOfRange:
        return


def _goes_far_in(have: dict[str, float], leaves: dict[str, float], wide: str) -> bool:
    """Whether a width comes out at less than half of what it was: what runs wide is the least of that."""
    return leaves[wide] < _FAR_IN_SHARE * have.get(wide, have.get("width", 0.0))


def _is_turned(have: dict[str, float], leaves: dict[str, float], wide: str) -> bool:
    """Whether a bar is drawn from about square to about square: turned a quarter, it does not run wide."""
    across_mm, thick_mm = leaves[wide], leaves.get(wide.replace("width", "thickness"), 0.0)
    start = _section(have)
    return start is not None and max(start) <= FLAT_FROM * min(start) and across_mm <= FLAT_FROM * thick_mm


def _section(sizes: dict[str, float], along: float = 0.5) -> Rectangle | None:
    """The section that turning and bites are told for: that of a bar, at its middle where it tapers.

    Of a taper `along` may be another share of its length, from its first sizes on.
    """
    if "side" in sizes:
        return Rectangle(sizes["side"], sizes["side"])
    if not {"width", "thickness"} <= sizes.keys() or "hole_width" in sizes:
        return None
    wide, thick = (
        (1.0 - along) * sizes[name] + along * sizes.get(f"end_{name}", sizes[name])
        for name in ("width", "thickness")
    )
    return Rectangle(wide, thick)
