"""The ring test: a sound piece rings clear."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.shop_test import ShopTest

TEST = ShopTest(
    how="Hang the piece and tap it: pass when it rings clear.",
    after_doubt="brush the joints and the edge, and look for a dark line or a crack",
    after_fail="a dull note is an open joint or a crack: find it before anything else is done",
    mended_by=(Does.JOINS, Does.CLOSES),
    spoils=True,
    of_piece=True,
)
