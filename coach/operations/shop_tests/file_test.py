"""The file test: hardened steel skates under a sharp file."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.shop_test import ShopTest

TEST = ShopTest(
    how="Draw a sharp file over the steel, beside the edge: pass when it skates.",
    after_doubt="clean the skin off and try again a little deeper",
    after_fail="soft skin or a lost quench: grind a spot clean and try there; if it bites, harden it again",
    mended_by=(Does.QUENCHES,),
)
