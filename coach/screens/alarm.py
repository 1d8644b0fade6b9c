"""The alarm that a forge can hear: a command of the smith's own, run beside the bench, never in its way."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from functools import partial
from threading import Thread

from coach.screens.screen import CoachScreen
from coach.settings import set_now


def sound(which: str, screen: CoachScreen) -> Thread | None:
    """Run what is set for `back` or `soaked`, if anything is; the thread that waits for it to end.

    It is run as it stands, without a shell, with nothing to read and nobody to write to. That it could not be
    run, or ended badly, is one sentence on the screen.
    """
    command: tuple[str, ...] | None = set_now().get(f"alarm.{which}")
    if not command:
        return None

    def tell(sentence: str) -> None:
        with suppress(RuntimeError):  # the coach was left meanwhile
            screen.app.call_from_thread(screen.if_there, partial(screen.tell, sentence, bad=True))

    thread = Thread(target=run_alarm, args=(which, command, tell), daemon=True)
    thread.start()
    return thread


def run_alarm(which: str, command: tuple[str, ...], tell: Callable[[str], None]) -> None:
    """Run a command to its end, and tell what went wrong with it."""
    import subprocess

    program = command[0][:40]
    try:
        done = subprocess.run(
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
            check=False,
        )
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "no program can be called so"
        tell(f"The alarm {program} cannot be run ({why}): `coach config set alarm.{which}` names another.")
        return
    if done.returncode:
        tell(f"The alarm {program} ended badly, with code {done.returncode}.")
