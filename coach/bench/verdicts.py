"""One verdict for a plan and for a job: by its metal, a skin, a failed test, and in the end its sizes."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite
from typing import Final, TypeAlias

from coach.bench.righting import Right
from coach.bench.sizes import DrawnSize
from coach.bench.skin import SteelSkin
from coach.ledger.forecast import Forecast
from coach.ledger.verdict import PlanState, Reason, SizeState, plan_state
from coach.ledger.weigh import Cannot, Finding
from coach.quantities import Words, as_words, run_on

Why: TypeAlias = Reason | SteelSkin | Right | Words
"""Why it stands so: the size that decides, the skin or the failed test that does, or words."""

_AS_DRAWN: Final = as_words("every step is done, and every size is within the drawing")


def how_it_stands(
    found: Forecast | None,
    trouble: Words,
    findings: Sequence[Finding],
    short: SteelSkin | None,
    failed: Right | None,
) -> tuple[float, PlanState, Why]:
    """The chance, the verdict and its reason while there are steps ahead.

    Args:
        found: how the rest is expected to go; None where it cannot be reckoned.
        trouble: why it cannot.
        findings: what the metal cannot do in the steps ahead.
        short: a skin that the stone will not go through.
        failed: a test that failed and that nothing ahead mends.
    """
    if found is None or trouble:
        return 0.0, PlanState.OFF_PLAN, trouble
    cannot = next((one for one in findings if one.what is not Cannot.REMOVE_SKIN), None)
    if cannot is not None:
        return 0.0, PlanState.OFF_PLAN, cannot.sentence
    chance, verdict = found.chance if isfinite(found.chance) else 0.0, found.state
    reason: Why = found.reason if isinstance(found.reason, Reason) else found.reason.words
    if verdict is PlanState.ON_PLAN and (worse := failed or short) is not None:
        verdict, reason = PlanState.TIGHT, worse
    return chance, verdict, reason


def of_finished(sizes: Sequence[DrawnSize], failed: Right | None) -> tuple[float, PlanState, Why]:
    """A finished tool is what it is: its sizes count, not what its metal might have made."""
    worst = min(sizes, key=lambda size: size.chance)
    verdict = plan_state(worst.chance)
    if verdict is PlanState.ON_PLAN:
        return worst.chance, *((PlanState.TIGHT, failed) if failed is not None else (verdict, _AS_DRAWN))
    if worst.state is SizeState.GOOD:  # as far as it is known
        verdict = PlanState.TIGHT
    more = sum(plan_state(size.chance) is not PlanState.ON_PLAN for size in sizes) - 1
    others = f"{more} more size{' is' if more == 1 else 's are'} not surely inside" if more else ""
    return worst.chance, verdict, run_on((worst.words, others), "; ")
