"""What is shown in a window that nothing fits in."""

from __future__ import annotations

from textual.widgets import Static


class TooSmall(Static):
    """Covers the screen below its floor; what is typed stays underneath."""

    DEFAULT_CSS = """
    TooSmall {
        layer: over;
        width: 100%;
        height: 100%;
        display: none;
        content-align: center middle;
        text-align: center;
        background: $background;
    }
    """

    def __init__(self) -> None:
        super().__init__("Make the window larger.", markup=False)
