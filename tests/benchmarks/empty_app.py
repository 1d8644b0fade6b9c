"""The least that Textual can show: an application with one line of text."""

from __future__ import annotations

TEXT = "Nothing on the anvil"


def run() -> None:
    """Show the line until the terminal goes away."""
    from textual.app import App, ComposeResult
    from textual.widgets import Static

    class EmptyApp(App[None]):
        def compose(self) -> ComposeResult:
            yield Static(TEXT)

    EmptyApp().run()


if __name__ == "__main__":
    run()
