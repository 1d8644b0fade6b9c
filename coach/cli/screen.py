"""The screens opened from the command line, where there is a terminal to show them on."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path
from typing import TYPE_CHECKING

from coach.cli.opening import open_shop
from coach.cli.reply import Asked, Refused, Reply

if TYPE_CHECKING:
    from coach.bench.session import Session
    from coach.bench.shop import Shop
    from coach.log.newest import Newest


IN_BROWSER = "textual.drivers.web_driver:WebDriver"
"""What the toolkit's server has the screens drawn by: the browser is the terminal then."""


def need_a_terminal(asked: Asked, instead: str) -> None:
    """Raise Refused, which names the command to use instead, where no screen can be shown."""
    if asked.json:
        reason = "a screen cannot answer in JSON"
    elif os.environ.get("TEXTUAL_DRIVER") == IN_BROWSER:
        return
    elif not (sys.stdin.isatty() and sys.stdout.isatty()):
        reason = "a screen needs a terminal to read from and to write on"
    elif not sys.stderr.isatty():  # what a screen is drawn on: it would be typed at unseen
        reason = "a screen is drawn on standard error, which is sent elsewhere (by 2>)"
    elif os.environ.get("TERM") == "dumb":
        reason = "this terminal (TERM=dumb) cannot show a screen"
    else:
        return
    raise Refused(f"No screen was opened, because {reason}: use `{instead}`.")


def show_job(
    asked: Asked,
    newest: Newest | None,
    opened: Callable[[], AbstractContextManager[tuple[Shop, Session]]],
    notice: str = "",
    *,
    straight: bool = False,
    ready_made: Path | None = None,
) -> Reply[None]:
    """Open the screens at a job, until they are left.

    Args:
        asked: the command line.
        newest: the job's newest entry, to paint what it was last opened with; None where that is not known.
        opened: opens the shop and the job.
        notice: one sentence to show first.
        straight: whether a job under way opens at its bench, without the summary of where it stands.
        ready_made: the file of what it opens with in a window of the usual size and colours.
    """
    from coach.cli.curtain import Curtain

    curtain = Curtain(newest, asked.units, notice, straight, ready_made=ready_made)
    with curtain, opened() as (shop, session):
        from coach.screens.run import run

        left = run(
            shop,
            session=session,
            notice=notice,
            straight=straight,
            at_rest=curtain.keep,
            memory=curtain.memory,
            modes=curtain.hand_over(),
        )
        return Reply((), None, left)


def open_the_shop(asked: Asked) -> Reply[None]:
    """What `coach` does alone: the screen of the shop."""
    need_a_terminal(asked, "coach jobs --json" if asked.json else "coach jobs")
    with open_shop(asked) as shop:
        from coach.cli.curtain import Curtain
        from coach.screens.run import run

        curtain = Curtain(None, asked.units, "", False)
        return Reply((), None, run(shop, at_rest=curtain.keep, memory=curtain.memory))
