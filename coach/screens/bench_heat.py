"""What the bench says to the anvil where the heat is what counts: at a weld and at a treatment."""

from __future__ import annotations

from contextlib import suppress
from textwrap import wrap

from coach.bench.checks import Check
from coach.bench.in_turn import (
    failed_in_fire,
    in_turn,
    is_in_fire_again,
    is_to_quench_now,
    made_in_fire,
    off_its_heat_c,
    waits_for_quench,
)
from coach.bench.standing import Standing
from coach.bench.step import StepToDo
from coach.fire.colours import COLOUR_DOUBT_C
from coach.fire.glow import FIRST_GLOW_C, glow_rgb
from coach.ledger.judging import LITTLE_OVER_C
from coach.ledger.verdict import Verdict
from coach.operations.does import Does, HeatKind
from coach.quantities.figure import Figure, Kind
from coach.quantities.refusal import OutOfRange
from coach.screens.widgets.face import Block, Column, Weight
from coach.telling.figures import write_figure, write_wanted
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
    return ahead or is_in_fire_again(standing) or waits_for_quench(standing)


def _not_now(standing: Standing, *, in_fire: bool) -> Block | None:
    """What comes before the quench by what was entered last; None where nothing does.

    Overheated steel is not quenched at all, and what still pulls a magnet only hotter.
    """
    over_c = max(map(off_its_heat_c, standing.checks), default=0.0)
    if 0.0 < over_c <= LITTLE_OVER_C and not in_fire:
        rows = ("let it fall to", "its heat, out of", "the fire, read", "it, then quench")
        return Block("a little hot", lines=rows, narrow=("hot", "let it fall"))
    if over_c > 0.0:
        rows = ("do not quench:", "air till black,", "normalise,", "heat it again")
        return Block("too hot", lines=rows, narrow=("too hot", ""))
    where = ("in the fire", "in fire") if in_fire else ("back to the fire", "to the fire")
    for test in standing.checks:
        if (failed := failed_in_fire(test)) is not None:
            first = "a shade brighter," if failed is Verdict.OUT else "soak it longer,"
            rows = (first, f"then {own_name(test)}:", "1 pass 2 doubt", "3 fail")
            return Block(where[0], lines=rows, narrow=(where[1], ""))
    if any(off_its_heat_c(one) < 0.0 for one in standing.checks) and not in_fire:
        return Block(where[0], lines=("too cold to", "quench: hotter"), narrow=(where[1], ""))
    if standing.sent_back and not in_fire:
        return Block(where[0], lines=("soaked too short", "to be quenched"), narrow=(where[1], ""))
    return None


def _bites(test: Check) -> bool:
    """Whether a test says that the quench did not take."""
    tried = test.kind is Kind.TEST and not test.is_open and test.verdict is Verdict.OUT
    return tried and Does.QUENCHES in test.test.mended_by


def heat_block(step: StepToDo, shown: Shown, heats: int = 0) -> Block:
    """The heat that a weld or a treatment is done at, once so many heats of it are marked."""
    assert step.temperature is not None
    each = step.temperatures
    hot = each[min(heats, len(each) - 1)] if each else step.temperature
    glow = glow_of(hot.value) if hot.value >= FIRST_GLOW_C else None
    number = write_figure(hot, shown, "n")
    unit = write_figure(hot, shown).removeprefix(number).strip()
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
    in_fire = is_in_fire_again(standing)
    if step.quench and (first := _not_now(standing, in_fire=in_fire)) is not None:
        return first
    if step.quench and not in_fire and any(map(_bites, standing.checks)):
        again = ("grind a spot,", "try it again; if", "it bites harden", "it anew")
        return Block("soft", lines=again, narrow=("soft", "try again"))
    is_out = is_to_quench_now(standing)
    if in_fire and (check is None or not (made_in_fire(check) and check.is_open)):
        rows = (*_in_rows(_soaked(step, shown)), "then F2, quench:", step.quench)
        return Block("in the fire", lines=rows, narrow=("in fire", ""))
    if is_out or (step.quench and check is not None and not made_in_fire(check)):
        told = ["quench now:" if is_out else "quench it:", step.quench, *_tried_after(standing, check)]
        label = "out of the fire" if is_out else "then"
        narrow = ("now" if is_out else "", "")
        return Block(label, lines=tuple(row for one in told for row in _in_rows(one)), narrow=narrow)
    if check is not None and check.kind is Kind.TEST:
        if step.quench:
            label, narrow = f"first: {own_name(check)}", (own_name(check), "then quench")
            soak = _soaked(step, shown) if any(one.dimension == "soak" for one in step.targets) else ""
            return Block(label, lines=RESULTS, caption=soak or "then quench it", narrow=narrow)
        if not told:
            return Block(own_name(check), lines=RESULTS)
        told += [f"{check.label}:", "1 pass 2 doubt", "3 fail"]
    elif check is not None:
        told += ["then measure", check.label]
    elif step.quench:
        told += [f"then {step.quench}"]
    rows = tuple(row for one in told for row in _in_rows(one))
    return Block("then", lines=rows) if rows else Block()


def _soaked(step: StepToDo, shown: Shown) -> str:
    """What is done in the fire: the soak that is wanted, or as the colour says."""
    soak = next((one.wanted for one in step.targets if one.dimension == "soak"), None)
    return f"soak {write_wanted(soak, shown)}" if soak is not None else "even all through,"


def _tried_after(standing: Standing, check: Check | None) -> list[str]:
    """What is tried once a piece is quenched: the chosen size or else the first; never the magnet."""
    after = [one for one in in_turn(standing) if one.is_open and not made_in_fire(one)]
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
