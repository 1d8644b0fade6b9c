"""Every screen on hostile text at a real terminal: `python -m tests.screens.walked FOLDER`.

The file `seen.json` in the folder tells which screens were shown, and whether such text stood on them.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

from textual import events
from textual.pilot import Pilot
from textual.widgets import Input

from tests.hostile import ORDERS, REMAINS, hostile, open_the_gates
from tests.offline import refuse_the_network

if __name__ == "__main__":  # and not where it is only looked at
    open_the_gates()

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.declared import classes_in
from coach.log.kinds.forged_with import ForgedWith
from coach.quantities import as_words
from coach.screens.app import CoachApp
from coach.screens.screen import CoachScreen
from tests.screens.stage import PEG, clock, screen_text

SCREENS = Path(__file__).parents[2] / "coach" / "screens"


def places() -> list[str]:
    """Every file that holds a screen of its own."""
    files = {path.stem: classes_in(f"coach.screens.{path.stem}") for path in SCREENS.glob("[!_]*.py")}
    return sorted(
        stem
        for stem, kinds in files.items()
        if any(issubclass(kind, CoachScreen) and kind.NAME for kind in kinds)
    )


def forged(shop: Shop) -> Session:
    """A job with much to show: notes, something to put right, a thin reading with its ways back."""
    shop.forged_with = ForgedWith(fire=ORDERS, hammer="")
    session = shop.begin(hostile(PEG), f"{ORDERS}.yaml")
    for _ in range(4):  # from so many heats and sizes it teaches of its fire
        session.heat()
        session.read("point.side", "8.5", insist=True)
    session.read("point.side", "4", insist=True)
    session.note(ORDERS * 3)
    session.to_right(ORDERS * 2, "point")
    return session


async def walk(pilot: Pilot[object], session: Session, folder: Path) -> None:
    """Open every screen in turn."""
    app = pilot.app
    seen: dict[str, bool] = {}
    assert isinstance(app, CoachApp)

    async def look(place: str) -> None:
        await pilot.pause()
        while getattr(app.screen, "is_busy", False):
            await pilot.pause()
        await pilot.pause()
        seen[place] = seen.get(place, False) or REMAINS in screen_text(app)

    given: dict[str, tuple[object, ...]] = {
        "shop": (ORDERS,),
        "faults": (ORDERS, (as_words(ORDERS),)),
        "help": (ORDERS, ORDERS, ()),
        "palette": (app.screen,),
        "new": (),
        "own_figures": (),
        "rack": (folder / "recipes" / f"{ORDERS}.yaml",),
    }
    for place in places():
        app.go(place, *given.get(place, (session,)))
        await look(place)
        if place == "new":  # an answer comes back with the sentence why it will not do, and in the box
            app.screen.query_one(Input).value = ORDERS
            await look(place)
            await pilot.press("enter")
            await look(place)
        if place in ("bench", "history", "haft", "palette"):
            await pilot.press(*(["f3"] if place == "history" else []))
            app.screen.post_message(events.Paste(ORDERS))
            await look(place)
            await pilot.press("tab")
            await look(place)
    (folder / "seen.json").write_text(json.dumps(seen), encoding="utf-8")
    app.exit()


def main(folder: Path) -> None:
    """Walk through a shop made in the folder."""
    refuse_the_network()
    shelf = folder / "recipes"
    shelf.mkdir()
    (shelf / f"{ORDERS}.yaml").write_text(hostile(PEG), encoding="utf-8")
    (shelf / f"{ORDERS}2.yaml").write_text("title: 3\n", encoding="utf-8")
    with Shop(folder / "shop.sqlite", clock()) as shop:
        session = forged(shop)
        app = CoachApp(shop, session=session, folders=(shelf,), notice=ORDERS)

        async def walked(pilot: Pilot[object]) -> None:
            await walk(pilot, session, folder)

        app.run(auto_pilot=walked)
        if app.fault is not None:
            raise app.fault


if __name__ == "__main__":
    main(Path(sys.argv[1]))
