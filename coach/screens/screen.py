"""What every screen has: its help, its breakpoints, and one way to show a trouble."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, cast

from textual.binding import Binding, BindingType
from textual.screen import Screen
from textual.widgets import Footer

from coach.bench.standing import Answer
from coach.screens.widgets.too_small import TooSmall

if TYPE_CHECKING:
    from collections.abc import Callable

    from coach.screens.app import CoachApp

#: Seconds between looks for what another window or a command has entered.
LOOK_EVERY_S = 2.0


def key(keys: str, action: str, words: str, shown_key: str = "", *, show: bool = True) -> Binding:
    """A key that works whatever has the focus."""
    return Binding(keys, action, words, key_display=shown_key or None, show=show, priority=True, id=action)


def foot() -> Footer:
    """The line of keys at the bottom; the palette is named in the help, where there is room for it."""
    return Footer(compact=True, show_command_palette=False)


class CoachScreen(Screen[None]):
    """A place the smith can be; it asks the session for everything and keeps nothing."""

    HORIZONTAL_BREAKPOINTS = [(0, "-cramped"), (30, "-narrow"), (80, "-normal"), (120, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-flat"), (9, "-tiny"), (18, "-low"), (24, "-middling"), (36, "-tall")]
    BINDINGS: ClassVar[list[BindingType]] = [key("f1", "help", "Help", "F1")]
    NAME: ClassVar[str] = ""
    HELP_TEXT: ClassVar[str] = ""

    @property
    def coach(self) -> CoachApp:
        """The app, which holds the shop and moves between screens."""
        return cast("CoachApp", self.app)

    def cover(self) -> TooSmall:
        """The cover for a window that is too small."""
        return TooSmall()

    def action_help(self) -> None:
        from coach.screens.help import HelpScreen

        self.app.push_screen(HelpScreen(self.NAME, self.HELP_TEXT, type(self).shown_keys()))

    @classmethod
    def shown_keys(cls) -> tuple[tuple[str, str], ...]:
        """Every key of this screen with what it does, as the help lists them."""
        found: dict[str, tuple[str, str]] = {}
        for kind in reversed(cls.__mro__):
            for binding in kind.__dict__.get("BINDINGS", ()) if issubclass(kind, CoachScreen) else ():
                if isinstance(binding, Binding):
                    shown = binding.key_display or binding.key.split(",")[0]
                    found[binding.action] = (shown, binding.tooltip or binding.description)
        return tuple(found.values())

    @classmethod
    def deeds(cls) -> tuple[tuple[str, str], ...]:
        """Every action of this screen with its words, for the command palette."""
        found: dict[str, str] = {}
        for kind in reversed(cls.__mro__):
            for binding in kind.__dict__.get("BINDINGS", ()) if issubclass(kind, CoachScreen) else ():
                if isinstance(binding, Binding):
                    found[binding.action] = binding.tooltip or binding.description
        return tuple(found.items())

    def tell(self, sentence: str, *, bad: bool = False) -> None:
        """Show one sentence; a screen with an answer line shows it there."""
        self.notify(sentence, severity="error" if bad else "information", markup=False)

    def attempt(self, deed: Callable[[], Answer]) -> Answer | None:
        """Do something that can be refused; show the refusal and return None when it is."""
        from coach.screens.troubles import TROUBLES, sentence_of

        try:
            return deed()
        except TROUBLES as trouble:
            self.tell(sentence_of(trouble), bad=True)
            return None
