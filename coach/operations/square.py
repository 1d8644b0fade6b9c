"""Squaring: a section is trued to its sizes with its corners up."""

from __future__ import annotations

from coach.operations.hammered import Hammered


class Square(Hammered):
    """Like drawing, for the last small difference and the corners."""

    HEATS = 1
    DRAWN = False
    SUMMARY = "True the section: faces flat, corners square."
    ALSO_CALLED = ("square up",)
