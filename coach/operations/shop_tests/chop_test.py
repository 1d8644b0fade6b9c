"""The chop test: a finished edge is as it was after a dozen blows."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.shop_test import ShopTest

TEST = ShopTest(
    how="A dozen blows across dry hardwood, one of them through a knot: pass when the edge is as it was.",
    after_doubt="hone it and try again",
    after_fail="a rolled edge is soft or too thin, a chipped one hard or too thin: temper or grind by that",
    mended_by=(Does.TEMPERS, Does.QUENCHES),
)
