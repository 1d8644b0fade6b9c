"""A job forged about half-way from invented readings, for showing what the bench is like."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from itertools import cycle
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from coach.bench.session import Session
    from coach.recipe.model import Step

_BEGAN = datetime(2026, 3, 14, 8, 30, tzinfo=UTC)
_BETWEEN_ENTRIES = timedelta(minutes=4)
# How far each reading is from what was aimed at, as a share of half its limits: work by hand, and fair work.
_OFF = (0.15, -0.25, 0.3, -0.1, 0.2, -0.3, 0.0)
