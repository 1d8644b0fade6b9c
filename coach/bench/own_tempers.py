"""The tempering curves of a job's steels, as the jobs before and its own readings have taught them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from coach.ledger.own_curves import OwnSteel, own_curves, own_steels
from coach.ledger.tempered import OwnCurves
from coach.log.kinds.shop_known import ShopKnown, temper_name

if TYPE_CHECKING:
    from coach.bench.job_state import JobState
    from coach.metals.tempering_table import TemperingRow


def curves_begun_with(known: Iterable[object]) -> OwnCurves:
    """The curves among what is known of a shop; none where its jobs have taught of no steel."""
    found = {one.what: one for one in known if isinstance(one, ShopKnown) and one.is_of_temper}
    if not found:
        return {}
    from coach.metals.own_curve import OwnCurve
    from coach.metals.tempering_table import published_rows

    rows = [row for row in published_rows() if name_of(row) in found]
    known_as = {(row.name, str(row.column)): found[name_of(row)] for row in rows}
    return {of: OwnCurve(one.value, one.doubt) for of, one in known_as.items()}


def name_of(row: TemperingRow) -> str:
    """What the figure of a steel's column is called among those of a shop."""
    return temper_name(row.name, str(row.column))


def own_steels_of(state: JobState) -> tuple[OwnSteel, ...]:
    """Every curve that a reading of the job has moved."""
    return own_steels(state.plan, state.courses(), _begun(state))


def own_curves_of(state: JobState) -> OwnCurves:
    """Every curve of the job that is another than the published one."""
    return own_curves(state.plan, state.courses(), _begun(state))


def _begun(state: JobState) -> OwnCurves:
    bodies: Sequence[object] = [one.body for one in state.counted.values()]
    return curves_begun_with(bodies)
