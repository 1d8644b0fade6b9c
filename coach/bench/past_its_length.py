"""Nothing is out of true by more than it is long: such a number is no bow, and no warp."""

from __future__ import annotations

from math import fsum
from typing import Final

from coach.bench.entering import EntryFault
from coach.bench.job_state import JobState
from coach.forms import label
from coach.ledger.weighing import kind_of
from coach.ledger.working import LedgerError
from coach.log.kinds.reading import Reading
from coach.quantities import Kind, mm

_PAST: Final = (
    "{} cannot be {:=}: the piece that it is of is about {:=} long, and nothing is out of true by more than "
    "that. If another size was meant, type its name before the number."
)


def refuse_past_its_length(state: JobState, read: Reading) -> None:
    """Raises EntryFault: a bow, a warp, a wind or a gap is read as more than its whole piece is long."""
    if not 0 < read.step <= len(state.plan.recipe.steps) or read.size <= 0.0 or state.now is None:
        return
    step, there = state.plan.recipe.steps[read.step - 1], state.now.zones
    if kind_of(step, read.dimension) is not Kind.GAP or read.zone not in there:
        return
    own = [name for name, one in there.items() if one.piece == there[read.zone].piece]
    if not all(there[name].has_form for name in own):
        return  # what is folded has no length to go by
    try:
        long_mm = fsum(max(state.now.form(name).sizes_mm().values()) for name in own)
    except LedgerError:
        return
    if read.size > long_mm:
        raise EntryFault(_PAST, label(read.zone, read.dimension), mm(read.size), mm(round(long_mm)))
