"""The file test: hardened steel skates under a sharp file."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.shop_test import ShopTest

TEST = ShopTest(
    how="Grind a spot clean beside the edge and draw a sharp file over it: pass when it skates.",
    after_doubt="grind the spot a little deeper and try again",
    after_fail="soft skin or a lost quench: grind a spot clean and try again; if it bites, harden it again",
    first="Grind a spot clean and try again first: a soft skin fails the test over hard steel.",
    mended_by=(Does.QUENCHES,),
)
