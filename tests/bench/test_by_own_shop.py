"""A plan made for a shop whose fire is known is weighed by that fire, in every line that is told of it."""

from __future__ import annotations

import pytest

from coach.bench.outlook import outlook
from coach.ledger.looking_back import look_back
from coach.ledger.verdict import PlanState, SizeState
from coach.log.kinds.shop_known import ShopKnown
from coach.recipe.reader import read_recipe
from tests.bench.jobs import shop

STRAP = """
recipe: Trial strap
pieces:
  strap:
    metal: 1084
    bar: 30 x 8, long 400
    zones:
      blade: 37 ±3 x 4.5 ±0.5, long 150 ±15, takes up long, allowance {allowance} %
      tail: 28 ±3 x 6 ±0.5, long 80 ±12, takes up long
usual: {{at: light yellow}}
steps:
  - mark out: strap
  - cut: tail, cold, kerf 1
  - draw: blade, 37 ±3 x 4.5 ±0.5, 3 heats
    check: thickness, width, length
  - draw: tail, 28 ±3 x 6 ±0.5, 2 heats
    check: thickness, width, length
"""
#: A fire that takes 2.8 times what is reckoned, as ten jobs have told.
HUNGRY = ShopKnown(what="scale", unit="1", value=2.8, doubt=0.3, jobs=10, names="a, b")


def test_the_longer_mark_that_a_hungry_fire_needs_is_not_called_hopeless_by_the_published_fire() -> None:
    plan = look_back(read_recipe(STRAP.format(allowance=13), "strap.yaml"))
    by_book, by_shop = outlook(plan), outlook(plan, [HUNGRY])
    assert by_book.verdict is PlanState.OFF_PLAN  # 150 x 1.13 is 169.5 mm, and 165 are allowed
    length = next(one for one in by_shop.sizes if one.name == "blade.length")
    assert length.state is SizeState.GOOD
    assert by_shop.verdict is not PlanState.OFF_PLAN
    assert by_shop.chance > 0.5


def test_nor_is_the_job_before_its_first_heat() -> None:
    job = shop().begin(STRAP.format(allowance=13), "strap.yaml", None)
    job.begin_with(HUNGRY)
    standing = job.standing()
    assert standing.verdict is not PlanState.OFF_PLAN


@pytest.mark.parametrize("allowance", [60])
def test_what_is_too_long_by_its_own_fire_too_is_told(allowance: int) -> None:
    plan = look_back(read_recipe(STRAP.format(allowance=allowance), "strap.yaml"))
    assert outlook(plan, [HUNGRY]).verdict is PlanState.OFF_PLAN
