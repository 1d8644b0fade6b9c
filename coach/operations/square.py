"""Squaring: a section is trued to its sizes with its corners up."""

from __future__ import annotations

from typing import ClassVar

from coach.operations.base import Operation
from coach.operations.does import Does


class Square(Operation):
    """Like drawing, for the last small difference and the corners."""

    NAME: ClassVar[str] = "square"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.HAMMERS_A_SECTION})
    SUMMARY: ClassVar[str] = "True the section: faces flat, corners square."
