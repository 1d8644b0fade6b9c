"""What is wrong with a recipe: every fault with its place in the file."""

from __future__ import annotations

from textual.app import ComposeResult

from coach.quantities import Words
from coach.screens.screen import CoachScreen, key
from coach.screens.widgets.panel import Lines
from coach.screens.wording import joined, said
from coach.telling.words import write


class FaultsScreen(CoachScreen):
    """All the faults of one recipe file."""

    CSS_PATH = "faults.tcss"
    OVER = True
    NAME = "The faults of a recipe"
    HELP_TEXT = """
        Each line names the file, the line and the column, and says what is wrong and what was expected.
        Put all of them right in the file; the list in the shop is read afresh each time it is opened.
    """
    BINDINGS = [key("escape,enter", "close", "Shop", "Go back")]

    def __init__(self, name: str, faults: tuple[Words, ...]) -> None:
        super().__init__()
        self._told = name
        self._faults = faults

    def compose(self) -> ComposeResult:
        faults = Lines(joined(said(f"✗ {write(fault, self.shown)}") for fault in self._faults))
        yield from self.framed(f"{self._told} cannot be used yet", faults)
