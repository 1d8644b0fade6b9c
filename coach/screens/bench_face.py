"""What the bench says to the anvil: the aim, how far to go, the clock of the heat, and the verdict."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coach.bench.checks import Check
from coach.bench.clock import HeatClock, Place
from coach.bench.standing import Standing
from coach.bench.step import StepToDo
from coach.fire.colours import HEAT_COLOURS
from coach.ledger.verdict import PlanState
from coach.operations import operation
from coach.operations.does import Does, HeatKind
from coach.operations.measures import MARK
from coach.quantities.between import between
from coach.quantities.figure import Figure, Kind
from coach.quantities.words import counted
from coach.screens.bench_heat import RESULTS, glow_of, heat_block, is_at_its_heat, own_name, then_block
from coach.screens.widgets.face import Block, Column, Weight
from coach.screens.wording import Ink, in_signs
from coach.telling.clock import soak_words
from coach.telling.figures import write_figure
from coach.telling.reading import cold_size
from coach.telling.step import heat_texts
from coach.telling.to_go import aim_of, to_go
from coach.telling.why import chance_beside
from coach.telling.words import write
from coach.telling.writing import Shown, write_temperature

if TYPE_CHECKING:
    from coach.bench.sheet import Sheet

#: Past its time by so much, a heat is over and the clock that was forgotten goes.
_FORGOTTEN_S = 300.0
#: Past its time by so much, nobody works that heat on: the clock is quiet (our choice).
_OVER_S = 60.0
#: A piece left in the fire for longer than this was left there to rest.
_LEFT_LYING_S = 3600.0
#: From so long on a clock tells whole minutes.
_MINUTES_FROM_S = 600.0
#: Told in the place of a chance where something that is to be put right holds the job back.
FIX_FIRST = "to fix"
#: Told there where nothing is to be put right, and no chance says why it is tight: the key that does.
WHY_KEY = "why: *"

_VERDICTS = {
    PlanState.ON_PLAN: ("✓", Ink.GOOD),
    PlanState.TIGHT: ("~", Ink.CARE),
    PlanState.OFF_PLAN: ("✗", Ink.BAD),
}


class Dial(NamedTuple):
    """The clock of a heat at one moment."""

    clock: HeatClock
    seconds: float  # since it was started

    @property
    def is_forgotten(self) -> bool:
        """Whether nobody can mean this clock any more."""
        if self.clock.place is Place.IN:
            return self.seconds > _LEFT_LYING_S
        return self.seconds > self._lasts_s + _FORGOTTEN_S

    @property
    def is_due(self) -> bool:
        """Whether the time is up: too cold to work, or soaked through."""
        lasts = self._lasts
        return lasts is not None and self.seconds >= lasts.value

    @property
    def is_over(self) -> bool:
        """Whether the heat is over and no call to the fire is of use: it is read cold, or long too cold."""
        if self.clock.place is Place.IN or not self.is_due:
            return False
        return self.clock.read_cold or self.seconds - self._lasts_s >= _OVER_S

    @property
    def _lasts(self) -> Figure | None:
        """How long it can be worked, or how long it soaks as that was told."""
        return self.clock.working if self.clock.place is Place.OUT else self.clock.soak_told

    @property
    def _lasts_s(self) -> float:
        return self.clock.working.value if self.clock.working is not None else 0.0

    @property
    def left(self) -> float:
        """What is left of its time, from 1 to 0; 1 where that is not known."""
        lasts = self._lasts
        return max(1.0 - self.seconds / lasts.value, 0.0) if lasts is not None and lasts.value else 1.0

    @property
    def surface_c(self) -> float | None:
        """The metal's surface on its way down, °C; once it has come to where work stops, that.

        None where it is not known, as in the fire.
        """
        if not self.clock.cooling:
            return None
        (first_s, first_c), (last_s, last_c) = self.clock.cooling[0], self.clock.cooling[-1]
        if first_s < self.seconds < last_s:
            return between(self.clock.cooling, self.seconds)
        return first_c if self.seconds <= first_s else last_c

    def figure(self, shown: Shown) -> str:
        """Its figure alone; "" where it has none."""
        return clock_block(self, shown).figure

    def words(self, shown: Shown) -> str:
        """It on one line, where there is no room for a figure."""
        block = clock_block(self, shown)
        return " ".join(part for part in (block.label, block.figure, block.last) if part)


def bench_blocks(
    standing: Standing,
    check: Check | None,
    dial: Dial | None,
    shown: Shown,
    sheet: Sheet | None = None,
    *,
    end_asked: bool = False,
) -> tuple[Block, ...]:
    """The four blocks of the bench's face as a job stands; of one whose steps are done, by its `sheet`.

    Where `end_asked` it was asked whether the step is to end.
    """
    step = standing.step
    if step is None:
        return (*_ended(standing, sheet), Block(), verdict_block(standing))
    if dial is not None and not dial.is_over:
        clock = clock_block(dial, shown)
    elif _counts_in_the_clocks_place(step):
        is_next = standing.heats < step.heats_planned
        counts = "F3 in, F2 out" if step.quench else "F2 counts one"
        clock = Block("heats", _heats_of(standing, step), caption=counts if is_next else "all marked")
    elif step.heats_planned or step.heat_kind != HeatKind.COLD:
        heat = ", ".join(heat_texts(step, shown)).partition(" on the ")[0]
        idle = Block("clock", lines=("F2 as it", "comes out"), ink=Ink.QUIET)
        clock = (clock_block(dial, shown) if dial is not None else idle)._replace(caption=heat)
    else:
        clock = Block()
    if is_at_its_heat(standing, step, still_runs=dial is not None and not dial.is_due):
        aim = (heat_block(step, shown, standing.heats), then_block(standing, check, shown))
    elif check is None:
        aim = _step_end(standing, step, shown, asked=end_asked)
    else:
        aim = (
            aim_block(check, shown, cuts=_is_cut_to(standing.step, check)),
            to_go_block(standing, check, shown),
        )
    return (*aim, clock, verdict_block(standing))


def _is_cut_to(step: StepToDo | None, check: Check) -> bool:
    """Whether it is the length that a step cuts at: how it is done speaks of the length shown."""
    cuts = step is not None and Does.CUTS_FREE in operation(step.operation).DOES
    return cuts and check.dimension == "length"


def aim_block(check: Check, shown: Shown, *, cuts: bool = False) -> Block:
    """What a size is worked to, and what was read of it last; `cuts` where it is what is cut at."""
    reading = check.reading
    last = f"last {cold_size(reading, shown)}" if reading else ""
    if reading is not None and check.kind is Kind.LENGTH:
        last += f" ({write_figure(reading.size, shown, 'n')} hot)" if reading.hot else ", cold"
    if check.dimension == MARK:
        last = last or "from the end"
    elif cuts:
        last = last or "cut at this length"
    if check.kind is Kind.TEST:
        return Block(
            check.label, lines=("pass, doubt", "or fail?"), ink=Ink.STRONG, narrow=(own_name(check), "")
        )
    if check.wanted is None:
        expected = write_figure(check.expected, shown) if check.expected is not None else ""
        told = (f"{expected} expected",) if expected else ("nothing is asked of it",)
        return Block(check.label, lines=told, caption=last, narrow=(own_name(check), ""))
    aim = aim_of(check.wanted, shown)
    expected = write_figure(check.expected, shown) if check.expected is not None else ""
    tells_more = expected and not expected.startswith(f"{aim.number} ")
    caption = last or (f"expected {expected}" if tells_more else "")
    return Block(
        check.label,
        aim.number,
        Ink.STRONG,
        first=aim.limits,
        last=aim.unit,
        caption=caption,
        weight=Weight.HEAVY,
        narrow=(own_name(check), ""),
    )


def to_go_block(standing: Standing, check: Check, shown: Shown) -> Block:
    """How far a size is from there."""
    told = to_go(check, shown)
    if check not in standing.checks:
        place = "of another step"
    elif len(standing.checks) > 1:
        place = f"size {standing.checks.index(check) + 1} of {len(standing.checks)}"
    else:
        place = ""
    if check.reading is None:
        words = RESULTS if check.kind is Kind.TEST else ("not read yet",)
        return Block("test" if check.kind is Kind.TEST else "to go", lines=words, caption=place)
    ink = Ink[told.tone.name] if told.tone.name in ("GOOD", "CARE", "BAD") else Ink.STRONG
    bound = told.more.removeprefix("under ").removeprefix("over ").removeprefix("the ").replace(" is ", " ")
    figure = f"{told.sign.strip('·')}{told.amount}"
    return Block(told.label, figure, ink, caption=told.more or place, narrow=("", bound))


def _heats_of(standing: Standing, step: StepToDo) -> str:
    """The heats marked and planned; more than are planned by themselves, for 3 of 1 is no figure."""
    over = standing.heats > step.heats_planned
    return str(standing.heats) if over else f"{standing.heats}/{step.heats_planned}"


def _counts_in_the_clocks_place(step: StepToDo) -> bool:
    """Whether heats are counted where the clock stands: nothing is worked against the clock."""
    return step.hot is None and step.heats_planned > 0


def _step_end(standing: Standing, step: StepToDo, shown: Shown, *, asked: bool) -> tuple[Block, Block]:
    """What is asked once no size is; the first Enter only asks where a size is not settled."""
    ends = Block("then", lines=("Enter ends", f"step {step.number}"))
    if checks := [one for one in standing.checks if not one.may_stay_unread]:
        good = sum(one.is_settled for one in checks)
        figure = f"{good}/{len(checks)}"
        if good < len(checks) and not asked:
            ends = Block("then", lines=("Enter asks", "to end the step"))
        return Block("sizes settled", figure, caption="of this step", weight=Weight.HEAVY), ends
    if step.temperature is not None and (not standing.heats or _counts_in_the_clocks_place(step)):
        return heat_block(step, shown, standing.heats), ends
    if (step.heats_planned or standing.heats) and not _counts_in_the_clocks_place(step):
        figure = _heats_of(standing, step)
        return Block("heats", figure, caption="nothing to measure", weight=Weight.HEAVY), ends
    return Block("this step", lines=("nothing", "to measure")), ends


def _ended(standing: Standing, sheet: Sheet | None) -> tuple[Block, Block]:
    """How the tool came out, by what was measured."""
    sizes = came_block(sheet) if sheet is not None else Block()
    return sizes, Block("heats", str(standing.heats_total), caption="of the whole job")


def came_block(sheet: Sheet) -> Block:
    """How many sizes came as drawn, and what became of the others."""
    from coach.telling.sheet import others_text

    came = f"{sheet.as_drawn}/{sheet.asked}"
    return Block("sizes as drawn", came, "bold $accent", caption=others_text(sheet))


def verdict_block(standing: Standing) -> Block:
    """On plan, tight or off plan, with the chance."""
    sign, ink = _VERDICTS[standing.verdict]
    done = standing.step is None and standing.verdict is PlanState.ON_PLAN
    return Block(
        "DONE" if done else standing.verdict.upper(),
        sign,
        ink,
        caption=short_chance(standing.verdict, standing.chance)
        or (FIX_FIRST if standing.to_right else WHY_KEY),
        weight=Weight.SIGN,
    )


def short_chance(verdict: PlanState, chance: float) -> str:
    """A chance with signs for words, as it is told beside a verdict.

    >>> on, tight, off = PlanState.ON_PLAN, PlanState.TIGHT, PlanState.OFF_PLAN
    >>> short_chance(on, 0.999), short_chance(off, 0.001), short_chance(tight, 0.9), short_chance(tight, 0.97)
    ('>99 %', '<1 %', '90 %', '')
    """
    return in_signs(chance_beside(verdict, chance))


def clock_block(dial: Dial, shown: Shown) -> Block:
    """How long the metal can still be worked, or how long it has soaked."""
    clock, seconds = dial.clock, dial.seconds
    number, unit = minutes_text(seconds)
    if clock.place is Place.IN:
        column = Column(glow_of(clock.start.value), dial.left)
        if dial.is_due:
            return Block("through: take it out", number, last=unit, caption="F2 as it comes", column=column)
        soak = write(soak_words(clock)) or "F2 as it comes out"
        label = "in the fire, soaking" if clock.soak is not None else "in the fire"
        return Block(label, number, last=unit, caption=soak.replace("through in ", ""), column=column)
    now = dial.surface_c
    colour = HEAT_COLOURS.name_of(now) if now is not None else ""
    if clock.working is None:
        return Block(
            colour or "out of the fire",
            number,
            last=unit,
            caption="work while it glows",
            column=Column(glow_of(now)),
        )
    if dial.is_over:
        label = "cold" if clock.read_cold else "too cold to work"
        return Block(
            label,
            lines=("F2 as it", "comes out"),
            ink=Ink.QUIET,
            narrow=("cold" if clock.read_cold else "too cold", ""),
        )
    if dial.is_due:
        over, _ = minutes_text(seconds - clock.working.value)
        caption = f"{over} over · F3 in"
        return Block(
            "back to the fire",
            "BACK",
            Ink.BAD,
            caption=caption,
            weight=Weight.SMALL,
            column=Column(None, 0.0),
            narrow=("too cold", f"{over} over"),
        )
    left, unit = minutes_text(clock.working.value - seconds)
    caption = f"work to {write_temperature(clock.stop.value, shown)}"
    return Block(colour, left, last=unit, caption=caption, column=Column(glow_of(now), dial.left))


def minutes_text(seconds: float) -> tuple[str, str]:
    """A clock's minutes and seconds; from ten minutes on the minutes alone, and their unit.

    >>> minutes_text(83.2), minutes_text(725.0)
    (('1:23', ''), ('12', 'min'))
    """
    minutes, rest = divmod(int(seconds), 60)
    return (f"{minutes}", "min") if seconds >= _MINUTES_FROM_S else (f"{minutes}:{rest:02d}", "")


def head_words(standing: Standing, shown: Shown) -> tuple[str, str]:
    """The line above the face: the step with its heat on the left, what waits and the job on the right."""
    step = standing.step
    fix = f"fix {len(standing.to_right)}  " if standing.to_right else ""
    # Two jobs of one recipe are told apart by their names.
    name = "" if standing.job == standing.recipe else f" · {standing.job}"
    right = f"{fix}{standing.title}{name}"
    if step is None:
        heats = f"  {counted(standing.heats_total, 'heat')}" if standing.heats_total else ""
        done = "The one step is done" if standing.steps == 1 else f"All {standing.steps} steps are done"
        return f"{done}{heats}", right
    heat_name = f": {standing.heat_name}" if standing.heat_name else ""
    if step.heats_planned or standing.heats:
        planned = "" if standing.heats > step.heats_planned else f" of {step.heats_planned}"
        more = f", {step.heats_planned} planned" if not planned else ""
        heat = f"heat {standing.heats}{planned}{heat_name}{more}"
    else:
        heat = ", ".join(heat_texts(step, shown)) or "cold"
    return f"{step.number}/{standing.steps}  {step.title}  {heat}", right
