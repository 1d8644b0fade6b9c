"""What jobs have taught, kept as text: none of them is replayed for it again while nothing is added to it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from coach.bench.known_hand import HandTaught
from coach.bench.shop_figures import Taught
from coach.ledger.over_jobs import Known
from coach.log.kinds.hand_known import HandKnown
from coach.recipe.model import Scale

if TYPE_CHECKING:
    from coach.remembered import Memory


class OfJob(NamedTuple):
    """What one job has taught; None of what it has taught nothing of."""

    figures: Taught | None
    hand: HandTaught | None


class LessonsKept:
    """What the jobs of one log have taught, by the digest of the last entry of each, which seals the others.

    Whatever is entered in a job, a reading that is struck out or another window's work, makes void what is
    kept of it.
    """

    def __init__(self, memory: Memory | None, path: Path) -> None:
        """Of the log at `path`; without a memory nothing is kept."""
        self._memory, self._name = memory, f"lessons of {path.absolute()}"
        self._known: dict[str, tuple[str, OfJob]] = {}
        self._is_new = False
        kept = memory.recall(self._name, ()) if memory is not None else None
        with suppress(Exception):  # what cannot be read is reckoned anew
            self._known = {job: (digest, _from_json(held)) for job, digest, held in json.loads(kept or "[]")}

    def of(self, job: str, digest: str) -> OfJob | None:
        """What a job has taught up to that entry; None where that is not known."""
        was, found = self._known.get(job, ("", None))
        return found if was == digest else None

    def take(self, job: str, digest: str, found: OfJob) -> None:
        """Take what a job has taught up to that entry."""
        self._known[job] = digest, found
        self._is_new = True

    def keep(self, jobs: Iterable[str]) -> None:
        """Keep those of these jobs, where any is new."""
        if self._memory is None or not self._is_new:
            return
        wanted = {*jobs}
        rows = [(job, *row) for job, row in self._known.items() if job in wanted]
        held = [(job, digest, _to_json(found)) for job, digest, found in rows]
        self._memory.keep(self._name, (), json.dumps(held, ensure_ascii=False))
        self._is_new = False


def _to_json(found: OfJob) -> Mapping[str, object]:
    figures = None if found.figures is None else found.figures._asdict()
    if figures is not None:
        figures["heats"] = dict(figures["heats"])
    return {"figures": figures, "hand": None if found.hand is None else _of_hand(found.hand)}


def _of_hand(found: HandTaught) -> Mapping[str, object]:
    begun = None if found.begun is None else found.begun.to_json()
    return {"known": found.known.to_json(), "left_out": found.left_out, "begun": begun}


def _from_json(held: Mapping[str, Any]) -> OfJob:
    figures, hand = held["figures"], held["hand"]
    if figures is not None:
        says = {name: Known(*one) for name, one in figures["says"].items()}
        heats = {title: (taken, planned) for title, (taken, planned) in figures["heats"].items()}
        rates = Scale(*figures["rates"])
        figures = Taught(**figures | {"rates": rates, "says": says, "heats": heats})
    if hand is not None:
        begun = None if hand["begun"] is None else HandKnown.from_json(hand["begun"])
        hand = HandTaught(HandKnown.from_json(hand["known"]), int(hand["left_out"]), begun)
    return OfJob(figures, hand)
