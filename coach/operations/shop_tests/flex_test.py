"""The flex test: a tempered edge gives and springs back."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.shop_test import ShopTest

TEST = ShopTest(
    how="Press the edge over a rod so that it bends a little: pass when it springs back whole.",
    after_doubt="grind it nearer to its finished thickness and try again",
    after_fail="an edge that stays bent is soft and one that chips is hard: temper anew, or harden again",
    mended_by=(Does.TEMPERS, Does.QUENCHES),
)
