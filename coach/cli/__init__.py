"""The `coach` command: takes a command line, does what it asks, and gives back the exit code."""

from __future__ import annotations

import gc
import sys
from collections.abc import Sequence


def main(argv: Sequence[str] | None = None) -> int:
    """Do what a command line asks and return the exit code: see `docs/commands.md`.

    Nothing costly is loaded here: each command loads what it needs once it is chosen.
    """
    try:
        from coach.cli.boundary import carry_out

        code = carry_out(list(sys.argv[1:] if argv is None else argv))
        if argv is None:
            from coach.cli.stopping import stop_no_more

            stop_no_more()
        return code
    except KeyboardInterrupt:  # while the little that is needed for this was loaded
        return 130
    finally:
        if argv is None:
            # The process ends with this, and need not look through all that it holds for rubbish once more.
            gc.freeze()
