"""The list of things to put right: what was noted for it, and the tests that did not pass."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from coach.bench.entering import EntryFault
from coach.bench.entries import Entry
from coach.bench.replay import RIGHTED, TO_RIGHT, JobState
from coach.bench.standing import RightView
from coach.forms import said
from coach.ledger.course import Course, Outcome
from coach.ledger.verdict import Verdict
from coach.operations.shop_tests import TEST_KEYS
from coach.recipe.model import Recipe, Step

_LONGEST = 400


def to_right_body(recipe: Recipe, step: Step | None, text: str, zone: str | None) -> dict[str, object]:
    """What the entry of a thing to put right holds.

    Args:
        recipe: the job's recipe.
        step: the step in hand.
        text: what is to be put right; "bit: not closed at the heel" says the zone too.
        zone: the zone, when it is told apart; None takes that of the text or of the step.

    Raises:
        EntryFault: nothing was said, too much, or of a zone that there is not.
    """
    kept = " ".join(text.split())
    zones = {name.casefold(): name for name in recipe.drawing}
    if zone is None:
        before, colon, after = kept.partition(":")
        if colon and before.strip().casefold() in zones and after.strip():
            zone, kept = zones[before.strip().casefold()], after.strip()
        elif step is not None and len(step.zones) == 1:
            zone = step.zones[0]
    elif zone.strip().casefold() not in zones:
        raise EntryFault(f"There is no zone called {zone[:30]!r}; the zones are {', '.join(recipe.drawing)}.")
    else:
        zone = zones[zone.strip().casefold()]
    if not kept:
        raise EntryFault("Nothing was said: type what is to be put right.")
    if len(kept) > _LONGEST:
        raise EntryFault(f"What is to be put right is {len(kept)} characters long; keep it under {_LONGEST}.")
    return {"text": kept, "zone": zone or "", "step": step.number if step is not None else 0}


def rights(
    state: JobState, course: Course | None, entries: Sequence[Entry], out: frozenset[int]
) -> tuple[RightView, ...]:
    """Everything still to be put right, in the order it came up."""
    settled = {
        entry.body.get("entry") for entry in entries if entry.kind == RIGHTED and entry.number not in out
    }
    found = [_noted(entry) for entry in entries if entry.kind == TO_RIGHT and entry.number not in out]
    found += _failed(state, course, {entry.number: entry for entry in entries})
    return tuple(sorted((one for one in found if one.entry not in settled), key=lambda one: one.entry))


def _noted(entry: Entry) -> RightView:
    step = entry.body.get("step")
    return RightView(
        entry.number,
        str(entry.body["text"]),
        str(entry.body.get("zone", "")),
        step if isinstance(step, int) else 0,
        entry.at,
    )


def _failed(state: JobState, course: Course | None, entries: dict[int, Entry]) -> Iterable[RightView]:
    """Tests whose last outcome is a doubt or a failure: the next pass takes them off."""
    latest: dict[tuple[str, str], tuple[Outcome, Step]] = {}
    followed = [record.course for record in state.records if record.course is not None]
    for one in [*followed, *([course] if course is not None else [])]:
        for outcome in one.outcomes:
            reading = outcome.mark.reading
            if reading.dimension in TEST_KEYS:
                latest[reading.zone, reading.dimension] = outcome, one.step
    for (zone, test), (outcome, step) in latest.items():
        if outcome.judged is None or outcome.judged.verdict is Verdict.GOOD:
            continue
        word = "failed" if outcome.judged.verdict is Verdict.OUT else "in doubt"
        number = outcome.mark.entry
        yield RightView(number, f"{said(test)} {word}", zone, step.number, entries[number].at)


def right_text(right: RightView) -> str:
    """One thing to put right, with its zone: "bit: not closed at the heel (step 23)"."""
    zone = f"{right.zone}: " if right.zone else ""
    return f"{zone}{right.text} (step {right.step})" if right.step else f"{zone}{right.text}"
