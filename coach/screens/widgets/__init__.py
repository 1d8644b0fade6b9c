"""The parts that screens are put together from; none of them holds a truth of its own."""

from __future__ import annotations
