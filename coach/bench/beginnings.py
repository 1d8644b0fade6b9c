"""What a job began with, the plan of that, and the job's line in the list of them all."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence

from coach import __version__
from coach.bench.belonging import check_entries
from coach.bench.glance import JobSummary
from coach.bench.happened import as_it_happened, worked_at
from coach.bench.progress import progress, struck_numbers
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.log.entries import Entry
from coach.log.errors import TAKE_BACK, LogDamaged
from coach.log.jobs import Log
from coach.log.kinds.began import Began
from coach.log.kinds.lesson_left_out import LessonLeftOut
from coach.log.kinds.struck import Struck
from coach.log.status import JobStatus
from coach.metals.grade import keep_to
from coach.quantities.refusal import Refusal
from coach.quantities.words import say
from coach.recipe.faults import RecipeFaults
from coach.recipe.freezing import NotThawed, hangs_together, thawed
from coach.recipe.model import Recipe

#: How many are kept (our choice).
_PLANS_KEPT = 50


class Plans:
    """The plans of what jobs began with, which many jobs of one recipe share."""

    def __init__(self) -> None:
        """None of them is known at first."""
        self._plans: dict[tuple[str, ...], Plan] = {}

    def of(self, job: str, beginning: Began) -> Plan:
        """The plan of what a job began with.

        Raises LogDamaged where nothing can be reckoned with it, which is for a hand or a program to have
        made; another Refusal where its recipe, its grades or its metal are refused.
        """
        keep_to(beginning.grades)
        key = beginning.recipe, beginning.text, beginning.source, *map(str, beginning.grades.items())
        if key not in self._plans:
            while len(self._plans) >= _PLANS_KEPT:
                self._plans.pop(next(iter(self._plans)))
            unfit = damaged(job, 1, "holds a recipe that nothing can be reckoned with")
            recipe = recipe_of(beginning)
            if not hangs_together(recipe):
                raise unfit
            try:
                self._plans[key] = look_back(recipe)
            except Refusal:
                raise
            except Exception as error:  # whatever a recipe may be that none of our readers has read
                raise unfit from error
        return self._plans[key]


def beginning_of(entries: Sequence[Entry]) -> Began:
    """What a job began with."""
    body = entries[0].body
    assert isinstance(body, Began)  # the log sees to it
    return body


def recipe_of(beginning: Began) -> Recipe:
    """The recipe frozen into a job; read from its text again when another version of the coach froze it."""
    try:
        return thawed(_kept(beginning), beginning.text, beginning.source)
    except NotThawed:
        from coach.recipe.reader import read_recipe

        return read_recipe(beginning.text, beginning.source)


def is_what_its_text_says(beginning: Began) -> bool:
    """Whether the recipe frozen into a job says nothing else than its text does to this version.

    One that another version froze may be kept otherwise than this one can read, but as an object it was.
    Raises RecipeFaults.
    """
    from coach.recipe.reader import read_recipe

    read, kept = read_recipe(beginning.text, beginning.source), _kept(beginning)
    try:
        return thawed(kept, beginning.text, beginning.source) == read
    except NotThawed:
        return bool(kept) and beginning.coach != __version__


def damaged(job: str, number: int, fault: str) -> LogDamaged:
    """The refusal of a job for one of its entries; `fault` goes on after its number."""
    told = f"Job {job!r} is damaged, entry {number} {fault}: {TAKE_BACK}."
    return LogDamaged(told, job, number, fault=fault)


def _kept(beginning: Began) -> Mapping[str, object]:
    """The recipe as a job's first entry keeps it; nothing when it keeps none that can be read."""
    try:
        kept = json.loads(beginning.recipe)
    except (ValueError, RecursionError):
        return {}
    return kept if isinstance(kept, Mapping) else {}


def taken_up_at(entries: Sequence[Entry]) -> str:
    """The moment of a job's newest entry, those aside that only say what it is to teach the shop."""
    of_shop = {one.number for one in entries if isinstance(one.body, LessonLeftOut)}
    return next(
        one.at
        for one in reversed(entries)
        if one.number not in of_shop and not (isinstance(one.body, Struck) and one.body.entry in of_shop)
    )


def summary(log: Log, name: str, plans: Plans) -> JobSummary:
    """One job's line in the list of them all."""
    title, last_at = name, ""
    try:
        entries = log.entries(name)
        beginning = beginning_of(entries)
        title, last_at = beginning.title, taken_up_at(entries)
        recipe = plans.of(name, beginning).recipe
        check_entries(name, recipe, entries)
        done, status, titles = progress(entries, [step.title for step in recipe.steps])
    except Refusal as refused:
        trouble = refused.words
        if isinstance(refused, RecipeFaults):
            trouble = say("The recipe of {} cannot be read: {}", repr(name), trouble)
        return JobSummary(name, title, JobStatus.DAMAGED, 0, 0, "", last_at, last_at, trouble)
    return JobSummary(
        job=name,
        title=title,
        state=status,
        step=min(done + 1, len(titles)),
        steps=len(titles),
        step_title=titles[done] if done < len(titles) else "",
        last_at=last_at,
        worked_at=worked_at(as_it_happened(entries, struck_numbers(entries))),
    )
