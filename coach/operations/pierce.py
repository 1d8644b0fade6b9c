"""Piercing: a row of small holes is punched through a bar, for nails, screws or rivets."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.punch import Punch


class Pierce(Punch):
    """As a hole is punched, with the slug of each: the metal pushed aside goes to the length unless said.

    The holes are laid out on the worked bar, evenly: half a space from its ends, a space between them.
    """

    DOES = frozenset({Does.PIERCES})
    EXTRAS = {}
    SUMMARY = "Lay the row out on the drawn bar, evenly spaced, and punch each hole over a bolster."
    ALSO_CALLED = ("drill",)
    ACCOUNT = "`slug`: the holes' area × slug thickness; a fifth of the depth unless said"
    FORM = "pierced bar"
    HEATS = 2
