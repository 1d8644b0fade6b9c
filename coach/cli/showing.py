"""A shop whose sizes are told in the units that the command line asks for."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Literal

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.quantities import Shown


class ShowingShop(Shop):
    """Every job begun or opened here tells its sizes, and reads bare numbers, in one system of units."""

    def __init__(
        self,
        path: Path | str,
        clock: Callable[[], datetime],
        *,
        read_only: bool = False,
        system: Literal["mm", "in"] | None = None,
    ) -> None:
        """Open the log; `system` None leaves each job in its own units. Raises LogError."""
        super().__init__(path, clock, read_only=read_only)
        self._shown = None if system is None else Shown(system)

    def begin(self, text: str, source: str, name: str | None = None) -> Session:
        """See Shop."""
        return self._showing(super().begin(text, source, name))

    def open(self, job: str) -> Session:
        """See Shop."""
        return self._showing(super().open(job))

    def _showing(self, session: Session) -> Session:
        if self._shown is not None:
            session.show_in(self._shown)
        return session
