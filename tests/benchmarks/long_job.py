"""A job of any number of steps, with one reading just taken in its first."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

from coach import __version__
from coach.bench.replay import replay
from coach.bench.standing import standing_of
from coach.ledger.looking_back import look_back
from coach.log.entries import FIRST_PREVIOUS, make_entry
from coach.log.kinds.began import Began
from coach.log.kinds.reading import Reading
from coach.recipe.model import Recipe
from tests.recipes.building import build

ZONES = ("poll", "eye", "neck", "blade")
START_MM = 40.0
FINISH_MM = 20.0


def recipe_of(steps: int) -> Recipe:
    """Four zones drawn down in turn, a little at each step."""
    flat = f"{START_MM} ±1"
    drawing = {
        zone: {"form": "flat", "width": flat, "thickness": f"{FINISH_MM} ±0.5", "length": "120 ±20"}
        for zone in ZONES
    }
    rounds = steps // len(ZONES)
    sizes = [START_MM + (FINISH_MM - START_MM) * (at + 1) / rounds for at in range(rounds)]
    tree = {
        "format": "1",
        "title": "A long job",
        # A thousand heats of the usual scale would leave nothing to forge.
        "scale": {"forging": "0.001 mm"},
        "pieces": {
            "body": {
                "metal": "mild steel",
                "stock": {"form": "square", "side": str(START_MM)},
                "zones": list(ZONES),
            }
        },
        "drawing": drawing,
        "steps": [
            {
                "do": "draw",
                "zone": zone,
                "form": "flat",
                "heats": "1",
                "free": "length",
                "to": {"width": flat, "thickness": f"{thickness:.4f} ±0.5"},
            }
            for thickness in sizes
            for zone in ZONES
        ],
    }
    return build(tree, "long-job.yaml")


def prepare(steps: int) -> Callable[[], object]:
    """Make the job ready; the work to time is all that follows a reading, up to what the bench shows."""
    plan = look_back(recipe_of(steps))
    at = datetime(2026, 3, 2, 9, 0, tzinfo=UTC).isoformat().replace("+00:00", "Z")
    read = Reading(
        zone="poll",
        dimension="thickness",
        typed="39.6",
        size=39.6,
        gauge="calliper",
        hot_c=None,
        hot_doubt_c=0.0,
        insisted=False,
        step=1,
        taken_at="",
    )
    beginning = Began(
        title="A long job", text="", source="", recipe="", coach=__version__, units="mm", grades={}
    )
    began, _ = make_entry("long", 1, at, beginning, FIRST_PREVIOUS)
    reading, _ = make_entry("long", 2, at, read, began.digest)
    entries = [began, reading]
    return lambda: standing_of(entries, replay(plan, entries))
