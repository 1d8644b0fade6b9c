"""The looks of the coach: for the shop, for a sunlit doorway, for the dark, and of the highest contrast."""

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
    accent="#7a4000",
    success="#1f6b1f",
    warning="#8a5a00",
    error="#a8200f",
    foreground="#1a1511",
    background="#faf7f2",
    surface="#f0ebe2",
    panel="#e4dccf",
    dark=False,
    variables={
        "text-muted": "#4a4138",
        "text-secondary": "#5c3c0e",
        "text-success": "#155015",
        "text-warning": "#663f00",
        "text-error": "#8c160a",
        "footer-key-foreground": "#6e3b00",
    },
)

#: No bright field anywhere: the eye stays used to the dark in which colours of heat are judged.
EMBER = Theme(
    name="ember",
    primary="#a8623a",
    secondary="#8a7358",
    accent="#c98a4a",
    success="#6f9a55",
    warning="#b98a3a",
    error="#c05a48",
    foreground="#b8a890",
    background="#080706",
    surface="#0e0c0a",
    panel="#171310",
    dark=True,
    variables={
        "text-muted": "#8c7d6a",
        "text-secondary": "#a98a60",
        "text-success": "#7fae62",
        "text-warning": "#c99a48",
        "text-error": "#d27060",
        "footer-key-foreground": "#c98a4a",
        "input-selection-background": "#8a3a1a 50%",
    },
)

CONTRAST = Theme(
    name="contrast",
    primary="#ffff00",
    secondary="#ffffff",
    accent="#ffff00",
    success="#00ff00",
    warning="#ffff00",
    error="#ff6060",
    foreground="#ffffff",
    background="#000000",
    surface="#000000",
    panel="#202020",
    dark=True,
    variables={
        "text-muted": "#e0e0e0",
        "text-secondary": "#ffff80",
        "text-success": "#40ff40",
        "text-warning": "#ffff40",
        "text-error": "#ff8080",
        "footer-key-foreground": "#ffff00",
        "input-selection-background": "#ffff00 40%",
    },
)

#: In the order that one key goes through them, with what each is for.
LOOKS: dict[str, tuple[Theme, str]] = {
    FORGE.name: (FORGE, "Dark, for the shop"),
    DAYLIGHT.name: (DAYLIGHT, "Bright, for a sunlit doorway"),
    EMBER.name: (EMBER, "Dim, for eyes that judge the heat"),
    CONTRAST.name: (CONTRAST, "The highest contrast"),
}
