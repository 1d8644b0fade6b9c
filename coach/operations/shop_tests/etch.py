"""The etch: acid draws out what is shut in a weld."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.shop_test import ShopTest

TEST = ShopTest(
    how="Grind the joint clean and etch it: pass when the line is fine, bright and unbroken.",
    after_doubt="clean it, etch a little longer and look with a glass",
    after_fail="black in the line is flux or scale shut in: weld it again or cut it out",
    mended_by=(Does.JOINS, Does.CLOSES),
    spoils=True,
)
