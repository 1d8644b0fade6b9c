"""The bend test: a coupon of the same fire holds when it is bent."""

from __future__ import annotations

from coach.operations.shop_test import ShopTest

TEST = ShopTest(
    how=(
        "Bend a coupon welded in the same fire a right angle over its own thickness, the weld outside: "
        "pass when it holds."
    ),
    after_doubt="bend a second one",
    after_fail="weld no tool by that fire and flux: find out why first",
)
