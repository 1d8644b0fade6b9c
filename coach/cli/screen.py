"""The screens opened from the command line, where there is a terminal to show them on."""

from __future__ import annotations

import argparse
import os
import sys
from typing import TYPE_CHECKING

from coach.cli.opening import open_shop
from coach.cli.reply import Refused, Reply

if TYPE_CHECKING:
    from coach.bench.shop import Shop


def need_a_terminal(asked: argparse.Namespace, instead: str) -> None:
    """Raise Refused, which names the command to use instead, where no screen can be shown."""
    if asked.json:
        reason = "a screen cannot answer in JSON"
    elif not (sys.stdin.isatty() and sys.stdout.isatty()):
        reason = "a screen needs a terminal to read from and to write on"
    elif os.environ.get("TERM") == "dumb":
        reason = "this terminal (TERM=dumb) cannot show a screen"
    else:
        return
    raise Refused(f"No screen was opened, because {reason}: use `{instead}`.")


def show(shop: Shop, job: str | None, notice: str = "", *, straight: bool = False) -> Reply[None]:
    """Open the screens on a shop, at the bench of a job when one is named, until they are left."""
    from coach.screens.app import run

    return Reply((), None, run(shop, job=job, notice=notice, straight=straight))


def open_the_shop(asked: argparse.Namespace) -> Reply[None]:
    """What `coach` does alone: the screen of the shop."""
    need_a_terminal(asked, "coach jobs --json" if asked.json else "coach jobs")
    with open_shop(asked) as shop:
        return show(shop, None)
