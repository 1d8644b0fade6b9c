"""The part of the shop that sets a job aside, and takes it up again; each asks first."""

from __future__ import annotations

from coach.bench.answer import Answer
from coach.bench.glance import JobSummary
from coach.log.status import JobStatus
from coach.screens.reply import ask
from coach.screens.shop_new import ProposingShop
from coach.telling.entered import answer_text

_ASIDE = "Set {} aside? Enter or Ctrl+A again does, Esc does not."
_BACK = "Take {} up again? Enter or Ctrl+A again does, Esc does not."


class AsideShop(ProposingShop):
    """A screen with jobs, of which one can be set aside."""

    def __init__(self) -> None:
        super().__init__()
        self._asked_aside: JobSummary | None = None  # what a second key press would set aside, or take up

    def _job(self) -> JobSummary | None:
        """The job that is chosen."""
        raise NotImplementedError

    def jobs_changed(self) -> None:
        """Show the jobs as they are now."""
        raise NotImplementedError

    def asks_of_another(self) -> None:
        """Another job is chosen: what was asked of one is asked no more."""
        job, asked = self._job(), self._asked_aside
        if asked is not None and (job is None or job.job != asked.job):
            self._asked_aside = None

    def keeps_as_it_is(self) -> bool:
        """No to what was asked; False where nothing was."""
        asked, self._asked_aside = self._asked_aside, None
        if asked is None:
            return False
        self.tell("It stays set aside." if asked.state is JobStatus.SET_ASIDE else "It stays in hand.")
        return True

    def action_aside(self) -> None:
        job = self._job()
        if job is None or job.state is JobStatus.DAMAGED:
            self.tell("Choose a job to set aside.", bad=True)
            return
        if self._asked_aside is None or self._asked_aside.job != job.job:
            self._asked_aside = job
            asked = _BACK if job.state is JobStatus.SET_ASIDE else _ASIDE
            ask(self, asked.format(job.title), self.action_aside, self._left_as_it_is, by_enter=True)
            return
        self._asked_aside = None
        if (answer := self.attempt(lambda: self._put_aside(job))) is not None:
            self.tell(f"{job.title}: {answer_text(answer, self.shown)}")
            self.jobs_changed()

    def _left_as_it_is(self) -> None:
        self.keeps_as_it_is()

    def _put_aside(self, job: JobSummary) -> Answer:
        session = self.coach.shop.open(job.job)
        return session.bring_back() if job.state is JobStatus.SET_ASIDE else session.set_aside()
