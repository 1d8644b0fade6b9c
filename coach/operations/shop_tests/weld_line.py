"""The weld line: a joint that is open stays dark as it cools."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.shop_test import ShopTest

TEST = ShopTest(
    how="Watch the joint as it cools, then brush it: pass when no line stays dark and none opens.",
    after_doubt="flux it and look again at the next heat, or etch it when it is clean",
    after_fail="the weld is open there: flux, and another welding heat from the middle out",
    mended_by=(Does.JOINS, Does.CLOSES),
    spoils=True,
    of_work=(Does.JOINS, Does.CLOSES),
)
