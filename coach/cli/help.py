"""The text of `coach --help`, made once and told again while the program stays as it is."""

from __future__ import annotations

from contextlib import suppress

from coach.places import cache_folder
from coach.remembered import Memory


def help_text() -> str:
    """What `coach --help` prints."""
    memory = Memory(cache_folder())
    text = memory.recall("help", ())
    if text is None:
        text = made()
        memory.keep("help", (), text)
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
