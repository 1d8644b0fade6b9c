"""The look of the coach: a dark forge, plain and of high contrast, and its daylight twin."""

from __future__ import annotations

from textual.theme import Theme

FORGE = Theme(
    name="forge",
    primary="#f0a03c",
    secondary="#d8c3a5",
    accent="#ffd27a",
    success="#8fd16a",
    warning="#ffc14d",
    error="#ff7a66",
    foreground="#f5ede2",
    background="#12100e",
    surface="#1c1815",
    panel="#2a241f",
    dark=True,
    variables={
        "text-muted": "#b9ab9a",
        "text-secondary": "#e3bd84",
        "text-success": "#a5e082",
        "text-warning": "#ffcf70",
        "text-error": "#ff9a8a",
        "footer-key-foreground": "#ffd27a",
        "input-selection-background": "#f0a03c 40%",
    },
)

DAYLIGHT = Theme(
    name="daylight",
    primary="#8a4b00",
    secondary="#5c4a33",
    accent="#9a5200",
    success="#1f6b1f",
    warning="#8a5a00",
    error="#a8200f",
    foreground="#1a1511",
    background="#faf7f2",
    surface="#f0ebe2",
    panel="#e4dccf",
    dark=False,
    variables={
        "text-muted": "#5d5348",
        "text-secondary": "#6b4713",
        "text-success": "#1c5e1c",
        "text-warning": "#7a4f00",
        "text-error": "#9a1c0d",
        "footer-key-foreground": "#8a4b00",
    },
)
