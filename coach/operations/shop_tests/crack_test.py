"""The crack test: oil comes out of a crack by daylight."""

from __future__ import annotations

from coach.operations.shop_test import ShopTest

TEST = ShopTest(
    how="Oil, wipe, chalk: pass when no line of oil comes through by daylight.",
    after_doubt="grind the line lightly: a scratch goes, a crack goes on",
    after_fail=(
        "a crack does not close: grind it out while there is metal, or cut it off; a cracked piece can part "
        "at the wheel, so light, eyes and face covered, nobody in line"
    ),
    spoils=True,
)
