"""The text of `coach --help`, made once and told again while the program stays as it is."""

from __future__ import annotations

import os
import sys
from contextlib import suppress

from coach.places import cache_folder
from coach.remembered import Memory


def help_text() -> str:
    """What `coach --help` prints at the width there is."""
    memory, key = Memory(cache_folder()), (_columns(),)
    text = memory.recall("help", key)
    if text is None:
        text = made()
        memory.keep("help", key, text)
    return text


def made() -> str:
    """The same, made anew."""
    import io
    from contextlib import redirect_stdout

    from coach.cli.line import understood

    told = io.StringIO()
    with redirect_stdout(told), suppress(SystemExit):
        understood(["--help"])
    return told.getvalue()


def _columns() -> str:
    """What argparse takes the width from."""
    named = os.environ.get("COLUMNS", "")
    if not named:
        with suppress(OSError, ValueError, AttributeError):
            named = str(os.get_terminal_size(sys.__stdout__.fileno()).columns)  # type: ignore[union-attr]
    return named
