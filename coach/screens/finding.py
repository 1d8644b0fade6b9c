"""A screen on which letters that are typed find something by its name."""

from __future__ import annotations

from textual import events

from coach.screens.screen import CoachScreen
from coach.screens.widgets.find_line import FindLine


class FindingScreen(CoachScreen):
    """Hands what is typed or pasted to its find line, and shows anew what is found."""

    @property
    def sought(self) -> str:
        """What is looked for; nothing for all."""
        return self.query_one(FindLine).sought

    def show_found(self) -> None:
        """Something else is looked for: show what is found."""
        raise NotImplementedError

    @property
    def is_typed_into(self) -> bool:
        return bool(self.sought)

    def refuses_a_size(self) -> bool:
        """Whether what is looked for may be a size, which is then said: nothing is begun from one."""
        if not any(letter.isdigit() for letter in self.sought):
            return False
        self.tell("Sizes are typed at the bench: Esc, then letters alone, to begin a job.", bad=True)
        return True

    def on_key(self, event: events.Key) -> None:
        if self.query_one(FindLine).takes(event):
            event.stop()
            self.show_found()

    def on_paste(self, event: events.Paste) -> None:
        if self.query_one(FindLine).takes_pasted(event.text):
            self.show_found()
