"""The zones of the piece in hand by the names that they have in each of several pieces made alike."""

from __future__ import annotations

from coach.recipe.model import Recipe, Step


def zones_by_short_name(recipe: Recipe, step: Step) -> dict[str, str]:
    """Each zone of the piece in hand by its name without that piece's, where no zone is called so itself."""
    zones = {zone.lower().replace(" ", "_"): zone for zone in recipe.drawing}
    piece = recipe.piece_of(step.zones[0]).name.lower().replace(" ", "_") if step.zones else ""
    short = {name.removeprefix(f"{piece}_"): zone for name, zone in zones.items() if piece}
    return {name: zone for name, zone in short.items() if name not in zones}
