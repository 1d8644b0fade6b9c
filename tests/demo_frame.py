"""What `coach demo` opens with in a window of the usual size and colours, drawn on no terminal."""

from __future__ import annotations

import os
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path
from unittest import mock

from textual.geometry import Size
from textual.pilot import Pilot

from coach.bench.shop import Shop
from coach.cli.commands.demo import JOB_FILE, NOTICE
from coach.cli.curtain import USUAL_SIZE
from coach.log.carry import import_job
from coach.log.newest import Newest
from coach.screens.app import CoachApp

_COLOURS = {"TERM": "xterm-256color", "COLORTERM": "truecolor"}
_AT_ONCE_S, _PATIENCE_S = 0.01, 30.0


def demo_frame() -> str:
    """The first screen of the demonstration, drawn by an interpreter that has drawn nothing else yet.

    What Textual remembers of colours from another screen of the same run would show in it.
    """
    root = Path(__file__).parents[1]
    drawn = subprocess.run(
        [sys.executable, "-m", "tests.demo_frame"], cwd=root, capture_output=True, check=True
    )
    return drawn.stdout.decode("utf-8")


def _drawn_here() -> str:
    """The same, as the app paints it once it has come to rest."""
    kept = {
        name: value for name, value in os.environ.items() if not name.startswith(("TEXTUAL", "NO_", "FORCE_"))
    }
    with (
        mock.patch.dict(os.environ, kept | _COLOURS, clear=True),
        # Long after the job was forged, so that no clock of a heat runs.
        Shop(":memory:", lambda: datetime(2100, 1, 1, tzinfo=UTC)) as shop,
    ):
        session = shop.open(import_job(shop.log, JOB_FILE.read_text(encoding="utf-8")))
        app = CoachApp(shop, session=session, notice=NOTICE, straight=True)
        drawn: list[str] = []

        def take(_: Newest, frame: str, __: Size) -> None:
            drawn.append(frame)
            app.exit()

        app.at_rest, app.rests_after_s = take, _AT_ONCE_S
        app.run(headless=True, size=USUAL_SIZE, auto_pilot=_give_up_in_time)
    [frame] = drawn
    return frame


async def _give_up_in_time(pilot: Pilot[object]) -> None:
    pilot.app.set_timer(_PATIENCE_S, pilot.app.exit)


if __name__ == "__main__":
    sys.stdout.buffer.write(_drawn_here().encode("utf-8"))
