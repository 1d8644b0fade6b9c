"""Who may read a file: of what holds a job its owner alone, of what is to be shown as the user has it."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager

_usual_masks: list[int] = []


@contextmanager
def for_the_user_alone() -> Iterator[None]:
    """Whatever is made meanwhile, nobody else may read, unless it is said to be for others."""
    _usual_masks.append(os.umask(0o077))
    try:
        yield
    finally:
        os.umask(_usual_masks.pop())


def mode_for_others() -> int:
    """The rights of a file that the user asked for to be shown: those that any program would give it."""
    return 0o666 & ~(_usual_masks[-1] if _usual_masks else 0o077)
