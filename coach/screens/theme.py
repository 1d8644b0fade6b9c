"""The looks of the coach: for the shop, for a sunlit doorway, for the dark, and of the highest contrast."""

from __future__ import annotations

import tomllib
from pathlib import Path

from textual.theme import Theme

#: In the order that one key goes through them, with what each is for; the first is the usual one.
LOOKS: dict[str, tuple[Theme, str]] = {
    name: (Theme(name=name, **look["theme"]), look["told"])
    for name, look in tomllib.loads(Path(__file__).with_name("looks.toml").read_text("utf-8")).items()
}
