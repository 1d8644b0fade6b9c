"""The magnet: hot enough to harden is where steel no longer pulls."""

from __future__ import annotations

from coach.operations.shop_test import ShopTest

_ONCE_HARD = ShopTest(
    how="Hard steel pulls a magnet, as it should: make this test at the quench, as the steel comes up.",
    after_doubt="hard steel pulls a magnet, as it should; make the test at the quench",
    after_fail="hard steel pulls a magnet, as it should: nothing is amiss; make the test at the quench",
)

TEST = ShopTest(
    how="Touch the steel with a magnet as it comes up: pass when it no longer pulls.",
    after_doubt="turn the piece, soak a little longer and touch it again on the thickest of the steel",
    after_fail=("it is not hot enough to harden: a shade brighter, then touch it again"),
    not_yet=True,
    as_it_heats=True,
    once_hard=_ONCE_HARD,
)
