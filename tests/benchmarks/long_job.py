"""A job of any number of steps, with one reading just taken in its first."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

from coach.bench.entries import FIRST_PREVIOUS, make_entry
from coach.bench.replay import BEGAN, READING, replay
from coach.bench.views import standing_of
from coach.ledger.plan import look_back
from coach.quantities import Shown
from coach.recipe.model import Recipe
from coach.recipe.reader import read_recipe

ZONES = ("poll", "eye", "neck", "blade")
START_MM = 40.0
FINISH_MM = 20.0


def recipe_of(steps: int) -> Recipe:
    """Four zones drawn down in turn, a little at each step."""
    lines = [
        "format: 1",
        "title: A long job",
        "pieces:",
        "  body:",
        "    metal: mild steel",
        f"    stock: {{form: square, side: {START_MM}}}",
        f"    zones: [{', '.join(ZONES)}]",
        "drawing:",
    ]
    lines += [
        f"  {zone}: {{form: flat, width: {START_MM} ±1, thickness: {FINISH_MM} ±0.5, length: 120 ±20}}"
        for zone in ZONES
    ]
    lines.append("steps:")
    rounds = steps // len(ZONES)
    for at in range(rounds):
        thickness = START_MM + (FINISH_MM - START_MM) * (at + 1) / rounds
        for zone in ZONES:
            lines.append(
                f"  - {{do: draw, zone: {zone}, form: flat, heats: 1, free: length, "
                f"to: {{width: {START_MM} ±1, thickness: {thickness:.4f} ±0.5}}}}"
            )
    # A thousand heats of the usual scale would leave nothing to forge.
    lines.append("scale: {forging: 0.001 mm}")
    return read_recipe("\n".join(lines), "long-job.yaml")


def prepare(steps: int) -> Callable[[], object]:
    """Make the job ready; the work to time is all that follows a reading, up to what the bench shows."""
    plan = look_back(recipe_of(steps))
    at = datetime(2026, 3, 2, 9, 0, tzinfo=UTC).isoformat().replace("+00:00", "Z")
    body = {
        "zone": "poll",
        "dimension": "thickness",
        "typed": "39.6",
        "size": 39.6,
        "gauge": "calliper",
        "hot_c": None,
        "hot_doubt_c": 0.0,
        "insisted": False,
    }
    began, _ = make_entry("long", 1, at, BEGAN, {}, FIRST_PREVIOUS)
    reading, _ = make_entry("long", 2, at, READING, body, began.digest)
    entries = [began, reading]
    shown = Shown()
    return lambda: standing_of("long", entries, frozenset(), replay(plan, entries), shown)
