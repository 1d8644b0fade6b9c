"""The head test: a head that is hafted does not move."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.shop_test import ShopTest

TEST = ShopTest(
    how="Swing it from hand to hand and strike the butt on the bench: pass when the head does not move.",
    after_doubt="strike it home again and look at the wedge",
    after_fail="take the haft out and fit it anew: a loose head is not used",
    mended_by=(Does.FITS_A_HAFT,),
)
