"""What the bench says to the anvil where the heat is what counts: at a weld and at a treatment."""

from __future__ import annotations

from contextlib import suppress
from textwrap import wrap

from coach.bench.checks import Check
from coach.bench.standing import Standing
from coach.bench.step import StepToDo
from coach.fire.colours import COLOUR_DOUBT_C
from coach.fire.glow import glow_rgb
from coach.operations.does import HeatKind
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities.figure import Figure, Kind
from coach.quantities.refusal import OutOfRange
from coach.screens.widgets.face import Block, Column, Weight
from coach.telling.figures import write_figure
from coach.telling.writing import Shown

#: Cells that words in the place of a figure may take.
_WORDS_WIDE = 16
#: What a test is answered with.
RESULTS = ("1 pass", "2 doubt", "3 fail")


def is_at_its_heat(standing: Standing, step: StepToDo, *, still_runs: bool) -> bool:
    """Whether the heat is what counts now, rather than a size: a weld or a treatment that is still ahead.

    `still_runs` is whether the clock of a heat goes and its time is not up.
    """
    if step.temperature is None or step.heat_kind not in (HeatKind.WELDING, HeatKind.TREATMENT):
        return False
    ahead = standing.heats < step.heats_planned or still_runs
    return ahead or _quenches_now(standing)


def _quenches_now(standing: Standing) -> bool:
    """Whether the heat is taken and nothing was tried since: out of the fire means quench now."""
    step = standing.step
    if step is None or not step.quench or not standing.heats:
        return False
    return all(one.reading is None or one.reading.old or made_in_fire(one) for one in standing.checks)


def made_in_fire(check: Check) -> bool:
    """Whether it is read or tried while the metal heats, before any quench."""
    return (
        check.kind is Kind.TIME
        or check.kind is Kind.TEMPERATURE
        or (check.kind is Kind.TEST and SHOP_TESTS[check.dimension].as_it_heats)
    )


def heat_block(step: StepToDo, shown: Shown) -> Block:
    """The heat that a weld or a treatment is done at."""
    assert step.temperature is not None
    glow = glow_of(step.temperature.value)
    number = write_figure(step.temperature, shown, "n")
    unit = write_figure(step.temperature, shown).removeprefix(number).strip()
    caption = step.quench if step.heat_kind is HeatKind.TREATMENT else ""
    narrow = ""
    welds = step.hot.welds if step.hot is not None else None
    if welds is not None and welds.burns_above is not None:
        at = _burns_at(step.temperature, welds.burns_above, shown)
        caption, narrow = f"{at} burns {welds.burns_first}", f"{at} burns"
    return Block(
        step.colour.partition(" on the ")[0] or ", ".join(step.zones),
        number,
        last=unit,
        lines=(f"{number} {unit}",),
        caption=caption,
        weight=Weight.HEAVY,
        column=Column(glow) if glow is not None else None,
        narrow=("", narrow),
    )


def _burns_at(heat: Figure, burns_above: Figure, shown: Shown) -> str:
    """Where it burns; nearer to the heat than an eye tells heats apart, how near that is."""
    above = burns_above.value - heat.value
    if not 0.0 < above < COLOUR_DOUBT_C:
        return write_figure(burns_above, shown, "n")
    return f"+{write_figure(Figure(above, Kind.TEMPERATURE_CHANGE), shown)}"


def then_block(standing: Standing, check: Check | None, shown: Shown) -> Block:
    """What goes with that heat: the least that welds, or the test that is made in it."""
    step = standing.step
    assert step is not None
    welds = step.hot.welds if step.hot is not None else None
    if welds is not None and welds.low is not None:
        number = write_figure(welds.low, shown, "n")
        glow = Column(glow_of(welds.low.value))
        return Block(f"{welds.low_set_by}, at least", number, column=glow, narrow=("least", ""))
    name = standing.heat_name
    told = [f"for the {name}"] if name else []
    is_out = standing.heats >= step.heats_planned and _quenches_now(standing)
    if is_out or (step.quench and check is not None and not made_in_fire(check)):
        told = ["quench now:" if is_out else "quench it:", step.quench, *_tried_after(standing, check)]
        label = "out of the fire" if is_out else "then"
        return Block(label, lines=tuple(row for one in told for row in _in_rows(one)))
    if check is not None and check.kind is Kind.TEST:
        if step.quench:
            label, narrow = f"first: {own_name(check)}", (own_name(check), "then quench")
            return Block(label, lines=RESULTS, caption="then quench it", narrow=narrow)
        if not told:
            return Block(own_name(check), lines=RESULTS)
        told += [f"{check.label}:", "1 pass 2 doubt", "3 fail"]
    elif check is not None:
        told += ["then measure", check.label]
    elif step.quench:
        told += [f"then {step.quench}"]
    rows = tuple(row for one in told for row in _in_rows(one))
    return Block("then", lines=rows) if rows else Block()


def _tried_after(standing: Standing, check: Check | None) -> list[str]:
    """What is tried once a piece is quenched: the chosen size or else the first; never the magnet."""
    after = [one for one in standing.checks if one.is_open and not made_in_fire(one)]
    chosen = check if check in after else next(iter(after), None)
    return [f"then {own_name(chosen)}"] if chosen is not None else []


def own_name(check: Check) -> str:
    """A size or a test without its zone."""
    return check.label.removeprefix(f"{check.zone} ")


def glow_of(celsius: float | None) -> tuple[int, int, int] | None:
    """The colour of metal at so many °C; None where it does not glow or nothing is known."""
    with suppress(OutOfRange):
        return glow_rgb(celsius) if celsius is not None else None
    return None


def _in_rows(text: str) -> list[str]:
    """A text in rows that a block has room for."""
    return wrap(text, _WORDS_WIDE, break_long_words=False, break_on_hyphens=False)
