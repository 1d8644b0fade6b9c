"""The `coach` command: takes a command line, does what it asks, and gives back the exit code."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence


def main(argv: Sequence[str] | None = None) -> int:
    """Do what a command line asks and return the exit code: see `docs/commands.md`.

    Nothing costly is loaded here: each command loads what it needs once it is chosen.
    """
    try:
        _keep_no_half_of_what_is_compiled()
        from coach.cli.boundary import carry_out

        code = carry_out([_as_typed(word) for word in (sys.argv[1:] if argv is None else argv)])
        if argv is None:
            from coach.cli.stopping import stop_no_more

            stop_no_more()
        return code
    except KeyboardInterrupt:  # while the little that is needed for this was loaded
        return 130
    except RuntimeError as error:  # the same while a class was made, before Python 3.12
        if not isinstance(error.__cause__, KeyboardInterrupt):
            raise
        return 130
    finally:
        if argv is None:
            # The process ends with this, and need not look through all that it holds for rubbish once more.
            gc.freeze()


def _as_typed(word: str) -> str:
    """A word as it was typed in UTF-8 where Python has read it as plain ASCII, as some terminals have it.

    >>> _as_typed("geh\\udcc3\\udca4rtet"), _as_typed("geh\\udce4rtet") == "geh\\udce4rtet"
    ('gehärtet', True)
    """
    try:
        return word.encode("utf-8", "surrogateescape").decode("utf-8")
    except UnicodeError:
        return word


_ROOM_TO_COMPILE = 1 << 25  # bytes: the coach compiled, and all that it uses, with some to spare (our choice)


def _keep_no_half_of_what_is_compiled() -> None:
    """On a full disk, or where files may not be large, let Python keep nothing of what it compiles.

    Before 3.12.8 and 3.13.1 it would keep the half that found room, and then never start again:
    https://github.com/python/cpython/issues/126606.
    """
    if sys.dont_write_bytecode or not hasattr(os, "statvfs"):
        return
    import resource

    try:
        disk = os.statvfs(__file__)
        room = disk.f_bavail * disk.f_frsize
    except OSError:
        room = 0
    most = resource.getrlimit(resource.RLIMIT_FSIZE)[0]
    limited = most not in (resource.RLIM_INFINITY, -1) and most < _ROOM_TO_COMPILE
    sys.dont_write_bytecode = limited or room < _ROOM_TO_COMPILE
