"""How a test of the shop is made of the steel of a zone as it is then, and what it says there."""

from __future__ import annotations

from coach.ledger.left_soft import is_left_soft
from coach.ledger.own_curves import is_to_skate, treatment_before
from coach.ledger.plan import Plan
from coach.ledger.quenched import quenched_to_skate
from coach.operations import Does
from coach.operations.does import HeatKind
from coach.operations.shop_test import MadeOn, ShopTest
from coach.operations.shop_tests import SHOP_TESTS
from coach.recipe.model import Step


def steel_of(plan: Plan, step: Step, zone: str, test: str) -> MadeOn | None:
    """The steel that a test is made otherwise on in a step; None where it is made as it always is."""
    told = SHOP_TESTS[test]
    if is_left_soft(plan, zone, test):
        return MadeOn.SOFT
    if told.once_tempered is not None and not is_to_skate(plan, step, zone):
        return MadeOn.TEMPERED
    cold = step.heat_kind is HeatKind.COLD
    if told.once_hard is not None and cold and treatment_before(plan, step, zone) is not None:
        return MadeOn.HARD
    quench = _quench_of(plan, step, zone) if told.less_hard is not None else None
    if quench is not None and not quenched_to_skate(plan, quench):
        return MadeOn.LESS_HARD
    return None


def shop_test_at(plan: Plan, step: Step, zone: str, test: str) -> ShopTest:
    """A test of the shop as it is made of the steel as it is then."""
    return SHOP_TESTS[test].made_on(steel_of(plan, step, zone, test))


def _quench_of(plan: Plan, step: Step, zone: str) -> Step | None:
    """The quench that a zone came from last, or else comes to first; None where it was tempered since."""
    treated = treatment_before(plan, step, zone)
    if treated is not None:
        return treated if treated.does(Does.QUENCHES) else None
    ahead = plan.recipe.steps[step.number :]
    return next((one for one in ahead if zone in one.zones and one.does(Does.QUENCHES)), None)
