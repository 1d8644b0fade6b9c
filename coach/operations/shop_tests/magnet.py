"""The magnet: hot enough to harden is where steel no longer pulls."""

from __future__ import annotations

from coach.operations.shop_test import ShopTest

TEST = ShopTest(
    how="Touch the steel with a magnet as it comes up: pass when it no longer pulls.",
    after_doubt="turn the piece, soak a little longer and touch it again on the thickest of the steel",
    after_fail=(
        "it is not hot enough to harden: a shade brighter, then touch it again; what is hardened "
        "already pulls as it should, and is not heated for that"
    ),
    not_yet=True,
    as_it_heats=True,
)
