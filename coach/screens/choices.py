"""What the smith chose last, kept in a small file: the look of the screens and the gauge in hand."""

from __future__ import annotations

import json
import tomllib
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from textual.theme import Theme

from coach.files import text_of
from coach.operations.gauges import GAUGES
from coach.settings import set_now
from coach.written import put

#: The looks, in the order that one key goes through them, with what each is for; the first is the usual one.
LOOKS: dict[str, tuple[Theme, str]] = {
    name: (Theme(name=name, **look["theme"]), look["told"])
    for name, look in tomllib.loads(Path(__file__).with_name("looks.toml").read_text("utf-8")).items()
}


class Choices(NamedTuple):
    """What stays as it was chosen until it is chosen anew."""

    look: str = next(iter(LOOKS))
    gauge: str | None = None  # what sizes of the step in hand are read with; None is what it names itself
    gauge_of: str = ""  # the step that it was chosen at, with its job: the next step's is its own again


def kept_choices(file: Path | None) -> Choices:
    """What was chosen last; the usual where nothing was, or nothing that is known, or no file is readable."""
    usual = Choices(look=set_now().get("look") or Choices().look)
    try:
        kept = json.loads(text_of(file)) if file is not None else None
    except (OSError, ValueError, RecursionError):
        return usual
    if not isinstance(kept, dict):
        return usual
    look, gauge, gauge_of = kept.get("look"), kept.get("gauge"), kept.get("gauge_of")
    return Choices(
        look if isinstance(look, str) and look in LOOKS and not set_now().get("look") else usual.look,
        gauge if isinstance(gauge, str) and gauge in GAUGES else usual.gauge,
        gauge_of if isinstance(gauge_of, str) else usual.gauge_of,
    )


def keep_choices(file: Path | None, choices: Choices) -> None:
    """Keep it for next time; a disk that cannot be written only forgets it."""
    if file is None:
        return
    with suppress(OSError):
        file.parent.mkdir(parents=True, exist_ok=True)
        put(file, f"{json.dumps(choices._asdict())}\n".encode(), over=True)
