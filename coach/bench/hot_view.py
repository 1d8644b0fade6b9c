"""What the fire says of a step, in the shop's words: how long it can be worked, and how it is drawn."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from coach.bench.replay import JobState, seconds_between
from coach.bench.standing import ClockView, HotView
from coach.fire.blows import power_hammer
from coach.fire.colours import colour_name
from coach.fire.how_to_draw import cautions, how_to
from coach.fire.limits import too_cold
from coach.fire.passes import Rectangle, draw
from coach.ledger.hot_work import HotWork, Reckoned, grades_in, heats_by, hot_work, soak_minutes
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.running import coefficient, published_coefficient, undressed_mm
from coach.operations import operation
from coach.operations.does import HeatKind
from coach.quantities import Shown, write_length, write_temperature
from coach.quantities.refusal import OutOfRange
from coach.quantities.words import run_on
from coach.recipe.model import Step
from coach.telling.words import write

#: A power hammer to set beside the hand: a light one, such as stands in small shops.
_RAM_KG = 25.0
#: Planned and reckoned heats are both told when one is more than so many times the other.
_TOLD_APART = 2
#: An edge that runs less than this share beyond its size needs no word.
_RUNS_WIDE = 1.03
#: A longer absence from the fire is no heat in hand any more.
_LONGEST_OUT_S = 1800.0


def hot_view(plan: Plan, step: Step, shown: Shown, spread_offset: float = 0.0) -> HotView | None:
    """What the fire says of a step; None for cold work and for treatments."""
    hot = hot_work(plan, step)
    if hot is None:
        return None
    hand = heats_by(plan, step, hot)
    power = heats_by(plan, step, hot, power_hammer(_RAM_KG))
    return HotView(
        start_c=hot.start_c,
        stop_c=hot.stop_c,
        working_seconds=hot.seconds,
        text=_working_text(hot, shown),
        blows=hand.blows if hand else None,
        heats=hand.heats if hand else None,
        power_heats=power.heats if power else None,
        advice=tuple(_advice(plan, step, hot, (hand, power), shown, spread_offset)),
    )


def _working_text(hot: HotWork, shown: Shown) -> str:
    down_to = f"{write_temperature(hot.stop_c, shown)}, {colour_name(hot.stop_c)}"
    if hot.seconds is None:
        return f"back to the fire at {down_to}"
    return (
        f"{'at least' if hot.at_least else 'about'} {duration_text(hot.seconds)} of work, down to {down_to}"
    )


def duration_text(seconds: float) -> str:
    """A short time as a smith counts it: 4 s, 35 s, 2 min.

    >>> [duration_text(s) for s in (3.6, 48.0, 130.0)]
    ['4 s', '50 s', '2 min']
    """
    if seconds < 20.0:
        return f"{max(round(seconds), 1)} s"
    if seconds < 100.0:
        return f"{5 * round(seconds / 5.0)} s"
    return f"{round(seconds / 60.0)} min"


def _advice(
    plan: Plan,
    step: Step,
    hot: HotWork,
    reckoned: tuple[Reckoned | None, Reckoned | None],
    shown: Shown,
    offset: float,
) -> Iterator[str]:
    if hot.burns:
        at = write_temperature(hot.start_c, shown)
        yield f"{at} burns {hot.burns}: what throws sparks is lost and must be cut off."
    elif hot.together is not None and (_too_hot(hot) or step.heat_kind is HeatKind.WELDING):
        yield write(hot.together.sentence, shown)
    for metal in grades_in(plan, step):
        if metal.name == "wrought iron" and step.heat_kind is HeatKind.FORGING:
            yield write(too_cold(metal).sentence, shown)
    hand, power = reckoned
    if hand is not None and step.heats:
        most, least = max(hand.heats, step.heats), min(hand.heats, step.heats)
        if most > _TOLD_APART * max(least, 1):
            by_power = f", {power.heats} with a {_RAM_KG:.0f} kg ram" if power else ""
            yield (
                f"{step.heats} heats are planned; by the work it is about {hand.heats} by hand "
                f"({hand.blows} blows, ±50 %){by_power}."
            )
    for zone in step.zones:
        stage = plan.by_step[step.number].get(zone)
        if stage is not None and operation(step.operation).BITE_SHARE is not None:
            yield from _drawing_advice(step, stage, shown, offset)


def _too_hot(hot: HotWork) -> bool:
    ceiling = hot.together.ceiling_c if hot.together is not None else None
    return ceiling is not None and ceiling < hot.start_c


def _drawing_advice(step: Step, stage: Stage, shown: Shown, offset: float) -> Iterator[str]:
    have, leaves = stage.form_before.sizes_mm(), stage.form_after.sizes_mm()
    wide = undressed_mm(step, stage.after.shape, have, leaves, offset)
    for name, run_mm in wide.items():
        if run_mm > _RUNS_WIDE * leaves[name]:
            end = name.removesuffix("width").replace("_", " ")
            yield (
                f"Let be, the {end}width runs to about {write_length(run_mm, shown)}: dress the edges back "
                f"to {write_length(leaves[name], shown)} as you go."
            )
    start, target = _section(have), _section(leaves)
    if start is None or target is None or "length" not in have:
        return
    published = published_coefficient(step, start.width_mm)
    bite = step.amounts.get("bite_mm", (operation(step.operation).BITE_SHARE or 0.5) * start.width_mm)
    try:
        drawing = draw(
            start,
            target,
            bite,
            length_mm=have["length"],
            coefficient=None if published is None else coefficient(published, offset),
        )
        yield write(run_on(how_to(drawing)), shown)
        yield from (write(caution.sentence, shown) for caution in cautions(drawing))
    except OutOfRange:
        return


def _section(sizes: dict[str, float]) -> Rectangle | None:
    """The section that turning and bites are told for: that of a bar, at its middle where it tapers."""
    if "side" in sizes:
        return Rectangle(sizes["side"], sizes["side"])
    if not {"width", "thickness"} <= sizes.keys() or "hole_width" in sizes:
        return None
    wide = 0.5 * (sizes["width"] + sizes.get("end_width", sizes["width"]))
    thick = 0.5 * (sizes["thickness"] + sizes.get("end_thickness", sizes["thickness"]))
    return Rectangle(wide, thick)


def clock_view(state: JobState) -> ClockView | None:
    """Where the piece is by the clock; None when nothing was said of the fire, or the step has none."""
    step = state.step
    if step is None or not (state.in_at or (state.out_at and state.heats)):
        return None
    hot = hot_work(state.plan, step)
    if hot is None:
        return None
    cooling = tuple((p.seconds, p.surface_c) for p in hot.curve.points) if hot.curve is not None else ()
    minutes = None
    if state.in_at:
        from_c = 20.0
        if state.out_at and hot.curve is not None:
            away = seconds_between(state.out_at, state.in_at)
            if away < _LONGEST_OUT_S:
                from_c = hot.curve.at(away).middle_c
        minutes = soak_minutes(hot.section, hot.start_c, 50.0 * round(from_c / 50.0))
    return ClockView(
        place="in the fire" if state.in_at else "out of the fire",
        since=state.in_at or state.out_at,
        start_c=hot.start_c,
        stop_c=hot.stop_c,
        working_seconds=hot.seconds,
        cooling=cooling,
        soak_minutes=minutes,
        soak_text="" if minutes is None else f"{max(ceil(minutes), 1)} min",
    )
