"""The least that Textual can show: one line of text.

With `--typing` an Input that answers too, with `--timer` a line that is counted on once a second.
"""

from __future__ import annotations

import sys

TEXT = "Nothing on the anvil"
TYPING = "--typing"
TIMER = "--timer"


def run(*, typing: bool, timer: bool = False) -> None:
    """Show the line, and the answer to what is typed or the seconds, until the terminal goes away."""
    from textual.app import App, ComposeResult
    from textual.widgets import Static

    class EmptyApp(App[None]):
        def compose(self) -> ComposeResult:
            yield Static(TEXT)

    if timer:

        class TimerApp(EmptyApp):
            seconds = 0

            def on_mount(self) -> None:
                self.set_interval(1.0, self.count)

            def count(self) -> None:
                self.seconds += 1
                self.query_one(Static).update(f"{TEXT} for {self.seconds} s")

        TimerApp().run()
        return
    if not typing:
        EmptyApp().run()
        return
    from textual.widgets import Input

    class TypingApp(EmptyApp):
        def compose(self) -> ComposeResult:
            yield Static(TEXT)
            yield Input()

        def on_mount(self) -> None:
            self.query_one(Input).focus()

        def on_input_submitted(self, event: Input.Submitted) -> None:
            event.input.clear()
            self.query_one(Static).update(answer_to(event.value))

    TypingApp().run()


def answer_to(typed: str) -> str:
    """What the application with an Input shows when a line was typed."""
    return f"Taken: {typed}"


if __name__ == "__main__":
    run(typing=TYPING in sys.argv, timer=TIMER in sys.argv)
