"""One thing that a recipe cannot do, as weighing tells it."""

from __future__ import annotations

from typing import NamedTuple


class Finding(NamedTuple):
    """One thing that will not work, with the step it shows at (0 for the drawing)."""

    step: int  # the step it shows at; 0 for the drawing
    sentence: str  # what cannot be done
