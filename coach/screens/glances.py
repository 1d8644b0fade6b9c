"""What was told of each job before, for the shop: shown at once while no entry has come since."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from coach.bench.glance import JobSummary, Lines, in_order
from coach.log.newest import Newest
from coach.telling.glance import Glance, glance
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.bench.shop import Shop
    from coach.remembered import Memory


class Glances:
    """A glance at every job that was looked at, each under the job's newest entry.

    Without a memory they are forgotten with the screen.
    """

    def __init__(self, shop: Shop, memory: Memory | None) -> None:
        self._shop = shop
        self._memory = memory
        self._newest: dict[str, Newest] = {}
        self._told: dict[Newest, Glance | None] = {}
        self._lines = Lines(memory, shop.log.path)
        self._unread: list[Newest] = []
        self._grown = self._read = False
        self._recall()

    def look(self) -> None:
        """See which jobs there are, and how far each goes now; raises LogError."""
        latest = self._shop.log.latest_first()
        self._newest = {one.job: one for one in latest}
        self._lines.forget_troubles()
        _, self._unread = self._lines.of(latest)

    def jobs(self) -> tuple[JobSummary, ...]:
        """The jobs that are known as they are now, the latest touched first."""
        return in_order(self._lines.of(self._newest.values())[0])

    @property
    def known(self) -> int:
        """How many these are."""
        return len(self._newest) - len(self._unread)

    @property
    def unread(self) -> int:
        """How many jobs there are besides."""
        return len(self._unread)

    def read_on(self, most: int) -> None:
        """Read so many of those, the latest touched first; raises LogError."""
        some, self._unread = self._unread[:most], self._unread[most:]
        self._lines.take(some, [self._shop.summary(one.job) for one in some])
        self._read = True

    def of(self, job: str) -> Glance | None:
        """What is known of a job as it stands now; None while that is nothing."""
        newest = self._newest.get(job)
        return self._told.get(newest) if newest is not None else None

    def is_wanting(self, job: str) -> bool:
        """Whether a job was not looked at since its newest entry."""
        newest = self._newest.get(job)
        return newest is not None and newest not in self._told

    def take(self, job: str) -> None:
        """Open a job and look; one that cannot be opened is left as it is, and raises Refusal."""
        newest = self._newest[job]
        self._told[newest] = None
        session = self._shop.open(job)
        told = glance(session.standing(), session.first_to_measure(), Shown(session.system))
        self._newest[job] = session.newest
        self._told[session.newest] = told
        self._grown = True

    def keep(self) -> None:
        """Remember what was found since."""
        if self._read:
            self._read = False
            self._lines.keep(self._newest.values())
        if self._memory is None or not self._grown:
            return
        self._grown = False
        kept = [[*newest, *told] for newest in self._newest.values() if (told := self._told.get(newest))]
        self._memory.keep(self._name, (), json.dumps(kept, ensure_ascii=False))

    def _recall(self) -> None:
        text = self._memory.recall(self._name, ()) if self._memory is not None else None
        for job, number, digest, *told in json.loads(text or "[]"):
            self._told[Newest(job, number, digest)] = Glance(*told)

    @property
    def _name(self) -> str:
        return f"glances of {self._shop.log.path.absolute()} in {self._shop.system or 'its own units'}"
