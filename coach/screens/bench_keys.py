"""The keys of the bench: far apart and one at a time, for gloves."""

from __future__ import annotations

from typing import Final

from textual.binding import Binding

from coach.screens.screen import key

BENCH_KEYS: Final[list[Binding]] = [
    key("f2", "heat", "Out", "Out of the fire: count a heat, start its clock"),
    key("f3", "fire", "In", "Back in the fire: start the soak"),
    key("f4", "done", "Done", "Finish this step"),
    key("delete", "no_heat", "No heat", "Where the end of a step is asked for: it took no heat", show=False),
    key("f5", "back", "Back", "Go back to the last finished step", show=False),
    key("f6", "note", "Note", "Write a note; again, something to put right"),
    key("f7,minus", "hot", "Hot", "Say whether the next readings are hot or cold"),
    key("f8", "strike", "Undo", "Strike out the last entry"),
    key("escape", "leave", "Shop", "Go back to the shop"),
    key("f12,ctrl+y", "insist", "Insist", "Stand by a reading that was questioned", show=False),
    key("slash,ctrl+g", "gauge", "Gauge", "Read sizes with the next gauge", show=False),
    key("up", "choose(-1)", "Up", "Choose the size before", show=False),
    key("down", "choose(1)", "Down", "Choose the size after", show=False),
    key("pageup", "turn(-1)", "Page up", "Scroll the texts back", show=False),
    key("pagedown", "turn(1)", "Page down", "Scroll the texts on", show=False),
]
