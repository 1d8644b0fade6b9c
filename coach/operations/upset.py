"""Upsetting: a zone is driven back on itself and grows thicker."""

from __future__ import annotations

from typing import ClassVar

from coach.operations.base import Operation
from coach.operations.does import Does


class Upset(Operation):
    """The only forging step that makes a section bigger than it found it."""

    NAME: ClassVar[str] = "upset"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.HAMMERS_A_SECTION})
    SUMMARY: ClassVar[str] = "Drive the hot end back on itself; the section grows, the length shortens."
    ACCOUNT: ClassVar[str] = "the only one that makes a section bigger"
    GATHERS: ClassVar[bool] = True
    HEATS: ClassVar[int] = 2
