"""Upsetting: a zone is driven back on itself and grows thicker."""

from __future__ import annotations

from coach.operations.hammered import Hammered


class Upset(Hammered):
    """The only forging step that makes a section bigger than it found it."""

    SUMMARY = "Drive the hot end back on itself; the section grows, the length shortens."
    ALSO_CALLED = ("jump", "jump up", "stave", "thicken", "bump up")
    ACCOUNT = "the only one that makes a section bigger"
    GATHERS = True
