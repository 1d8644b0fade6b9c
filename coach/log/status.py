"""How a job stands as a whole: under way, resting, set aside or finished."""

from __future__ import annotations

from enum import StrEnum


class JobStatus(StrEnum):
    """One word for a job in a list of jobs."""

    UNDER_WAY = "under way"
    RESTING = "resting"
    SET_ASIDE = "set aside"
    FINISHED = "finished"
    DAMAGED = "damaged"  # its entries cannot be read

    def once(self, after: JobStatus | None, *, finished: bool) -> JobStatus:
        """The status once an entry is made.

        Args:
            after: what an entry of that kind leaves; None when it changes nothing.
            finished: whether every step is done now.
        """
        if after is None:
            return self
        if finished and after is not JobStatus.SET_ASIDE:
            return JobStatus.FINISHED
        return after
