"""The keys of the bench: far apart and one at a time, for gloves."""

from __future__ import annotations

from typing import Final

from textual.binding import BindingType

from coach.screens.screen import key

BENCH_KEYS: Final[list[BindingType]] = [
    key("f2", "heat", "Out", "Out of the fire: count a heat, start its clock"),
    key("f3", "fire", "In", "Back in the fire: start the soak"),
    key("f4", "done", "Done", "Finish this step"),
    key("f5", "back", "Back", "Take the last finished step up again", show=False),
    key("f6", "note", "Note", "Write a note; again, something to put right"),
    key("f7", "hot", "Hot", "Say whether the next readings are hot or cold"),
    key("f8", "strike", "Undo", "Strike out the last entry"),
    key("f9", "history", "Log", "Show every entry of this job"),
    key("f10", "rest", "Rest", "Put the job down, or close the coach"),
    key("escape", "leave", "Shop", "Go back to the shop"),
    key("f12,ctrl+y", "insist", "Insist", "Stand by a reading that was questioned", show=False),
    key(
        "ctrl+r",
        "remedies",
        "Ways back",
        "Show what can be done to come back onto plan",
        show=False,
        sign="*",
    ),
    key("ctrl+g", "gauge", "Gauge", "Read sizes with the next gauge", show=False, sign="/"),
    key("ctrl+b", "rights", "To put right", "Show what is to be put right", show=False, sign="+"),
    key("ctrl+d", "picture", "Picture", "Show the piece to scale", show=False),
    key("ctrl+t", "haft", "Haft", "Fit the eye to a haft that is there", show=False),
    key("ctrl+l", "plan", "Plan", "Show the plan of this job", show=False),
    key("up", "choose(-1)", "Up", "Choose the size before", show=False),
    key("down", "choose(1)", "Down", "Choose the size after", show=False),
    key("pageup", "turn(-1)", "Page up", "Scroll the texts back", show=False),
    key("pagedown", "turn(1)", "Page down", "Scroll the texts on", show=False),
]
