"""How hot a temper was, and which of several since the last quench rules: no cooler one hardens again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import inf, log10
from typing import TYPE_CHECKING, TypeAlias

from coach.ledger.course import Outcome
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading
from coach.ledger.tempered import temper_heat_c
from coach.operations import Does
from coach.operations.does import HeatKind
from coach.operations.gauges import BY_COLOUR
from coach.quantities.figure import COVERAGE
from coach.quantities.refusal import OutOfRange
from coach.recipe.model import Step

if TYPE_CHECKING:
    from coach.metals.tempering import Tempered
    from coach.metals.tempering_table import TemperingRow

ReadIn: TypeAlias = Sequence[tuple[Step, Sequence[Outcome]]]
"""Steps with what was read in each."""

#: 0 °C in K (by definition).
_KELVIN = 273.15


def hottest_temper(plan: Plan, step: Step, row: TemperingRow, read_in: ReadIn = ()) -> Step:
    """The temper that rules what a step leaves: itself, or one before it that did more since the quench.

    By T·(C + log t) of Hollomon and Jaffe 1945 (confirmed), as it was read and else as it is aimed at. The
    step itself counts for the hottest that it may be done at, and where it says no heat for nothing.
    """
    own = soaked_at(step, read_in)
    if own is not None and _read(step, read_in, "temperature") is None:
        aimed = step.targets.get("temperature")
        high_c = aimed.high if aimed is not None and aimed.high < inf else own[0]
        own = max(own[0], high_c), *own[1:]
    ruling, most = step, -inf if own is None else _did(row, own)
    for one in tempers_before(plan, step):
        soaked = soaked_at(one, read_in)
        if soaked is not None and (did := _did(row, soaked)) > most:
            ruling, most = one, did
    return ruling


def left_by(row: TemperingRow, heat_c: float, hours: float) -> Tempered | None:
    """What a soak leaves; past the table no more than its end; None where it is cooler than that begins."""
    from coach.metals.tempering import LOWEST_HRC, Tempered, past_the_table, tempered_hrc
    from coach.quantities import as_words

    if past_the_table(row, heat_c, hours):
        last_hrc = row.points[-1][1]
        return Tempered(last_hrc, max(last_hrc - LOWEST_HRC, 0.0), row.harder_hrc, as_words(row.note))
    try:
        return tempered_hrc(row, heat_c, hours)
    except OutOfRange:
        return None


def soaked_at(treated: Step, read_in: ReadIn) -> tuple[float, float, float] | None:
    """How hot it was tempered, the standard uncertainty of that, both °C, and for how many hours."""
    from coach.metals.tempering import RUN_HOURS

    read = _read(treated, read_in, "temperature")
    heat = _heat_c(treated, read)
    if heat is None:
        return None
    soak, aimed = _read(treated, read_in, "soak"), treated.targets.get("soak")
    hours = RUN_HOURS
    if soak is not None:
        hours = soak.size_mm / 3600.0
    elif aimed is not None and (read is None or read.gauge != BY_COLOUR):  # a colour tells of a run alone
        hours = aimed.nominal / 3600.0
    return *heat, hours


def tempers_before(plan: Plan, step: Step) -> Iterator[Step]:
    """The tempers of a step's zones before it, the last first, back to the quench or a fire that undid it."""
    for one in reversed(plan.recipe.steps[: step.number - 1]):
        reached = {*one.zones, *one.heated}
        if one.does(Does.TEMPERS):
            if {*step.zones} <= reached:
                yield one
        elif {*step.zones} & reached and (one.does(Does.QUENCHES) or _undoes(one)):
            return


def _undoes(step: Step) -> bool:
    """Whether a step is a fire that is hotter than any temper."""
    from coach.metals.tempering import HIGHEST_C

    hot = bool(step.heats) and step.heat_kind is not HeatKind.COLD
    return hot and (step.temperature_c is None or step.temperature_c > HIGHEST_C)


def _did(row: TemperingRow, soaked: tuple[float, float, float]) -> float:
    heat_c, _, hours = soaked
    return (heat_c + _KELVIN) * (row.constant + log10(max(hours, 1e-6)))


def _heat_c(treated: Step, read: Reading | None) -> tuple[float, float] | None:
    """How hot it was tempered and the standard uncertainty of that, °C: as read, else as it was aimed at."""
    if read is not None:
        return read.size_mm, read.hot_doubt_c
    from coach.fire.temper_colours import TEMPER_DOUBT_C

    heat_c = temper_heat_c(treated)
    return None if heat_c is None else (heat_c, TEMPER_DOUBT_C / COVERAGE)


def _read(treated: Step, read_in: ReadIn, dimension: str) -> Reading | None:
    """The last believed reading of one size at a treatment, or an earlier one that it does not undo."""
    for step, outcomes in read_in:
        if step.number == treated.number:
            for outcome in reversed(outcomes):
                if outcome.mark.reading.dimension == dimension and not outcome.questioned:
                    return outcome.outdone_by or outcome.mark.reading
    return None
