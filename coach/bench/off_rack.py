"""What jobs took of the rack's bars beside what was cut off for them: as marked, as cut, by ways back."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from typing import TYPE_CHECKING, NamedTuple

from coach.bench.beginnings import Plans, beginning_of
from coach.bench.off_bar import taken_off_bars
from coach.bench.rack import LyingBar, RackOfShop
from coach.bench.replay import replay
from coach.ledger.plan import Plan
from coach.log.entries import Entry
from coach.log.jobs import Log
from coach.metals.grade import grade, keep_to
from coach.recipe.model import Piece

if TYPE_CHECKING:
    from coach.bench.job_state import JobState
    from coach.remembered import Memory

#: Sections that are nearer than this to each other are one bar's (our choice).
_ALIKE_MM = 0.01


class TakenOfSuch(NamedTuple):
    """What one piece of a job took, beside its plan, of a bar like this."""

    form: str
    sizes_mm: tuple[float, ...]  # of its section, the least first
    metal: str  # its grade
    beyond_mm: float  # less than nothing where less was taken
    found: str  # the grade that the job found it to be since
    way: int = 0  # the number of the entry that it was cut anew by, off another bar; 0 for the job's own

    def is_of(self, bar: LyingBar) -> bool:
        """Whether it is from such a bar."""
        there = sorted(one.value for one in bar.sizes)
        alike = len(there) == len(self.sizes_mm) and all(
            abs(one - other) < _ALIKE_MM for one, other in zip(self.sizes_mm, there, strict=True)
        )
        return alike and self.form == bar.form and self.metal == bar.metal


class OffRack:
    """What each job of a log took beside its plan; replayed once for as long as nothing is added."""

    def __init__(self, log: Log, plans: Plans, memory: Memory | None = None) -> None:
        """By the plans of what jobs began with; with a memory, what is found is kept in it."""
        self._log, self._plans, self._memory = log, plans, memory

    def beyond_mm(self, job: str, bar: LyingBar, way: int = 0) -> float | None:
        """How much more than planned it took of such a bar; None where it cannot be followed.

        With the number of an entry: how much more than that says was cut anew by it.
        """
        try:
            taken = self._taken(job, self._log.entries(job))
        except Exception:  # whatever a job may be, the rack is told, and that this job is not to be followed
            return None
        finally:
            keep_to({})  # a job has its own grades
        return beyond_of(taken, bar, way)

    def found(self, job: str, bar: LyingBar) -> str:
        """The grade that it found such a bar to be; "" for none, for two, and where it cannot be followed."""
        try:
            taken = self._taken(job, self._log.entries(job))
        except Exception:  # as above: it is told there
            return ""
        finally:
            keep_to({})
        found = {one.found for one in taken if one.is_of(bar)}
        return found.pop() if len(found) == 1 else ""

    def _taken(self, job: str, entries: Sequence[Entry]) -> tuple[TakenOfSuch, ...]:
        name, key = f"off each bar {self._log.path.absolute()} {job}", (entries[-1].digest,)
        kept = self._memory.recall(name, key) if self._memory is not None else None
        with suppress(ValueError, TypeError):  # what cannot be read is reckoned anew
            if kept is not None:
                rows = json.loads(kept)
                return tuple(TakenOfSuch(form, tuple(sizes), *rest) for form, sizes, *rest in rows)
        found = self._replayed(job, entries)
        if self._memory is not None:
            self._memory.keep(name, key, json.dumps(found, ensure_ascii=False))
        return found

    def _replayed(self, job: str, entries: Sequence[Entry]) -> tuple[TakenOfSuch, ...]:
        begun = self._plans.of(job, beginning_of(entries))
        return taken_by(begun, replay(begun, entries))


def taken_by(begun: Plan, state: JobState) -> tuple[TakenOfSuch, ...]:
    """What a job took as it stands, beside the plan that it began by."""
    held = state.bars_plan
    pieces, now = held.recipe.pieces, state.plan.recipe.pieces
    found: list[TakenOfSuch] = []
    for one in taken_off_bars(state):
        more_mm = _planned_besides_mm(begun, held, one.piece)
        such = _such(pieces[one.piece], one.beyond_mm + more_mm, now.get(one.piece))
        others = (such._replace(beyond_mm=other.beyond_mm, way=other.way) for other in one.elsewhere)
        found += [such, *others]
    return (*found, *_never_taken(begun, pieces))


def beyond_of(taken: Iterable[TakenOfSuch], bar: LyingBar, way: int = 0) -> float:
    """How much of that is of such a bar; with the number of an entry, what was cut anew by that."""
    return sum(one.beyond_mm for one in taken if one.way == way and (way or one.is_of(bar)))


def _planned_besides_mm(begun: Plan, held: Plan, name: str) -> float:
    """How much more of the same bar a piece is planned with, once its zones were parted anew."""
    was, now = begun.pieces.get(name), held.pieces.get(name)
    if was is None or now is None or _such(begun.recipe.pieces[name]) != _such(held.recipe.pieces[name]):
        return 0.0
    return now.length.value - was.length.value


def _never_taken(begun: Plan, pieces: Mapping[str, Piece]) -> Iterator[TakenOfSuch]:
    """What was to go off the bars of the beginning, where another bar lay there as it was marked out."""
    for name, was in begun.recipe.pieces.items():
        if was.layers or was.source or name not in begun.pieces:
            continue
        such = _such(was)
        if name not in pieces or such != _such(pieces[name]):
            yield such._replace(beyond_mm=-begun.pieces[name].length.value)


def _such(piece: Piece, beyond_mm: float = 0.0, now: Piece | None = None) -> TakenOfSuch:
    sizes = sorted(mm for name, mm in piece.stock.sizes_mm.items() if name != "length")
    metal, found = grade(piece.metal).name, grade((now or piece).metal).name
    return TakenOfSuch(piece.stock.shape.kind, tuple(sizes), metal, beyond_mm, found)


def another_bar(rack: RackOfShop | None, piece: Piece, length_mm: float) -> str:
    """The bar of the rack that so much of a piece can be taken from and least is left of; "" for none."""
    there = rack.now().bars if rack is not None else ()
    such = _such(piece)
    enough = [bar for bar in there if bar.length.value >= length_mm and such.is_of(bar)]
    return min(enough, key=lambda bar: bar.length.value).name if enough else ""
