"""A forging coach: what to do next, to what size, and whether the metal that is left is enough."""

from __future__ import annotations

__version__ = "0.1.0"
