"""What happens to the metal between the fire and the anvil."""

from __future__ import annotations
