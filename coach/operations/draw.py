"""Drawing: a section is made smaller and the zone grows longer."""

from __future__ import annotations

from coach.operations.hammered import Thinned


class Draw(Thinned):
    """Settled by the section asked for; the length follows from the metal."""

    SUMMARY = "Work the section down to size; the length follows."
    ALSO_CALLED = ("forge", "draw out", "draw down", "stretch", "swage", "thin", "hammer")
    ACCOUNT = "`bite`: half the width unless said"
