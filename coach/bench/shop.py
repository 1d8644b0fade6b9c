"""The shop: every job in one log, begun from recipes and opened again."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from contextlib import suppress
from datetime import date, datetime
from os.path import isdir
from pathlib import Path
from typing import TYPE_CHECKING, Self

from coach import __version__
from coach.bench.admission import NotAdmitted, admit_all
from coach.bench.beginnings import Plans, beginning_of, damaged, is_what_its_text_says, summary
from coach.bench.entering import EntryFault
from coach.bench.glance import JobSummary, in_order
from coach.bench.off_rack import OffRack
from coach.bench.rack import NO_CUTS, RackCuts, RackOfShop
from coach.bench.session import Session
from coach.bench.taken_then import began_then
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.log.carry import fault_of_entry, import_job, refused_entry
from coach.log.copies import check_not_lost, copies_in, folders_of, keep_backup
from coach.log.entries import Entry
from coach.log.errors import JobExists, LogDamaged, LogEmpty, LogError
from coach.log.jobs import Log
from coach.log.kinds.began import Began
from coach.log.kinds.forged_with import ForgedWith
from coach.log.kinds.hand_known import HandKnown
from coach.log.kinds.shop_known import ShopKnown
from coach.log.names import JOB_NAMES, LONGEST_JOB, as_kept, is_job_name, meant
from coach.metals.grade import keep_to, own_text
from coach.quantities.errors import did_you_mean, marked, odd_in
from coach.quantities.moments import as_entered, on_the_wall
from coach.quantities.refusal import Refusal
from coach.quantities.units import System
from coach.quantities.words import NOTHING, Words, run_on, say
from coach.recipe.freezing import frozen
from coach.recipe.model import Recipe

if TYPE_CHECKING:
    from coach.bench.known_shop import JobsBefore
    from coach.bench.next_time import NextTime
    from coach.remembered import Memory

#: What a name may be that is counted on: -2, -3… (our choice).
_LONGEST_STEM = LONGEST_JOB - 4
#: So many are named where one is not found (our choice).
_NAMED = 8


class Shop:
    """Opens the log and hands out sessions; raises LogError and its kinds for what a disk can do.

    A copy of the log is kept beside it, and in a second folder where there is one, at each day's first
    opening and at each rest.
    """

    def __init__(
        self,
        path: Path | str,
        clock: Callable[[], datetime],
        *,
        read_only: bool = False,
        system: System | None = None,
        second: Path | None = None,
    ) -> None:
        """Open the log; `system` is that of bare numbers, None leaves each job its own. Raises LogError.

        `second` is a second folder for copies, such as a stick; it is not made when it is not there.
        """
        self._clock = clock
        self.system = system
        """The units asked for; None tells each job in its own."""
        self.outlasts = True
        """Whether the log is still there once the coach is closed."""
        self.forged_with = ForgedWith(fire="", hammer="")
        """The fire and the hammer that a job is begun with where no others are named."""
        self.memory: Memory | None = None
        """Where what its jobs have taught is kept, that they need not be replayed for it again."""
        self.plans = Plans()
        """The plans of what its jobs began with."""
        self._jobs_before: JobsBefore | None = None
        folders = folders_of(Path(path), second) if str(path) != ":memory:" else []
        self._copies = [] if read_only else folders
        self.not_copied = NOTHING
        """Why a copy that was due could not be made, in sentences; nothing when none was or it could."""
        if self._copies:
            check_not_lost(Path(path), self._copies)
        # The whole file is looked through before each day's copy; a job's own entries whenever they are read.
        copied = self._is_copied(Path(path))
        try:
            self.log = Log(path, read_only=read_only, whole=not copied)
        except LogEmpty:
            check_not_lost(Path(path), folders, is_empty=True)
            raise
        if self._copies and not copied and self.log.newest():
            self.keep_copies()

    def _is_copied(self, path: Path) -> bool:
        if not self._copies:
            return False
        today = (self._today(), False)
        return any(copy[1:] == today for copy in copies_in(self._copies[0], path.name))

    def _today(self) -> date:
        return on_the_wall(self._clock()).date()

    def keep_copies(self) -> Words:
        """Keep copies of the log as it is now, and say why one could not be made; nothing when all could.

        A full disk must not stop the forging: an entry is safe in the log itself.
        """
        troubles = dict.fromkeys(self._not_copied_to(folder) for folder in self._copies)
        self.not_copied = run_on(troubles)
        return self.not_copied

    def _not_copied_to(self, folder: Path) -> Words:
        told = "No copy of the log was made in {}"
        if folder is not self._copies[0] and not isdir(folder.parent):
            return say(f"{told}: there is no such folder.", str(folder.parent))
        try:
            keep_backup(self.log, folder, self._today(), force=True)
        except LogDamaged as damage:
            return damage.words
        except LogError as error:
            return say(f"{told}. {{}}", str(folder), error.words)
        return NOTHING

    def now(self) -> str:
        """The shop's own moment, as entries carry it: ISO 8601, UTC."""
        return as_entered(self._clock())

    def close(self) -> None:
        """Let go of the log."""
        self.log.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @property
    def jobs_before(self) -> JobsBefore:
        """What the jobs of the log have taught; each is replayed once for as long as nothing is added."""
        from coach.bench.known_shop import JobsBefore

        if self._jobs_before is None:
            self._jobs_before = JobsBefore(self.log, self.plans, self.memory)
        return self._jobs_before

    @property
    def rack(self) -> RackOfShop:
        """The bars and offcuts that lie on the shop's rack."""
        off_rack = OffRack(self.log, self.plans, self.memory)
        return RackOfShop(self.log, self.now, off_rack.beyond_mm, off_rack.found)

    def begin(
        self,
        text: str,
        source: str,
        name: str | None = None,
        cuts: RackCuts = NO_CUTS,
        made: ForgedWith | None = None,
        at: str = "",
    ) -> Session:
        """Begin a job from a recipe's text; the recipe is frozen into it, and its cuts go off the rack.

        It begins with what the jobs before have taught of the hand and of the shop: of those in the same fire
        and with the same hammer, where they are named; `made` names others than are set. `at` is when the
        work began, as it is typed; "" for now.

        Raises:
            RecipeFaults: the recipe is refused.
            LedgerError: the recipe's metal does not balance.
            EntryFault: the name is taken or cannot be one, or `at` is no time that there was.
        """
        from coach.recipe.reader import read_recipe

        keep_to({})  # a new job takes the grades as they are now
        recipe = read_recipe(text, source)
        plan = look_back(recipe)
        beginning = Began(
            title=recipe.title,
            text=text,
            source=source,
            # As text: the log sorts the names in an object, and their order here is the smith's own.
            recipe=json.dumps(frozen(recipe), ensure_ascii=False, allow_nan=False),
            coach=__version__,
            units=recipe.system,
            grades=_own_grades(recipe),
        )
        if at:
            began_then(at, self._clock())
        while True:
            job = self._new_name(name or recipe.name, given=name is not None)
            try:
                entry = self.log.begin(job, as_entered(self._clock()), beginning, cuts.of(job))
            except JobExists as error:  # another window was first, and is seen in the next round
                if name is not None:
                    raise EntryFault(error.words) from None
            else:
                begun = self._with_what_is_known(self._session(job, plan, [entry]), made or self.forged_with)
                if at:
                    begun.begun_before(at)
                return begun

    def begins_with(
        self, recipe: Recipe, made: ForgedWith | None = None, but: str = ""
    ) -> tuple[HandKnown | ShopKnown, ...]:
        """What a job of a recipe begins with of the hand and of the shop, as the jobs before have taught it.

        `made` names another fire and hammer than are set; `but` is a job that does not teach.
        """
        from coach.bench.known_shop import begins_with, made_with

        return begins_with(self.jobs_before, made_with(made or self.forged_with, recipe), but)

    def next_time(self, session: Session) -> NextTime:
        """What a job cost most, and what to change of its recipe, by what the next job of it begins with.

        That is forged in the fire and with the hammer that this one was begun with, where they were named.
        """
        return session.next_time(lambda recipe: self.begins_with(recipe, session.forged_with))

    def _with_what_is_known(self, session: Session, made: ForgedWith) -> Session:
        """A job just begun, with the hand and the figures of the shop as the jobs before have taught them."""
        known = self.begins_with(session.recipe_begun_by, made, session.job)
        for hand in known:
            if isinstance(hand, HandKnown):
                with suppress(Refusal):  # it is begun, whatever becomes of that
                    session.know_hand(hand)
        if made.fire or made.hammer:
            session.begin_with(made)
        for one in known:
            if isinstance(one, ShopKnown):
                with suppress(Refusal):
                    session.begin_with(one)
        return session

    def bring_in(self, text: str, tell: Callable[[int], None] | None = None) -> Session:
        """Add a job that was exported from another log, once it has been opened apart from this one.

        Where that takes long, `tell` is told now and then which entry it has come to.

        Raises:
            JobFileFault: the first fault in the text, with its line.
            JobExists: there is a job of that name here; nothing is added then either.
            RecipeFaults: its recipe is refused.
            Refusal: the job cannot be opened.
        """
        with Shop(":memory:", self._clock) as apart:
            job = import_job(apart.log, text)
            try:
                apart._check_recipe(job)
                apart.open(job).standing()
            except LogDamaged as damage:
                raise fault_of_entry(text, damage.number, damage.fault) from None
            try:
                apart._admit(job, tell)
            except NotAdmitted as wrong:
                raise refused_entry(text, wrong.number, wrong.words) from None
        import_job(self.log, text)
        return self.open(job)

    def check_as_carried(self, job: str) -> None:
        """Raise LogDamaged where a job would not be taken if it were carried here: no command has made it."""
        try:
            self._check_recipe(job)
            self._admit(job)
        except NotAdmitted as wrong:
            raise damaged(job, wrong.number, "would be refused if it were typed") from wrong

    def _check_recipe(self, job: str) -> None:
        beginning = beginning_of(self.log.entries(job))
        keep_to(beginning.grades)
        if not is_what_its_text_says(beginning):
            raise damaged(job, 1, "holds a recipe that is not what its text says in this version")

    def _admit(self, job: str, tell: Callable[[int], None] | None = None) -> None:
        entries = self.log.entries(job)
        admit_all(self.plans.of(job, beginning_of(entries)), entries, tell)

    def open(self, job: str) -> Session:
        """A job by its name or an unambiguous beginning of it; raises EntryFault for none or several."""
        name = self.named(job)
        entries = self.log.entries(name)
        return self._session(name, self.plans.of(name, beginning_of(entries)), entries)

    def _session(self, job: str, plan: Plan, entries: list[Entry]) -> Session:
        system = self.system or plan.recipe.system
        session = Session(self.log, job, plan, system, self._clock, entries, self.keep_copies)
        session.rack = self.rack
        return session

    def jobs(self) -> tuple[JobSummary, ...]:
        """Every job, the latest touched first and those set aside last."""
        return in_order(self.summary(name) for name in self.log.jobs())

    def summary(self, name: str) -> JobSummary:
        """One job's line in the list of them all."""
        return summary(self.log, name, self.plans)

    def named(self, job: str) -> str:
        """The whole name of a job that is named by it or by an unambiguous beginning; raises EntryFault.

        Where no name begins so, the one job of that recipe's file: that is what `coach begin` was given.
        """
        names = self.log.jobs()
        wanted, begun = as_kept(job), meant(job, names)
        if len(begun) == 1:
            return begun[0]
        if begun:
            raise EntryFault(
                f"Several jobs begin with {job[:40]!r}: {', '.join(map(marked, begun[:6]))}; type more of it."
            )
        if not names:
            raise EntryFault("There is no job yet: begin one with 'coach begin RECIPE'.")
        if of_recipe := [
            name for name, file in self.log.begun_from() if file and as_kept(Path(file).stem) == wanted
        ]:
            if len(of_recipe) == 1:
                return of_recipe[0]
            told = ", ".join(map(marked, of_recipe[:6]))
            raise EntryFault(
                f"Several jobs were begun from the recipe {job[:40]!r}: {told}; type one of them."
            )
        more = f" and {len(names) - _NAMED} more" if len(names) > _NAMED else ""
        told = f"the jobs are {', '.join(map(marked, names[:_NAMED]))}{more}."
        hint = did_you_mean(wanted, names, told)
        raise EntryFault(f"There is no job called {job[:40]!r}{odd_in(job)}: {hint}")

    def _new_name(self, wanted: str, *, given: bool) -> str:
        name = as_kept(wanted)
        if not given:  # a recipe's file may be called anything
            name = re.sub(r"[^\w]+", "-", name).strip("-_")[:_LONGEST_STEM] or "job"
        if not is_job_name(name):
            raise EntryFault(
                f"{wanted[:LONGEST_JOB]!r} cannot be a job's name{odd_in(wanted)}: it takes {JOB_NAMES}."
            )
        names = set(self.log.jobs())
        if name not in names:
            return name
        if given:
            raise EntryFault(f"There is a job called {name!r} already: choose another name.")
        number = 2
        while f"{name}-{number}" in names:
            number += 1
        return f"{name}-{number}"


def _own_grades(recipe: Recipe) -> dict[str, str]:
    """The texts of the smith's own grades that a recipe names: a job keeps to them."""
    texts = {piece.metal: own_text(piece.metal) for piece in recipe.pieces.values()}
    return {metal: text for metal, text in texts.items() if text is not None}
